/** From the problem to the scheduling model, and the way back from the model's indices to the kitchen's things. */
import type { Activity, ActivityMode, Attention, Group, Job, Lag, Model, Setting, Storage } from '../kernel/model.js';
import { MOST_WORKERS } from '../kernel/model.js';
import { isAble } from '../problem/able.js';
import { footprintFits, heightFits } from '../problem/fits.js';
import { stays } from '../problem/hours.js';
import type { Hands, Option, Problem, Step } from '../problem/problem.js';
import { loadOf } from '../problem/stand.js';
import { holdSettings, Kit } from './kit.js';
import { cookedSteps, followers, pairRate } from './rates.js';

export interface Compiled {
  readonly problem: Problem;
  readonly model: Model;
  readonly kit: Kit;
}

const DAY = 1440;

/** `until`: the horizon is no earlier. */
export function compile(problem: Problem, until = 0): Compiled {
  const { steps, dishes, rates } = problem;
  const kit = new Kit(problem);
  const cooked = cookedSteps(problem);
  const lags: Lag[] = steps.flatMap((to) =>
    to.after.map((link) => ({
      from: link.step,
      to: to.id,
      low: link.gap.low,
      high: link.gap.high,
      ...pairRate(problem, cooked, link, to),
    })),
  );
  const order = followers(problem);
  const activities: Activity[] = steps.map((step) => {
    const modes = step.options.map((option) => modeOf(problem, kit, step, option));
    const lengths = modes.flatMap((m) =>
      m.range === null ? m.settings.map((s) => s.minutes) : [m.range.low, m.range.high],
    );
    return {
      id: step.id,
      job: step.dish,
      modes,
      ins: lags.filter((l) => l.to === step.id),
      outs: lags.filter((l) => l.from === step.id),
      sink: order.later[step.id]!.size === 0,
      empties: step.empties,
      nexts: order.next[step.id]!,
      shortest: Math.min(...lengths),
      longest: Math.max(...lengths),
    };
  });
  const jobs: Job[] = dishes.map((dish, id) => ({
    id,
    activities: dish.steps,
    group: dish.course ?? -1,
    users: lags.filter((l) => steps[l.from]!.dish === id && steps[l.to]!.dish !== id).map((l) => l.to),
    rate: rates.wait[dish.fades],
    keeps: dish.keeps,
    storage: storageOf(problem, kit, id, activities),
  }));
  const groups: Group[] = problem.courses.map((course, c) => ({
    due: problem.serve + course.at,
    jobs: jobs.filter((job) => job.group === c).map((job) => job.id),
  }));
  const model: Model = {
    horizon: Math.max(until, horizonOf(problem, activities, kit)),
    serve: problem.serve,
    groups,
    jobs,
    activities,
    lags,
    machines: kit.machines,
    units: kit.units.length,
    renewables: kit.renewables,
    workers: [],
    rates: { late: rates.late, over: rates.over, swap: rates.swap, day: rates.day },
  };
  const workers = problem.cooks.map((_, c) => ({
    stays: stays(problem, c, model.horizon).map((w) => ({ from: w.start, to: w.end })),
  }));
  return { problem, model: { ...model, workers }, kit };
}

/** Every way to hold a dish: each pan in which it can be at its end, in every appliance and mode whose heat reaches the hold's. */
function storageOf(problem: Problem, kit: Kit, d: number, activities: readonly Activity[]): Storage | null {
  const dish = problem.dishes[d]!;
  const { hold } = dish;
  if (hold === null || dish.steps.filter((id) => activities[id]!.sink).length !== 1) return null;
  const amounts = new Map<number, Set<number>>();
  for (const id of dish.steps) {
    for (const { pan, pans } of problem.steps[id]!.options) {
      if (pan === null || (hold.pan !== null && hold.pan !== pan)) continue;
      amounts.set(pan, (amounts.get(pan) ?? new Set()).add(pans));
    }
  }
  const modes: ActivityMode[] = [];
  kit.applianceOf.forEach((a, machine) => {
    problem.kitchen.appliances[a]!.modes.forEach((mode, program) => {
      const settings = holdSettings(problem, a, program, hold).map((celsius) => ({
        state: kit.stateOf(machine, program, celsius),
        minutes: 0,
        cost: 0,
      }));
      if (settings.length === 0) return;
      for (const [pan, counts] of amounts) {
        const load = loadOf(problem.kitchen.pans[pan]!, dish.piece);
        const appliance = problem.kitchen.appliances[a]!;
        if (load === null || !footprintFits(appliance, mode, load.footprint) || !heightFits(appliance, mode, load))
          continue;
        for (const count of counts) modes.push(storageMode(machine, settings, kit.loadOf(load), kit.panOf(pan), count));
      }
    });
  });
  return modes.length === 0 ? null : { modes, rate: problem.rates.wait[hold.fades], keeps: hold.keeps };
}

function storageMode(machine: number, settings: Setting[], load: number, vessel: number, count: number): ActivityMode {
  const attention = { all: false, start: 0, end: 0, every: 0, look: 0, crew: 0 };
  const none = { units: [], unitCount: 0, bench: -1, range: null, transparent: false, attention, able: 0 };
  return { ...none, machine, settings, load, loads: count, vessel, vessels: count };
}

/** Late enough that any meal that can be cooked at all is done by then, one thing after the other. */
function horizonOf(problem: Problem, activities: readonly Activity[], kit: Kit): number {
  const due = problem.serve + Math.max(0, ...problem.courses.map((c) => c.at));
  const work = activities.reduce((sum, a) => sum + Math.min(a.longest, a.shortest + 30), 0);
  const least = Math.max(0, ...kit.machines.map((m) => Math.max(0, ...m.transition)));
  return due + Math.max(120, Math.min(2 * DAY, work + 2 * least));
}

function modeOf(problem: Problem, kit: Kit, step: Step, option: Option): ActivityMode {
  const { place, duration, hands } = option;
  const machine = place.kind === 'heated' ? kit.machineOf[place.appliance]! : -1;
  const length = (celsius: number): number =>
    duration.kind === 'fixed'
      ? duration.minutes
      : duration.kind === 'range'
        ? duration.low
        : minutesAt(duration.columns, celsius);
  const settings: Setting[] =
    place.kind === 'heated'
      ? option.settings.map((celsius) => ({
          state: kit.stateOf(machine, place.mode, celsius),
          minutes: length(celsius),
          cost: option.ideal === null ? 0 : problem.rates.heat * Math.abs(celsius - option.ideal),
        }))
      : [{ state: -1, minutes: length(Number.NaN), cost: 0 }];
  const spread = { low: 0, high: 0, bestLow: 0, bestHigh: 0, rate: problem.rates.rest };
  return {
    machine,
    settings,
    range:
      duration.kind === 'range'
        ? {
            ...spread,
            low: duration.low,
            high: duration.high,
            bestLow: duration.best.low,
            bestHigh: duration.best.high,
          }
        : null,
    load: place.kind === 'heated' && option.load !== null ? kit.loadOf(option.load) : -1,
    loads: option.pans,
    units: place.kind === 'burner' ? place.burners.map((b) => kit.unitOf(place.appliance, b)) : [],
    unitCount: place.kind === 'burner' ? option.pans : 0,
    bench: place.kind === 'board' ? kit.boards : -1,
    vessel: option.pan === null ? -1 : kit.panOf(option.pan),
    vessels: option.pan === null ? 0 : option.pans,
    transparent: place.kind === 'none' && option.pan === null,
    attention: attentionOf(hands),
    able: ableMask(problem, step, option),
  };
}

/** Minutes at a temperature: linear between the columns, rounded up. */
export function minutesAt(
  columns: readonly { readonly celsius: number; readonly minutes: number }[],
  celsius: number,
): number {
  let i = 1;
  while (i < columns.length - 1 && columns[i]!.celsius < celsius) i++;
  const b = columns[Math.min(i, columns.length - 1)]!;
  const a = columns[Math.max(0, Math.min(i, columns.length - 1) - 1)]!;
  if (a.celsius === b.celsius) return Math.ceil(a.minutes - 1e-9);
  const share = (celsius - a.celsius) / (b.celsius - a.celsius);
  return Math.ceil(a.minutes + share * (b.minutes - a.minutes) - 1e-9);
}

export function attentionOf(hands: Hands): Attention {
  const some = hands.all || hands.start > 0 || hands.end > 0 || hands.every > 0;
  return {
    all: hands.all,
    start: hands.start,
    end: hands.end,
    every: hands.every,
    look: hands.for,
    crew: some ? hands.cooks : 0,
  };
}

function ableMask(problem: Problem, step: Step, option: Option): number {
  let mask = 0;
  problem.cooks.slice(0, MOST_WORKERS).forEach((cook, c) => {
    if (isAble(problem.kitchen, cook, step.work, option.place)) mask |= 1 << c;
  });
  return mask;
}
