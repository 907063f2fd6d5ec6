/** What does not fit in together at one instant, asked of the machine itself, by kinds of load. */

/** So many equal things that stand together. */
export interface Kind {
  readonly load: number;
  readonly count: number;
}

/** Of these kinds no more than `most` single things are ever in at once. */
export interface Cap {
  readonly kinds: ReadonlySet<number>;
  readonly most: number;
}

export interface Clashes {
  readonly caps: readonly Cap[];
  /** Least sets that do not fit and break no cap: how many of each kind. */
  readonly sets: readonly (readonly number[])[];
}

type Amounts = readonly number[];

export function clashesOf(kinds: readonly Kind[], available: Amounts, fits: (amounts: Amounts) => boolean): Clashes {
  const fitting: Amounts[] = [];
  const clashing: Amounts[] = [];
  const within = (small: Amounts, large: Amounts): boolean => small.every((n, k) => n <= large[k]!);
  let layer: Amounts[] = [kinds.map(() => 0)];
  while (layer.length > 0) {
    const next = new Map<string, Amounts>();
    for (const amounts of layer) {
      for (const k of kinds.keys()) {
        const more = amounts.map((n, j) => (j === k ? n + 1 : n));
        const key = more.join(' ');
        if (more[k]! > available[k]! || next.has(key) || clashing.some((clash) => within(clash, more))) continue;
        if (fits(more)) {
          next.set(key, more);
          fitting.push(more);
        } else clashing.push(more);
      }
    }
    layer = [...next.values()];
  }
  const caps = capsOf(kinds, available, fitting);
  const things = (amounts: Amounts, among: ReadonlySet<number>): number =>
    amounts.reduce((sum, n, k) => sum + (among.has(k) ? n * kinds[k]!.count : 0), 0);
  return {
    caps,
    sets: clashing.filter((amounts) => caps.every(({ kinds: among, most }) => things(amounts, among) <= most)),
  };
}

/** For each number n above 0: the kinds of which no more than n fit in alone, and how many of all these fit in. */
function capsOf(kinds: readonly Kind[], available: Amounts, fitting: readonly Amounts[]): Cap[] {
  const alone = kinds.map((kind, k) => {
    const own = fitting.filter((amounts) => amounts.every((n, j) => (j === k ? n > 0 : n === 0)));
    return kind.count * Math.max(0, ...own.map((amounts) => amounts[k]!));
  });
  const found: Cap[] = [];
  for (const n of [...new Set(alone)].filter((each) => each > 0).sort((a, b) => a - b)) {
    const among = new Set([...kinds.keys()].filter((k) => alone[k]! > 0 && alone[k]! <= n));
    const count = (amounts: Amounts): number =>
      amounts.reduce((sum, each, k) => sum + (among.has(k) ? each * kinds[k]!.count : 0), 0);
    const most = Math.max(0, ...fitting.map(count));
    if (count(available) > most) found.push({ kinds: among, most });
  }
  return found;
}
