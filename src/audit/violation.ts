/** What the audit has to say against a plan. */
export interface Violation {
  /** The rule of a right plan, 1 to 10; 0: the plan says something about itself that is not so. */
  readonly rule: 0 | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10;
  /** A stable word for the kind of fault within the rule. */
  readonly code: string;
  /** The fault in a cook's words. */
  readonly say: string;
  /** The rows concerned, as `Dish/step`. */
  readonly steps: readonly string[];
}

/** `1 minute`, `5 minutes`. */
export function inMinutes(count: number): string {
  return `${count} ${count === 1 ? 'minute' : 'minutes'}`;
}

/** A temperature as it is read aloud; two digits are finer than any dial. */
export function inDegrees(celsius: number): string {
  return `${Math.round(celsius * 100) / 100} °C`;
}
