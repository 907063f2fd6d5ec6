/** The referee's plan as a plan document, so that the audit can judge it: with spots, boards and heat runs filled in. */
import type { DishRow, PlanDocument, RunRow, StepRow } from '../../src/plan/document.js';
import { PART_NAMES, type PartName } from '../../src/plan/document.js';
import type { Option, Problem } from '../../src/problem/problem.js';
import type { Row, Verdict } from './referee.js';
import { areaOf, halves, ownUsers } from './scope.js';
import { levelsOf } from './ways.js';

/** Its points by part are left at nothing: the audit works them out. */
export function planOf(problem: Problem, verdict: Verdict): PlanDocument {
  const iso = (minute: number): string => new Date(problem.origin + minute * 60_000).toISOString();
  const steps = stepsOf(problem, verdict.rows, iso);
  return {
    format: 'hearthtable-plan/1',
    problem: { title: problem.title, digest: problem.digest },
    serve: iso(problem.serve),
    zone: problem.zone,
    status: verdict.late.some((late) => late > 0) ? 'late' : 'good',
    points: {
      total: verdict.points,
      bound: 0,
      parts: Object.fromEntries(PART_NAMES.map((name) => [name, 0])) as Record<PartName, number>,
    },
    steps,
    runs: problem.kitchen.appliances.flatMap((_, a) => runsOf(problem, verdict.rows, a, iso)),
    dishes: dishesOf(problem, verdict, iso),
    calls: [],
    cautions: [],
    effort: { level: 'deep', seed: 1, rounds: 0, stopped: false },
  };
}

type Iso = (minute: number) => string;

const optionOf = (problem: Problem, id: number, row: Row): Option => problem.steps[id]!.options[row.option]!;

/** The lowest place of its kind that is free for the whole of each row, in order of their starts. */
function firstFree(
  rows: readonly { start: number; end: number }[],
  fits: (k: number, place: number) => boolean,
): number[] {
  const taken: number[] = rows.map(() => -1);
  const order = rows.map((_, k) => k).sort((a, b) => rows[a]!.start - rows[b]!.start);
  for (const k of order) {
    const meets = (other: number): boolean => rows[other]!.start < rows[k]!.end && rows[k]!.start < rows[other]!.end;
    let place = 0;
    while (!fits(k, place) || taken.some((used, other) => used === place && meets(other))) place++;
    taken[k] = place;
  }
  return taken;
}

function stepsOf(problem: Problem, rows: readonly Row[], iso: Iso): StepRow[] {
  const onBoards = rows.flatMap((row, id) => (optionOf(problem, id, row).place.kind === 'board' ? [id] : []));
  const boards = firstFree(
    onBoards.map((id) => rows[id]!),
    () => true,
  );
  const stands = new Map<number, Pick<StepRow, 'place' | 'spot' | 'level'>>();
  for (const [a, { surface }] of problem.kitchen.appliances.entries()) {
    if (surface.kind === 'burners') continue;
    for (const [id, stand] of standsOf(problem, rows, a)) stands.set(id, stand);
  }
  return rows.map((row, id): StepRow => {
    const step = problem.steps[id]!;
    const option = optionOf(problem, id, row);
    const { place } = option;
    const heated =
      place.kind === 'heated' || place.kind === 'burner' ? problem.kitchen.appliances[place.appliance]! : null;
    const { surface } = heated ?? {};
    const board = onBoards.indexOf(id);
    const burner = surface?.kind === 'burners' ? surface.burners[row.burner!]!.name : null;
    return {
      dish: row.dish,
      step: row.step,
      work: step.work,
      start: iso(row.start),
      end: iso(row.end),
      appliance: heated?.name ?? null,
      mode: place.kind === 'heated' ? heated!.modes[place.mode]!.name : null,
      place: board >= 0 ? `board ${boards[board]! + 1}` : burner,
      celsius: row.celsius,
      pan: option.pan === null ? null : problem.kitchen.pans[option.pan]!.name,
      spot: null,
      level: null,
      ...stands.get(id),
      hands: row.hands.map(({ cook, start, end }) => ({
        cook: problem.cooks[cook]!.name,
        start: iso(start),
        end: iso(end),
      })),
    };
  });
}

/** Each load in the left or right half of its level, or alone on it: places are numbered by halves, from the lowest level. */
function standsOf(
  problem: Problem,
  rows: readonly Row[],
  appliance: number,
): [number, Pick<StepRow, 'place' | 'spot' | 'level'>][] {
  const { surface, modes } = problem.kitchen.appliances[appliance]!;
  const levels = levelsOf(problem).get(appliance);
  const loads = rows.flatMap((row, id) => {
    const { place, load } = optionOf(problem, id, row);
    if (place.kind !== 'heated' || place.appliance !== appliance) return [];
    const area = areaOf(problem, appliance, place.mode);
    const { lit } = modes[place.mode]!;
    const free = surface.kind === 'grate' ? surface.zones.filter((zone) => !lit.includes(zone.name)) : [];
    const footprint = load!.footprint;
    const [width, depth] =
      footprint.kind === 'round' ? [footprint.diameter, footprint.diameter] : [footprint.width, footprint.depth];
    const half = halves([load!], area)[0]!;
    const room = half ? area.width / 2 : area.width;
    const turned = !(width <= room + 1e-9 && depth <= area.depth + 1e-9);
    return [{ id, row, area, half, turned, left: free[0]?.x ?? 0, width: turned ? depth : width }];
  });
  const fits = (k: number, place: number): boolean => {
    const { row, half } = loads[k]!;
    const level = Math.floor(place / 2) + 1;
    return (half || place % 2 === 0) && (levels !== 'apart' || row.level === level);
  };
  const taken = firstFree(
    loads.map((load) => load.row),
    fits,
  );
  return loads.map(({ id, area, turned, left, width }, k) => {
    const place = taken[k]!;
    const x = left + (place % 2 === 0 ? 0 : area.width / 2);
    const level = Math.floor(place / 2) + 1;
    const under = (zone: { x: number; width: number }): boolean =>
      zone.x < x + width - 1e-9 && x < zone.x + zone.width - 1e-9;
    const name =
      surface.kind === 'grate'
        ? surface.zones
            .filter(under)
            .map((zone) => zone.name)
            .join(' + ')
        : `rack ${level}`;
    return [id, { place: name, spot: { x, y: 0, turned }, level: surface.kind === 'racks' ? level : null }];
  });
}

/** One run for neighbours in one state, unless idling between them would cost more than another run. */
function runsOf(problem: Problem, rows: readonly Row[], appliance: number, iso: Iso): RunRow[] {
  const { name, modes, heats, cools } = problem.kitchen.appliances[appliance]!;
  const inIt = rows.flatMap((row, id) => {
    const { place } = optionOf(problem, id, row);
    return place.kind === 'heated' && place.appliance === appliance
      ? [{ row, mode: place.mode, celsius: row.celsius! }]
      : [];
  });
  inIt.sort((one, two) => one.row.start - two.row.start);
  const runs: { mode: number; celsius: number; start: number; end: number }[] = [];
  for (const { row, mode, celsius } of inIt) {
    const last = runs.at(-1);
    const same = last !== undefined && last.mode === mode && last.celsius === celsius;
    if (same && (row.start - last.end) * problem.rates.idle <= problem.rates.runs)
      last.end = Math.max(last.end, row.end);
    else runs.push({ mode, celsius, start: row.start, end: row.end });
  }
  return runs.map((run, k) => {
    const from = runs[k - 1]?.celsius ?? problem.kitchen.room;
    const rise = run.celsius - from;
    const changeover = Math.ceil((rise > 0 ? rise / heats : -rise / cools) - 1e-9);
    const { celsius, start, end, mode } = run;
    return { appliance: name, mode: modes[mode]!.name, celsius, start: iso(start), end: iso(end), changeover };
  });
}

function dishesOf(problem: Problem, verdict: Verdict, iso: Iso): DishRow[] {
  return problem.dishes.map(({ name, course, steps }) => {
    const lasts = steps.filter((id) => ownUsers(problem, problem.steps[id]!).length === 0);
    const ready = Math.max(...lasts.map((id) => verdict.rows[id]!.end));
    if (course === null) return { dish: name, serve: null, ready: iso(ready), wait: null, late: null };
    const late = verdict.late[course]!;
    const lands = problem.serve + problem.courses[course]!.at + late;
    return { dish: name, serve: iso(lands), ready: iso(ready), wait: lands - ready, late };
  });
}
