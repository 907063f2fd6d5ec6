/** Commands with what each prints and how it ends, as tests of their own. */
import { expect, it } from 'vitest';
import { ran } from './command.js';

export interface Case {
  readonly args: readonly string[];
  readonly code: number;
  /** Parts of what is printed; absent: nothing is. */
  readonly stdout?: readonly (string | RegExp)[];
  readonly stderr?: readonly (string | RegExp)[];
}

/** No case prints a stack trace, or a figure that is none. */
export function expectEach(cases: readonly Case[]): void {
  for (const { args, code, stdout, stderr } of cases) {
    it(['hearthtable', ...args].join(' '), async () => {
      const result = await ran(args);
      expect(result.code, result.stderr).toBe(code);
      if (!stdout) expect(result.stdout).toBe('');
      if (!stderr) expect(result.stderr).toBe('');
      for (const part of stdout ?? []) expect(result.stdout).toMatch(part);
      for (const part of stderr ?? []) expect(result.stderr).toMatch(part);
      expect(result.stdout + result.stderr).not.toMatch(/\n\s+at .*:\d+:\d+|undefined|NaN|Infinity/);
    });
  }
}
