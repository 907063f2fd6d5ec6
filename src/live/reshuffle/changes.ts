/** What is different in one plan from another, as data. */
import type { PlanDocument, StepRow } from '../../plan/document.js';
import { minuteAt } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';

/** Of one step, or of a dish's hold, as `Dish/step`; times as in the plan document. */
export interface Change {
  /**
   * `start` and `end` moved; `cook`: other hands; `place`: another appliance, mode, burner or board; `heat`: another temperature;
   * `new`: it was not in the plan; `gone`: it is no longer.
   */
  readonly kind: 'start' | 'end' | 'cook' | 'place' | 'heat' | 'new' | 'gone';
  readonly dish: string;
  readonly step: string;
  readonly from: string | null;
  readonly to: string | null;
  /** Minutes by which a start or an end moves; 0 for other kinds. */
  readonly minutes: number;
}

/** Of what is not over at `now`, in the order of the new plan; what is gone comes last. */
export function changesBetween(problem: Problem, before: PlanDocument, after: PlanDocument, now: number): Change[] {
  const old = keyed(before.steps);
  const fresh = keyed(after.steps);
  const minute = (iso: string): number => Math.round(minuteAt(problem, iso));
  const out: Change[] = [];
  for (const [key, row] of fresh) {
    const known = old.get(key);
    if (minute(row.end) <= now && known !== undefined && minute(known.end) <= now) continue;
    const { dish, step } = row;
    const add = (kind: Change['kind'], from: string | null, to: string | null, minutes = 0): void => {
      if (from !== to) out.push({ kind, dish, step, from, to, minutes });
    };
    if (known === undefined) {
      add('new', null, row.start);
      continue;
    }
    if (minute(row.start) >= now || minute(known.start) >= now)
      add('start', known.start, row.start, minute(row.start) - minute(known.start));
    add('end', known.end, row.end, minute(row.end) - minute(known.end));
    add('place', placeOf(known), placeOf(row));
    add('heat', heatOf(known), heatOf(row));
    add('cook', cooksOf(known), cooksOf(row));
  }
  for (const [key, { dish, step, start, end }] of old) {
    if (!fresh.has(key) && minute(end) > now) out.push({ kind: 'gone', dish, step, from: start, to: null, minutes: 0 });
  }
  return out;
}

/** By dish, step and how manieth row of it. */
function keyed(rows: readonly StepRow[]): Map<string, StepRow> {
  const out = new Map<string, StepRow>();
  for (const row of rows) {
    let k = 1;
    while (out.has(`${row.dish}/${row.step}/${k}`)) k++;
    out.set(`${row.dish}/${row.step}/${k}`, row);
  }
  return out;
}

/** Racks and zones are no other place: the appliance is. */
function placeOf({ appliance, mode, place }: StepRow): string | null {
  if (appliance === null) return place === null ? null : [place].flat().join(' and ');
  return mode === null ? `${appliance}, ${[place].flat().join(' and ')}` : `${appliance}, ${mode}`;
}

const heatOf = ({ celsius }: StepRow): string | null => (celsius === null ? null : `${celsius}`);

function cooksOf({ hands }: StepRow): string | null {
  return hands.length === 0 ? null : [...new Set(hands.map((hand) => hand.cook))].join(' and ');
}
