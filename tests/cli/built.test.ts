/** The built command as a process of its own. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const built = existsSync('dist/cli/main.js');
if (!built) console.warn('Tests of the built command are skipped: dist is not built (npm run build).');
const shell = (script: string) => spawnSync('sh', ['-c', script], { encoding: 'utf8' });

describe.skipIf(!built)('dist/cli/main.js', () => {
  it('begins with the line that makes it a command', () => {
    expect(shell('head -n 1 dist/cli/main.js').stdout).toBe('#!/usr/bin/env node\n');
  });

  it('is quiet when its reader stops early', () => {
    const { stdout, stderr } = shell('{ node dist/cli/main.js schema; echo "code $?" >&2; } | head -n 1');
    expect([stdout, stderr]).toEqual(['{\n', 'code 0\n']);
  });

  it('gives its exit code to the shell', () => {
    expect(shell('node dist/cli/main.js plan nowhere.yaml').status).toBe(2);
    expect(shell('node dist/cli/main.js completion fish').status).toBe(0);
  });
});
