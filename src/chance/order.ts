/** An order in which the moments of a graph can be reckoned one after the other. */

/**
 * Groups of nodes that hang on each other in a circle (nodes alone, mostly), each after all from which arcs lead to it (R. Tarjan, SIAM
 * Journal on Computing 1(2), 1972).
 */
export function inOrder(count: number, arcs: readonly { readonly from: number; readonly to: number }[]): number[][] {
  const before: number[][] = Array.from({ length: count }, () => []);
  for (const { from, to } of arcs) before[to]!.push(from);
  const groups: number[][] = [];
  const seen = new Int32Array(count);
  const low = new Int32Array(count);
  const next = new Int32Array(count);
  const open: number[] = [];
  const isOpen = new Uint8Array(count);
  let clock = 0;
  for (let root = 0; root < count; root++) {
    if (seen[root]! > 0) continue;
    const path = [root];
    while (path.length > 0) {
      const node = path.at(-1)!;
      if (seen[node] === 0) {
        clock++;
        seen[node] = clock;
        low[node] = clock;
        open.push(node);
        isOpen[node] = 1;
      }
      const list = before[node]!;
      if (next[node]! < list.length) {
        const other = list[next[node]!]!;
        next[node]!++;
        if (seen[other] === 0) path.push(other);
        else if (isOpen[other] === 1) low[node] = Math.min(low[node]!, seen[other]!);
        continue;
      }
      path.pop();
      const above = path.at(-1);
      if (above !== undefined) low[above] = Math.min(low[above]!, low[node]!);
      if (low[node] === seen[node]) groups.push(closed(node, open, isOpen));
    }
  }
  return groups;
}

function closed(node: number, open: number[], isOpen: Uint8Array): number[] {
  const group: number[] = [];
  for (;;) {
    const one = open.pop()!;
    isOpen[one] = 0;
    group.push(one);
    if (one === node) return group;
  }
}
