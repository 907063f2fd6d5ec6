/** Runs the command within the test's own process, with stand-ins for the terminal. */
import type { Io } from '../../cli/io.js';
import { run } from '../../cli/run.js';

export interface Ran {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

export interface Around {
  readonly env?: Record<string, string>;
  readonly tty?: boolean;
  readonly columns?: number;
}

export async function ran(args: readonly string[], around: Around = {}): Promise<Ran> {
  const out: string[] = [];
  const err: string[] = [];
  const io: Io = {
    env: around.env ?? {},
    stdin: { isTTY: false },
    stdout: {
      isTTY: around.tty ?? false,
      columns: around.columns ?? 80,
      rows: 24,
      write: (text) => out.push(text),
    },
    stderr: { isTTY: false, write: (text) => err.push(text) },
  };
  const code = await run(args, io);
  return { code, stdout: out.join(''), stderr: err.join('') };
}
