/** What a checker says of a schedule: its objective, worked out anew, and everything that is wrong with it. */
export interface Verdict {
  readonly value: number;
  readonly faults: readonly string[];
}
