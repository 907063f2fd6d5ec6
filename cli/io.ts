/** What every command is given. */
import type { ExitCode } from './exit.js';
import type { Surroundings } from './terminal/capability.js';

interface Writes {
  write(text: string): unknown;
}

/** Where a command reads and writes; the process itself, or a stand-in for it. */
export interface Io extends Surroundings {
  readonly stdout: Surroundings['stdout'] & Writes;
  readonly stderr: Surroundings['stderr'] & Writes;
  /** Milliseconds since the epoch, where it is not to be the machine's clock. */
  readonly now?: () => number;
  /** Comes when a command that goes on by itself is to end, where no signal is to say so. */
  readonly stopped?: () => Promise<void>;
}

/** Adds one command to the program; what it does ends in an exit code. */
export type Finish = (code: ExitCode) => void;
