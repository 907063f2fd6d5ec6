/**
 * Rule 6: a cook does one thing at a time, only what they can, in their hours; every attention stretch has as many cooks as
 * it asks for. One stretch stays with its cook and lies wholly within a stay of theirs; nobody's hands are asked in a hold.
 */
import type { Cook } from '../../problem/problem.js';
import type { Clock } from '../clock.js';
import { type HandsEntry, meet, type Reading, type Row } from '../reading.js';
import { compareHands, type Stretch } from '../stretches.js';
import type { Violation } from '../violation.js';

const DAY = 1440;

export function checkHands(reading: Reading): Violation[] {
  const found: Violation[] = [];
  const tell = (code: string, say: string, ...rows: readonly Row[]): void => {
    found.push({ rule: 6, code, say, steps: [...new Set(rows.map((row) => row.label))] });
  };
  const { clock } = reading;
  const span = (each: Stretch): string => `${clock.show(each.start)} to ${clock.show(each.end)}`;
  const busy = new Map<string, { entry: HandsEntry; row: Row }[]>();

  for (const row of reading.rows) {
    if ((row.option !== null || row.isHold) && !reading.past.has(row)) {
      const { missing, extra, doubled } = differenceOf(row);
      for (const { stretch, wanting } of missing) {
        tell(
          'missing',
          `${row.label} wants ${wanting} more ${wanting === 1 ? 'cook' : 'cooks'} from ${span(stretch)}.`,
          row,
        );
      }
      for (const entry of extra) {
        tell('extra', `${entry.cook} is on ${row.label} from ${span(entry)}, which it does not ask for.`, row);
      }
      for (const entry of doubled) {
        tell(
          'same',
          `${entry.cook} stands twice on ${row.label} from ${span(entry)}; it asks for different cooks.`,
          row,
        );
      }
    }
    for (const entry of row.hands) {
      const { who } = entry;
      if (who === null) {
        tell('cook', `${row.label} names the cook ${entry.cook}, whom this kitchen does not have.`, row);
        continue;
      }
      const settled = reading.past.has(row);
      if (!settled && !isAble(who, row)) tell('can', `${who.name} does not do ${row.label}.`, row);
      if (!settled && !isIn(who, entry, clock, reading.facts?.stay ?? 0))
        tell('hours', `${who.name} is not there for all of ${span(entry)} (${row.label}).`, row);
      busy.set(who.name, [...(busy.get(who.name) ?? []), { entry, row }]);
    }
  }

  for (const [name, list] of busy) {
    list.sort((one, two) => one.entry.start - two.entry.start);
    for (const [index, one] of list.entries()) {
      for (const two of list.slice(index + 1)) {
        if (two.entry.start >= one.entry.end) break;
        // The same stretch named twice is told above.
        const twin = one.row === two.row && one.entry.start === two.entry.start && one.entry.end === two.entry.end;
        const happened = hasBegun(reading, one) && hasBegun(reading, two);
        if (!twin && !happened && !isAdmitted(reading, one.row, two.row) && meet(one.entry, two.entry)) {
          const when = clock.show(two.entry.start);
          tell('two', `${name} is on ${one.row.label} and ${two.row.label} at ${when}.`, one.row, two.row);
        }
      }
    }
  }
  return found;
}

/** Whether a stretch is a fact: of a step that has begun, before now or as that step began. */
const hasBegun = ({ past, facts }: Reading, { entry, row }: { entry: HandsEntry; row: Row }): boolean =>
  past.has(row) && (entry.start < (facts?.now ?? 0) || entry.start === row.start);

/** What has begun cannot be put off; but the plan must say so. */
function isAdmitted({ past, facts, origin }: Reading, one: Row, two: Row): boolean {
  if (!past.has(one) || !past.has(two)) return false;
  const [a, b] = [origin[one.step?.id ?? -1], origin[two.step?.id ?? -1]];
  return (facts?.twice ?? []).some(({ steps: [x, y] }) => (x === a && y === b) || (x === b && y === a));
}

function differenceOf(row: Row): ReturnType<typeof compareHands<HandsEntry>> {
  if (row.option === null) return { missing: [], extra: row.hands, doubled: [] };
  return compareHands(row.option.hands, row.start, row.end, row.hands);
}

/** Kinds of work, names or kinds of appliances, or `board`: one match is enough. */
function isAble(cook: Cook, row: Row): boolean {
  if (cook.can === null) return true;
  const matches: string[] = [row.raw.work];
  if (row.appliance !== null) matches.push(row.appliance.name, row.appliance.kind);
  if (row.option?.place.kind === 'board') matches.push('board');
  return cook.can.some((each) => matches.includes(each));
}

/**
 * Hours hold on every day by the zone's clock; a side without a limit reaches to midnight, where it joins the next day's
 * stay if that has none either. `from` after `to` is a stay over midnight.
 */
function isIn(cook: Cook, stretch: Stretch, clock: Clock, stay: number): boolean {
  if (cook.from === null && cook.to === null) return true;
  const from = cook.from ?? 0;
  const to = cook.to ?? DAY;
  let covered = stretch.start;
  for (let day = clock.day(stretch.start) - 1; day <= clock.day(stretch.end); day += 1) {
    const begins = clock.when(day, from);
    const ends = from < to ? clock.when(day, to) : clock.when(day + 1, to);
    if (begins <= covered) covered = Math.max(covered, ends + stay);
  }
  return covered >= stretch.end;
}
