/** Plan documents by hand, for tests of the audit: minutes in, ISO times out, and the plan's own account filled up. */
import { DateTime } from 'luxon';
import { audit, type Violation } from '../../src/audit/audit.js';
import type { PlanDocument, RunRow, SpotRow, StepRow } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';

export interface RowSpec {
  readonly at: readonly [start: number, end: number];
  /** An appliance, and its mode where it has heat runs. */
  readonly in?: readonly [appliance: string, mode?: string];
  readonly place?: string | string[];
  readonly celsius?: number;
  readonly minutes?: StepRow['minutes'];
  readonly pan?: string;
  /** x, y and whether it is turned. */
  readonly spot?: readonly [number, number, boolean?] | readonly (readonly [number, number, boolean?])[];
  readonly level?: number | number[];
  /** A name: that cook from start to end. */
  readonly hands?: string | readonly (readonly [cook: string, start: number, end: number])[];
  readonly work?: string;
}

export interface PlanSpec {
  readonly steps: Readonly<Record<string, RowSpec>>;
  readonly runs?: readonly {
    readonly in: readonly [appliance: string, mode: string];
    readonly celsius: number;
    readonly at: readonly [start: number, end: number];
    readonly changeover?: number;
  }[];
  readonly calls?: readonly { readonly at: number; readonly cook: string | null; readonly step: string }[];
  readonly status?: PlanDocument['status'];
}

export function isoAt(problem: Problem, minute: number): string {
  const iso = DateTime.fromMillis(problem.origin + minute * 60_000, { zone: problem.zone }).toISO({
    suppressMilliseconds: true,
  });
  if (iso === null) throw new Error(`no time: ${minute}`);
  return iso;
}

function spotsOf(spot: NonNullable<RowSpec['spot']>): SpotRow | SpotRow[] {
  const one = ([x, y, turned = false]: readonly [number, number, boolean?]): SpotRow => ({ x, y, turned });
  return typeof spot[0] === 'number'
    ? one(spot as readonly [number, number, boolean?])
    : (spot as readonly (readonly [number, number, boolean?])[]).map(one);
}

/**
 * A document whose dishes are told from its steps, and whose points are the audit's own: what a test says against it is
 * then about the rules. Courses land when asked or when the last of their dishes is ready.
 */
export function planOf(problem: Problem, spec: PlanSpec): PlanDocument {
  const iso = (minute: number): string => isoAt(problem, minute);
  const steps = Object.entries(spec.steps).map(([label, row]): StepRow => {
    const [dish = '', name = ''] = label.split('/');
    const step = problem.steps.find((each) => each.name === name && problem.dishes[each.dish]?.name === dish);
    const [start, end] = row.at;
    const hands = typeof row.hands === 'string' ? [[row.hands, start, end] as const] : (row.hands ?? []);
    return {
      dish,
      step: name,
      work: row.work ?? step?.work ?? name,
      start: iso(start),
      end: iso(end),
      appliance: row.in?.[0] ?? null,
      mode: row.in?.[1] ?? null,
      place: row.place ?? null,
      celsius: row.celsius ?? null,
      ...(row.minutes === undefined ? {} : { minutes: row.minutes }),
      pan: row.pan ?? null,
      spot: row.spot === undefined ? null : spotsOf(row.spot),
      level: row.level ?? null,
      hands: hands.map(([cook, from, to]) => ({ cook, start: iso(from), end: iso(to) })),
    };
  });
  const runs = (spec.runs ?? []).map(
    (run): RunRow => ({
      appliance: run.in[0],
      mode: run.in[1],
      celsius: run.celsius,
      start: iso(run.at[0]),
      end: iso(run.at[1]),
      changeover: run.changeover ?? 0,
    }),
  );
  const readyOf = (dish: string): number =>
    Math.max(
      ...Object.entries(spec.steps).map(([label, row]) =>
        label.startsWith(`${dish}/`) && !label.endsWith('/hold') ? row.at[1] : 0,
      ),
    );
  const landings = problem.courses.map((course, index) => {
    const members = problem.dishes.filter((dish) => dish.course === index);
    return Math.max(problem.serve + course.at, ...members.map((dish) => readyOf(dish.name)));
  });
  const late = problem.courses.map((course, index) => landings[index]! - problem.serve - course.at);
  const draft: PlanDocument = {
    format: 'hearthtable-plan/1',
    problem: { title: problem.title, digest: problem.digest },
    serve: iso(problem.serve),
    zone: problem.zone,
    status: spec.status ?? (late.some((minutes) => minutes > 0) ? 'late' : 'good'),
    points: {
      total: 0,
      bound: 0,
      parts: { late: 0, wait: 0, over: 0, gap: 0, heat: 0, runs: 0, idle: 0, rest: 0, swap: 0, day: 0 },
    },
    steps,
    runs,
    dishes: problem.dishes.map((dish) => {
      const ready = readyOf(dish.name);
      const lands = dish.course === null ? null : landings[dish.course]!;
      return {
        dish: dish.name,
        serve: lands === null ? null : iso(lands),
        ready: iso(ready),
        wait: lands === null ? null : lands - ready,
        late: dish.course === null ? null : late[dish.course]!,
      };
    }),
    calls: (spec.calls ?? []).map((call) => {
      const [dish = '', step = ''] = call.step.split('/');
      return { at: iso(call.at), cook: call.cook, dish, step, say: 'Now.' };
    }),
    cautions: [],
    effort: { level: 'normal', seed: 1, rounds: 1, stopped: false },
  };
  return { ...draft, points: { ...audit(problem, draft).points, bound: 0 } };
}

/** `rule code` of each violation, sorted. */
export function faultsOf(problem: Problem, plan: PlanDocument): string[] {
  return audit(problem, plan)
    .violations.map((violation: Violation) => `${violation.rule} ${violation.code}`)
    .sort();
}

/** The faults of the plan that a spec describes. */
export function faults(problem: Problem, spec: PlanSpec): string[] {
  return faultsOf(problem, planOf(problem, spec));
}
