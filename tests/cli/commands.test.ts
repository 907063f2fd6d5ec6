/** Arguments in; what is printed and the exit code out. */
import { describe, expect, it } from 'vitest';
import { planDocument } from '../../src/plan/document.js';
import { ran } from '../support/command.js';
import { type Case, expectEach } from '../support/command-cases.js';

const MEAL = 'tests/screens/meals/two-dishes.yaml';
const WRONG = 'tests/cli/meals/wrong.yaml';
const ONE_POT = 'tests/cli/meals/one-pot.yaml';
const NO_TIME = 'tests/cli/meals/no-time.yaml';

const cases: readonly Case[] = [
  { args: [], code: 2, stderr: ['Usage: hearthtable', 'Examples:'] },
  { args: ['--help'], code: 0, stdout: ['Commands:', 'plan [options] <file>', 'Examples:', 'Exit codes: 0 a plan'] },
  { args: ['--version'], code: 0, stdout: [/^\d+\.\d+\.\d+\n$/] },
  { args: ['plan', '--help'], code: 0, stdout: ['--effort', 'Examples:'] },
  { args: ['check', '--help'], code: 0, stdout: ['Examples:'] },
  { args: ['schema', '--help'], code: 0, stdout: ['Examples:'] },
  { args: ['completion', '--help'], code: 0, stdout: ['Examples:'] },
  { args: ['plam', MEAL], code: 2, stderr: ["unknown command 'plam'", 'Did you mean plan?'] },
  { args: ['plan'], code: 2, stderr: ["missing required argument 'file'"] },
  { args: ['plan', MEAL, '--asci'], code: 2, stderr: ['Did you mean --ascii?'] },
  { args: ['plan', MEAL, 'more'], code: 2, stderr: ['too many arguments'] },
  { args: ['plan', MEAL, '--effort', 'huge'], code: 2, stderr: ['quick, normal, deep'] },
  { args: ['plan', MEAL, '--seed', '1.5'], code: 2, stderr: ['A whole number from 0'] },
  { args: ['plan', MEAL, '--width', '5'], code: 2, stderr: ['A whole number from 20 to 500'] },
  { args: ['plan', MEAL, '--color', 'pink'], code: 2, stderr: ['auto, always, never'] },
  { args: ['plan', MEAL, '--serve', '25:00'], code: 2, stderr: ['--serve: `25:00` is not', 'Perhaps: 18:30'] },
  { args: ['plan', MEAL, '--start', 'noonish'], code: 2, stderr: ['--start: '] },
  { args: ['plan', 'nowhere.yaml'], code: 2, stderr: ['nowhere.yaml:1:1: There is no such file.'] },
  { args: ['plan', 'tests'], code: 2, stderr: ['tests:1:1: '] },
  {
    args: ['plan', WRONG],
    code: 2,
    stderr: [`${WRONG}:10:5: `, 'Perhaps: steps', `${WRONG}:14:`, /\d mistakes in all/],
  },
  { args: ['check', WRONG], code: 2, stderr: ['Perhaps: steps'] },
  {
    args: ['check', MEAL],
    code: 0,
    stdout: ['2 dishes, 4 steps, 1 cook; Small kitchen.', 'All of it fits at once.', '┏━'],
  },
  {
    args: ['check', ONE_POT],
    code: 1,
    stdout: [
      'Broth and Rice want 2 of the pan "pot" and there is one',
      '`empties: yes`',
      'As it stands, no plan fits.',
    ],
  },
  {
    args: ['plan', MEAL, '--effort', 'quick'],
    code: 0,
    stdout: [
      'Two dishes and one oven',
      'Saturday 7 November 2026, 19:00',
      '180°C roast',
      '\nHeat\n',
      '\nCalls\n',
      'What it costs',
    ],
  },
  { args: ['plan', MEAL, '--effort', 'quick', '--serve', '20:30'], code: 0, stdout: ['7 November 2026, 20:30'] },
  {
    args: ['plan', MEAL, '--effort', 'quick', '--serve', '2026-11-08 12:00'],
    code: 0,
    stdout: ['8 November 2026, 12:00'],
  },
  {
    args: ['plan', NO_TIME],
    code: 0,
    stdout: [
      'meal 19:20 (20 min late)',
      '20 min late, the least that was found',
      'What makes it late',
      'Seen back from there: ',
      /nothing\s+begins before/,
      'Ways out\n',
      '20 min earlier',
      'in time',
    ],
  },
  {
    args: ['plan', MEAL, '--effort', 'quick', '--why', '--ways-out'],
    code: 0,
    stdout: [
      'Why each step stands where it does',
      /Not later \(a minute costs [\d.]+ points\): /,
      'What more would be worth',
      'Ways out\n',
    ],
  },
  { args: ['plan', NO_TIME, '--start', '18:00'], code: 0, stdout: ['proven best: 1 point\n'] },
  { args: ['schema'], code: 0, stdout: ['"$schema"', '"dishes"'] },
  { args: ['completion', 'tcsh'], code: 2, stderr: ['bash, zsh, fish'] },
];

describe('hearthtable', () => {
  expectEach(cases);
});

describe('plan', () => {
  it('prints a plan document that its own schema accepts, and the same one again', async () => {
    const first = await ran(['plan', MEAL, '--json', '--effort', 'quick', '--seed', '4']);
    const second = await ran(['plan', MEAL, '--json', '--effort', 'quick', '--seed', '4']);
    const plan = planDocument.parse(JSON.parse(first.stdout));
    expect(plan.effort).toMatchObject({ level: 'quick', seed: 4 });
    expect(plan.steps).toHaveLength(4);
    expect(second.stdout).toBe(first.stdout);
  });

  it('prints a list instead of a chart where it is narrow', async () => {
    const { stdout } = await ran(['plan', MEAL, '--effort', 'quick', '--width', '50']);
    expect(stdout).toMatch(/^18:20–19:00 {2}A bake$/m);
    expect(stdout).not.toContain('█');
  });

  it('takes the width of a terminal, and 80 columns elsewhere', async () => {
    const widest = (text: string) => Math.max(...text.split('\n').map((line) => line.length));
    const piped = await ran(['plan', MEAL, '--effort', 'quick'], { columns: 140 });
    expect(widest(piped.stdout)).toBeLessThanOrEqual(80);
    const shown = await ran(['plan', MEAL, '--effort', 'quick', '--text'], {
      columns: 140,
      tty: true,
      env: { NO_COLOR: '1' },
    });
    expect(widest(shown.stdout)).toBeGreaterThan(100);
  });

  it('colours what it prints only where that is wanted', async () => {
    const plain = await ran(['plan', MEAL, '--effort', 'quick']);
    const always = await ran(['plan', MEAL, '--effort', 'quick', '--color', 'always']);
    const terminal = await ran(['plan', MEAL, '--effort', 'quick', '--text'], {
      tty: true,
      env: { TERM: 'xterm-256color' },
    });
    const never = await ran(['plan', MEAL, '--effort', 'quick', '--text', '--color', 'never'], { tty: true });
    const coloured = (text: string) => text.includes('\u001b[');
    expect([plain, always, terminal, never].map((result) => coloured(result.stdout))).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });
});
