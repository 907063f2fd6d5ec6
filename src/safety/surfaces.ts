/** Cautions about raw meat, poultry or fish and then ready-to-eat food on one board or in one pan. */
import { clockAt } from '../problem/hours.js';
import type { Caution } from './caution.js';
import { isHeat, type Meal, type Row } from './meal.js';
import { LOCAL_RULES, PUBLICATIONS, sourceOf } from './published.js';

/** Raw food leaves a surface to ready-to-eat food. */
interface Passage {
  readonly raw: Row;
  readonly ready: Row;
}

const SOURCE = sourceOf([PUBLICATIONS.separation], LOCAL_RULES);
/** Later passages whose times are told; more would be a list. */
const TOLD = 3;

export function surfaceCautions(meal: Meal): Caution[] {
  if (meal.timetable === null) return [];
  return [...surfaces(meal, meal.timetable.rows)].flatMap(([surface, rows]): Caution[] => {
    const [first, ...more] = passages(meal, rows);
    if (first === undefined) return [];
    const { problem } = meal;
    const clock = (row: Row): string => clockAt(problem, row.start);
    const named = (row: Row): string => `${problem.dishes[row.dish]!.name} (${row.step!.name}) at ${clock(row)}`;
    const { raw, ready } = first;
    const then = raw.dish === ready.dish ? `its ${ready.step!.name} at ${clock(ready)}` : named(ready);
    const later = more.slice(0, TOLD).map((passage) => clock(passage.ready));
    const again = later.length === 0 ? '' : ` The same before ${later.join(', ')}.`;
    const say = `${upper(surface)}: raw ${named(raw)}, then ${then}. Wash it and the knife with hot soapy water between, or take another.${again}`;
    return [{ rule: 'raw-then-ready', source: SOURCE, dish: null, say }];
  });
}

/** What stands on each board, and in each kind of pan that the plan sends to no washing, in the order of time. */
function surfaces(meal: Meal, rows: readonly Row[]): Map<string, Row[]> {
  const unwashed = new Set(meal.problem.kitchen.pans.filter((pan) => pan.wash === 0).map((pan) => pan.name));
  const out = new Map<string, Row[]>();
  const add = (surface: string, row: Row): void => void out.set(surface, [...(out.get(surface) ?? []), row]);
  for (const row of rows) {
    if (row.step === null) continue;
    if (row.appliance === null) for (const place of row.places) add(place, row);
    if (row.pan !== null && unwashed.has(row.pan)) add(`the ${row.pan}`, row);
  }
  return new Map([...out].sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
}

function passages({ foods, flow }: Meal, rows: readonly Row[]): Passage[] {
  const out: Passage[] = [];
  let raw: Row | null = null;
  for (const row of rows) {
    const { id, dish, work } = row.step!;
    // Heat makes a pan clean enough for what is cooked in it.
    if (isHeat(work)) raw = null;
    else if (foods[dish]!.raw && flow.toHeat[id] && !flow.heated[id]) raw = row;
    else if (!flow.toHeat[id] && raw !== null) {
      out.push({ raw, ready: row });
      raw = null;
    }
  }
  return out;
}

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
