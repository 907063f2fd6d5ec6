/** Exit codes, and the two ways in which a command ends without a result. */

export const EXIT = {
  plan: 0,
  /** No plan fits; why, and ways out, have been said. */
  none: 1,
  /** Bad usage or input. */
  usage: 2,
  /** A fault of ours. */
  fault: 70,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** What the user asked cannot be done as asked. The message stands alone, without a stack trace. */
export class UsageError extends Error {
  override name = 'UsageError';
}

/** Something that must not happen did. */
export class FaultError extends Error {
  override name = 'FaultError';
}
