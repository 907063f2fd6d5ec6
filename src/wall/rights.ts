/** What a link to the wall lets its holder do. */

export type Right =
  /** Whoever answers for the meal: marks everything. */
  | { readonly kind: 'all'; readonly who: string | null }
  /** A helper: marks what is theirs, and what is anyone's. */
  | { readonly kind: 'cook'; readonly who: string }
  | { readonly kind: 'look'; readonly who: null };

/** Whether it covers what these cooks have to do; nobody's is anyone's. */
export const covers = ({ kind, who }: Right, cooks: readonly string[]): boolean =>
  kind === 'all' || (kind === 'cook' && (cooks.length === 0 || cooks.includes(who!)));

/** Whether what somebody noted may be taken back. */
export const mayUndo = ({ kind, who }: Right, noted: string | null): boolean =>
  kind === 'all' || (kind === 'cook' && noted === who);
