/** From a schedule of the model to the plan document. */
import { blocksOf, runsOf } from '../kernel/blocks.js';
import { costOf, stretchTimes, totalOf } from '../kernel/cost.js';
import { type ActivityMode, type StandingLoad, transitionTime } from '../kernel/model.js';
import type { State } from '../kernel/state.js';
import type { Placed } from '../kitchen/arrange.js';
import { placeName } from '../kitchen/place-name.js';
import { callsOf } from '../plan/calls.js';
import type { DishRow, PlanDocument, RunRow, SpotRow, StepRow } from '../plan/document.js';

import { isoAt, minuteAt } from '../problem/hours.js';
import type { Appliance, Footprint, Problem } from '../problem/problem.js';

import { cautionsOf } from '../safety/cautions.js';

import { boardNumbers } from './boards.js';
import type { Compiled } from './compile.js';
import { type DishCore, type Predictions, predictionsOf } from './cores.js';
import { timedBy } from './timed.js';

export interface Outcome {
  readonly status: PlanDocument['status'];
  readonly bound: number;
  readonly effort: PlanDocument['effort'];
}

/** A list with one entry becomes the entry. */
const each = <T>(list: readonly T[]): T | T[] => (list.length === 1 ? list[0]! : [...list]);

/** °C as a thermometer shows them. */
const tenths = (celsius: number): number => Math.round(celsius * 10) / 10;

const cents = (points: number): number => Math.round(points * 100) / 100;

/** `predictions`: of this very schedule, where they are there already. */
export function writePlan(
  compiled: Compiled,
  state: State,
  outcome: Outcome,
  predictions: Predictions = predictionsOf(compiled.problem, timedBy(compiled, state)),
): PlanDocument {
  const { problem, model } = compiled;
  const parts = costOf(state);
  const steps = stepRows(compiled, state, predictions);
  const runs = runRows(compiled, state);
  const dishes = dishRows(compiled, state, predictions);
  return {
    format: 'hearthtable-plan/1',
    problem: { title: problem.title, digest: problem.digest },
    serve: isoAt(problem, model.serve),
    zone: problem.zone,
    status: outcome.status,
    points: {
      total: cents(totalOf(parts)),
      bound: boundInCents(outcome.bound, totalOf(parts)),
      parts: {
        late: cents(parts.late),
        wait: cents(parts.wait),
        over: cents(parts.over),
        gap: cents(parts.gap),
        heat: cents(parts.heat),
        runs: cents(parts.runs),
        idle: cents(parts.idle),
        rest: cents(parts.rest),
        swap: cents(parts.swap),
        day: cents(parts.day),
      },
    },
    steps,
    runs,
    dishes,
    calls: callsOf(problem, { steps, runs, dishes }),
    cautions: cautionsOf(problem, { steps, runs, dishes }, predictions.curves),
    effort: outcome.effort,
  };
}

function stepRows({ problem, model, kit }: Compiled, state: State, { pulls }: Predictions): StepRow[] {
  const placed = standingPlaces(state, kit);
  const boards = boardNumbers({ problem, model, kit }, state);
  const order = model.activities
    .map((a) => a.id)
    .sort((a, b) => state.start[a]! - state.start[b]! || state.end(a) - state.end(b) || a - b);
  const rows = order.map((a) => {
    const step = problem.steps[a]!;
    const option = step.options[state.mode[a]!]!;
    const mode = state.modeOf(a);
    const { place } = option;
    const appliance =
      place.kind === 'heated' || place.kind === 'burner' ? problem.kitchen.appliances[place.appliance]! : null;
    const stretches = stretchTimes(state, a);
    const hands = state.hands[a]!.map((cook, k) => {
      const stretch = Math.floor(k / mode.attention.crew);
      return {
        cook: problem.cooks[cook]!.name,
        start: isoAt(problem, stretches[stretch * 2]!),
        end: isoAt(problem, stretches[stretch * 2 + 1]!),
      };
    });
    const row: StepRow = {
      dish: problem.dishes[step.dish]!.name,
      step: step.name,
      work: step.work,
      start: isoAt(problem, state.start[a]!),
      end: isoAt(problem, state.end(a)),
      appliance: appliance?.name ?? null,
      mode: place.kind === 'heated' ? appliance!.modes[place.mode]!.name : null,
      place: null,
      celsius: place.kind === 'heated' ? option.settings[state.setting[a]!]! : null,
      pan: option.pan === null ? null : problem.kitchen.pans[option.pan]!.name,
      spot: null,
      level: null,
      hands,
    };
    if (step.core !== null) {
      if (option.duration.kind === 'table')
        row.minutes = Object.fromEntries(option.duration.columns.map((c) => [c.celsius, c.minutes]));
      else if (option.duration.kind === 'fixed') row.minutes = option.duration.minutes;
    }
    const pull = pulls.get(a);
    // A target that the heat model had no part in is where the core shall rise: at which it is pulled is for the cook to judge.
    const asked = option.atPeak ? null : option.core;
    if (pull !== undefined || asked !== null) row.pull = tenths(pull?.celsius ?? asked!);
    if (pull !== undefined) {
      row.window = { from: isoAt(problem, pull.from), to: isoAt(problem, pull.to), late: pull.late };
    }
    if (place.kind === 'board') row.place = `board ${boards.get(a)! + 1}`;
    if (place.kind === 'burner' && appliance!.surface.kind === 'burners') {
      const { burners } = appliance!.surface;
      row.place = each(state.units[a]!.map((u) => burners[kit.units[u]!.burner]!.name));
    }
    const spots = placed.get(a);
    if (spots !== undefined) Object.assign(row, standingFields(appliance!, option.load!.footprint, spots));
    return row;
  });
  const rank = (row: StepRow): number => minuteAt(problem, row.start);
  return [...rows, ...holdRows({ problem, model, kit }, state, placed)].sort((a, b) => rank(a) - rank(b));
}

/** Levels and spots of everything that stands in an appliance, by activity or, for a stored job, by -1 - job. */
function standingPlaces(state: State, kit: Compiled['kit']): Map<number, readonly Placed[]> {
  const out = new Map<number, readonly Placed[]>();
  const { store, model } = state;
  const { progress } = model;
  model.machines.forEach((machine, m) => {
    const ids: number[] = [];
    const loads: StandingLoad[] = [];
    const wanted: number[] = [];
    const add = (id: number, mode: ActivityMode, setting: number, start: number, minutes: number): void => {
      if (mode.machine !== m || mode.load < 0) return;
      const { program } = machine.states[mode.settings[setting]!.state]!;
      ids.push(id);
      const load = { program, load: mode.load, count: mode.loads, start, end: start + minutes };
      const kept = (id < 0 ? progress?.storeSpots[-1 - id] : progress?.spots[id]) ?? -1;
      loads.push(kept < 0 ? load : { ...load, spot: kept });
      const usual = id < 0 ? null : (progress?.usual[id] ?? null);
      wanted.push(usual !== null && usual.mode === state.mode[id]! ? usual.spot : -1);
    };
    for (const a of state.onMachine[m]!) add(a, state.modeOf(a), state.setting[a]!, state.start[a]!, state.minutes[a]!);
    for (const { id, storage } of model.jobs) {
      if (store.mode[id]! < 0) continue;
      add(-1 - id, storage!.modes[store.mode[id]!]!, store.setting[id]!, store.start[id]!, store.minutes[id]!);
    }
    // Where they were to stand, if they still can.
    const layout = progress === undefined ? kit.layout(m, loads) : kit.layoutAs(m, loads, wanted);
    if (layout === null) throw new Error(`nothing fits together on machine ${m}`);
    ids.forEach((id, i) => void out.set(id, layout[i]!));
  });
  return out;
}

/** One row for each dish that is held. */
function holdRows(
  { problem, model, kit }: Compiled,
  state: State,
  placed: ReadonlyMap<number, readonly Placed[]>,
): StepRow[] {
  const { store } = state;
  return model.jobs.flatMap(({ id, storage }): StepRow[] => {
    if (store.mode[id]! < 0) return [];
    const mode = storage!.modes[store.mode[id]!]!;
    const { program, level } = model.machines[mode.machine]!.states[mode.settings[store.setting[id]!]!.state]!;
    const appliance = problem.kitchen.appliances[kit.applianceOf[mode.machine]!]!;
    const pan = problem.kitchen.pans[mode.vessel - 1 - kit.boards]!;
    const dish = problem.dishes[id]!;
    return [
      {
        dish: dish.name,
        step: 'hold',
        work: 'hold',
        start: isoAt(problem, store.start[id]!),
        end: isoAt(problem, store.start[id]! + store.minutes[id]!),
        appliance: appliance.name,
        mode: appliance.modes[program]!.name,
        celsius: level,
        pan: pan.name,
        ...standingFields(appliance, pan.footprint, placed.get(-1 - id)!),
        hands: [],
      },
    ];
  });
}

function standingFields(
  appliance: Appliance,
  footprint: Footprint,
  spots: readonly Placed[],
): Pick<StepRow, 'place' | 'spot' | 'level'> {
  return {
    place: each(spots.map((p) => placeName(appliance, footprint, p))),
    spot: each(spots.map((p): SpotRow => ({ x: p.spot.x, y: p.spot.y, turned: p.spot.turned }))),
    level: appliance.surface.kind === 'racks' ? each(spots.map((p) => p.level)) : null,
  };
}

function runRows({ problem, model, kit }: Compiled, state: State): RunRow[] {
  return model.machines.flatMap((machine, m) => {
    const appliance = problem.kitchen.appliances[kit.applianceOf[m]!]!;
    let before = -1;
    return runsOf(machine, blocksOf(state, m)).map((run) => {
      const { program, level } = machine.states[run.state]!;
      const changeover = transitionTime(machine, before, run.state);
      before = run.state;
      return {
        appliance: appliance.name,
        mode: appliance.modes[program]!.name,
        celsius: level,
        start: isoAt(problem, run.from),
        end: isoAt(problem, run.to),
        changeover,
      };
    });
  });
}

function dishRows({ problem, model }: Compiled, state: State, { cores }: Predictions): DishRow[] {
  return problem.dishes.map((dish, d) => {
    const ready = Math.max(...dish.steps.map((id) => state.end(id)));
    const { group } = model.jobs[d]!;
    const core = coreField(problem, cores.get(d));
    if (group < 0) {
      return { dish: dish.name, serve: null, ready: isoAt(problem, ready), wait: null, late: null, ...core };
    }
    const landing = state.landing(group);
    return {
      dish: dish.name,
      serve: isoAt(problem, landing),
      ready: isoAt(problem, ready),
      wait: landing - ready,
      late: landing - model.groups[group]!.due,
      ...core,
    };
  });
}

function coreField(problem: Problem, core: DishCore | undefined): Pick<DishRow, 'core'> {
  if (core === undefined) return {};
  const { pull, peak, peakAt, atServe } = core;
  const when = isoAt(problem, Math.round(peakAt));
  const served = atServe === null ? null : tenths(atServe);
  return { core: { pull: tenths(pull), peak: tenths(peak), peakAt: when, atServe: served } };
}

/** Rounded down, so that it stays a bound; where it meets the points, it is the points. */
function boundInCents(bound: number, points: number): number {
  return bound >= points - 1e-6 ? cents(points) : Math.min(cents(points), Math.floor(bound * 100 + 1e-3) / 100);
}
