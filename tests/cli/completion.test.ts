import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { ran } from '../support/command.js';

const has = (shell: string): boolean => {
  try {
    execFileSync(shell, ['-c', 'true'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
};

/** What bash would propose for a line whose last word is being typed. */
function proposals(script: string, line: string): string[] {
  const words = line.split(' ');
  const ask = `${script}
COMP_WORDS=(${words.map((word) => `'${word}'`).join(' ')}); COMP_CWORD=${words.length - 1}
_hearthtable; printf '%s\\n' "\${COMPREPLY[@]}"`;
  return execFileSync('bash', ['--norc', '-c', ask], { encoding: 'utf8' }).split('\n').filter(Boolean);
}

describe('completion', () => {
  it('names every command and option, for every shell', async () => {
    for (const shell of ['bash', 'zsh', 'fish']) {
      const { code, stdout, stderr } = await ran(['completion', shell]);
      expect([code, stderr]).toEqual([0, '']);
      for (const word of ['plan', 'check', 'schema', 'completion', 'effort', 'serve', 'ascii', 'quick normal deep']) {
        expect(stdout).toContain(word);
      }
    }
  });

  it('proposes folders and files where an option takes them', async () => {
    expect((await ran(['completion', 'zsh'])).stdout).toContain(':value:_files -/');
    expect((await ran(['completion', 'fish'])).stdout).toMatch(/-l output -r -F /);
  });

  it.skipIf(!has('bash'))('works in bash', async () => {
    const { stdout } = await ran(['completion', 'bash']);
    expect(proposals(stdout, 'hearthtable pl')).toEqual(['plan']);
    expect(proposals(stdout, 'hearthtable plan --eff')).toEqual(['--effort']);
    expect(proposals(stdout, 'hearthtable plan --effort d')).toEqual(['deep']);
    expect(proposals(stdout, 'hearthtable completion f')).toEqual(['fish']);
    expect(proposals(stdout, 'hearthtable plan package')).toContain('package.json');
    expect(proposals(stdout, 'hearthtable estimate --th')).toEqual(['--thickness']);
    expect(proposals(stdout, 'hearthtable estimate --shape s')).toEqual(['sphere', 'slab']);
    expect(proposals(stdout, 'hearthtable estimate package')).toEqual([]);
    expect(proposals(stdout, 'hearthtable share --as h')).toEqual(['html']);
    expect(proposals(stdout, 'hearthtable share --plan package.js')).toEqual(['package.json']);
  });
});
