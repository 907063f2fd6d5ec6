/** The built command as a process of its own. */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
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

  it('imports nothing but its own parts and those of Node', () => {
    const files = readdirSync('dist/cli').filter((name) => name.endsWith('.js'));
    const imports = files.flatMap((name) => {
      const text = readFileSync(join('dist/cli', name), 'utf8');
      return [...text.matchAll(/^(?:import|export)\b[^;'"]*?['"]([^'"]+)['"];$/gm)].map((match) => match[1]!);
    });
    const parts = imports.filter((name) => name.startsWith('./'));
    expect(parts.length).toBeGreaterThan(0);
    expect(parts.filter((name) => !files.includes(name.slice(2)))).toEqual([]);
    const others = imports.filter((name) => !parts.includes(name) && !name.startsWith('node:'));
    expect(others.filter((name) => !builtinModules.includes(name))).toEqual([]);
  });

  it('brings the licences of the packages that are in it', () => {
    const licences = readFileSync('dist/cli/LICENSES.txt', 'utf8')
      .split(`\n${'-'.repeat(80)}\n`)
      .slice(1);
    const names = licences.map((licence) => /^\n(\S+) \d+\.\d+\.\d+ \(.+\)\n/.exec(licence)?.[1]);
    expect(names).toEqual(expect.arrayContaining(['commander', 'ink', 'react', 'yaml', 'yoga-layout', 'zod']));
    expect(licences.filter((licence) => !/copyright|public domain/i.test(licence))).toEqual([]);
  });
});
