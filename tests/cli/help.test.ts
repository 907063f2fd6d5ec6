/** Help fits the terminal: prose is folded to its width, examples are short enough. */
import { expect, it } from 'vitest';
import { ran } from '../support/command.js';

const COMMANDS = ['plan', 'check', 'share', 'cook', 'note', 'state', 'wall', 'estimate', 'schema', 'completion'];

it.each([[[]], ...COMMANDS.map((name) => [[name]])])('keeps to 80 columns: %s', async (command) => {
  const { stdout } = await ran([...command, '--help']);
  expect(stdout).toContain('Examples:');
  expect(stdout.split('\n').filter((line) => line.length > 80)).toEqual([]);
});
