/**
 * Rule 7: no more of a pan is in use, or away for washing, than there is.
 *
 * Uses that go on in the same pans are one group. At each moment a group has in use as many pans as its uses that are not
 * each other's continuation need together: along a chain the pans are the same ones, beside each other they are not.
 * Whenever a group needs fewer than before, the pans that it lets go are away for the pan's `wash`.
 */
import type { Pan } from '../../problem/problem.js';
import { type Use, usesOf } from '../pan-use.js';
import type { Reading, Row } from '../reading.js';
import { inMinutes, type Violation } from '../violation.js';

/** Some pans that are not free, half-open. */
interface Taken {
  readonly start: number;
  readonly end: number;
  readonly pans: number;
  readonly rows: readonly Row[];
}

export function checkPans(reading: Reading): Violation[] {
  return reading.problem.kitchen.pans.flatMap((pan) => {
    const taken = groupsOf(usesOf(reading, pan.name)).flatMap((group) => takenBy(group, pan));
    return shortages(reading, pan, taken);
  });
}

function groupsOf(uses: readonly Use[]): Use[][] {
  const groupOf = new Map(uses.map((use) => [use.row, [use]]));
  for (const use of uses) {
    for (const next of use.goesOn) {
      const one = groupOf.get(use.row);
      const two = groupOf.get(next);
      if (one === undefined || two === undefined || one === two) continue;
      one.push(...two);
      for (const member of two) groupOf.set(member.row, one);
    }
  }
  return [...new Set(groupOf.values())];
}

function takenBy(group: readonly Use[], pan: Pan): Taken[] {
  const byRow = new Map(group.map((use) => [use.row, use]));
  const follows = new Map(group.map((use) => [use, continuationsOf(use, byRow)]));
  const related = (one: Use, two: Use): boolean =>
    follows.get(one)?.has(two) === true || follows.get(two)?.has(one) === true;

  const moments = [...new Set(group.flatMap((use) => [use.start, use.end]))].sort((one, two) => one - two);
  const list: Taken[] = [];
  let before = 0;
  let rowsBefore: Row[] = [];
  for (const [index, start] of moments.entries()) {
    const inUse = group.filter((use) => use.start <= start && start < use.end);
    const pans = mostApart(inUse, related);
    const rows = inUse.map((use) => use.row);
    const end = moments[index + 1] ?? start;
    if (pans > 0) list.push({ start, end, pans, rows });
    if (pans < before && pan.wash > 0) {
      list.push({ start, end: start + pan.wash, pans: before - pans, rows: rowsBefore });
    }
    before = pans;
    rowsBefore = rows;
  }
  return list;
}

function continuationsOf(use: Use, byRow: ReadonlyMap<Row, Use>): Set<Use> {
  const seen = new Set<Use>();
  const open = [use];
  for (let each = open.pop(); each !== undefined; each = open.pop()) {
    for (const row of each.goesOn) {
      const next = byRow.get(row);
      if (next === undefined || seen.has(next)) continue;
      seen.add(next);
      open.push(next);
    }
  }
  return seen;
}

/** The most pans of uses no two of which continue each other; there are never more than a few at once. */
function mostApart(uses: readonly Use[], related: (one: Use, two: Use) => boolean): number {
  const [first, ...others] = uses;
  if (first === undefined) return 0;
  const apart = others.filter((other) => !related(first, other));
  const withFirst = first.pans + mostApart(apart, related);
  return apart.length === others.length ? withFirst : Math.max(withFirst, mostApart(others, related));
}

function shortages(reading: Reading, pan: Pan, taken: readonly Taken[]): Violation[] {
  const found: Violation[] = [];
  let short = false;
  for (const moment of [...new Set(taken.map((each) => each.start))].sort((one, two) => one - two)) {
    const now = taken.filter((each) => each.start <= moment && moment < each.end);
    const needed = now.reduce((sum, each) => sum + each.pans, 0);
    const wasShort = short;
    const settled = now.filter((each) => each.rows.every((row) => reading.past.has(row)));
    const there = Math.max(
      pan.count,
      settled.reduce((sum, each) => sum + each.pans, 0),
    );
    short = needed > there;
    if (!short || wasShort) continue;
    const steps = [...new Set(now.flatMap((each) => each.rows.map((row) => row.label)))];
    const washing = pan.wash > 0 ? `, washing of ${inMinutes(pan.wash)} counted` : '';
    const at = reading.clock.show(moment);
    const say = `At ${at} ${needed} of ${pan.name} are in use${washing}, but there are ${pan.count}: ${steps.join(', ')}.`;
    found.push({ rule: 7, code: 'pan', say, steps });
  }
  return found;
}
