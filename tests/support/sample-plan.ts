/**
 * Two problems with plans made by hand, for the tests of what is shown: nothing here was solved. All people and meals are
 * invented.
 */
import { callsOf } from '../../src/plan/calls.js';
import type { PlanDocument, StepRow } from '../../src/plan/document.js';
import type { Dish, Hands, Kitchen, Option, OptionPlace, Problem, Step, Work } from '../../src/problem/problem.js';
import { showIso } from '../../src/units/clock.js';

export interface Sample {
  readonly problem: Problem;
  readonly plan: PlanDocument;
}

interface StepSketch {
  step: string;
  work: Work;
  /** Minutes after `start`. */
  at: [from: number, to: number];
  appliance?: number;
  mode?: number;
  place?: string | string[];
  celsius?: number;
  flame?: 'low' | 'medium' | 'high';
  pan?: number;
  spot?: StepRow['spot'];
  level?: number;
  /** Cook, from, to. */
  hands?: [number, number, number][];
  /** Ids, or names within the dish; absent: the step above. */
  after?: { step: number | string; gap: [number, number] }[];
  core?: number;
  /** First and last minute of its end, and the minutes by which the last makes the dish late. */
  window?: [number, number, number];
}

interface DishSketch {
  dish: string;
  course?: number;
  steps: StepSketch[];
  keeps?: number;
  /** °C, and the minute of the peak. */
  core?: { pull: number; peak: number; peakAt: number; atServe: number };
  /** A row of the plan that is no step of the file. */
  hold?: Omit<StepSketch, 'step' | 'work'>;
}

interface Sketch {
  title: string;
  zone: string;
  origin: string;
  serve: number;
  kitchen: Kitchen;
  cooks: string[];
  courses: { name: string; at: number }[];
  dishes: DishSketch[];
  runs: { appliance: number; mode: number; celsius: number; at: [number, number]; changeover: number }[];
  cautions?: PlanDocument['cautions'];
  status?: PlanDocument['status'];
  late?: number;
  parts: Partial<PlanDocument['points']['parts']>;
  bound: number;
}

const NO_HANDS: Hands = { all: false, start: 0, end: 0, every: 0, for: 1, cooks: 1 };

/** A problem and its plan from one sketch; digest and effort are made up. */
export function sampleFrom(sketch: Sketch): Sample {
  const steps: Step[] = [];
  const dishes = sketch.dishes.map((dish, index): Dish => {
    const first = steps.length;
    for (const step of dish.steps) steps.push(stepOf(sketch, dish, step, index, first, steps.length));
    return {
      name: dish.dish,
      served: dish.course !== undefined,
      course: dish.course ?? null,
      keeps: dish.keeps ?? Number.POSITIVE_INFINITY,
      fades: 'steady',
      hold: null,
      piece: null,
      accept: [],
      steps: dish.steps.map((_, offset) => first + offset),
    };
  });
  const problem: Problem = {
    title: sketch.title,
    digest: '0'.repeat(64),
    zone: sketch.zone,
    origin: Date.parse(sketch.origin),
    serve: sketch.serve,
    courses: sketch.courses,
    kitchen: sketch.kitchen,
    cooks: sketch.cooks.map((name) => ({ name, can: null, from: null, to: null })),
    dishes,
    steps,
    rates: {
      late: 60,
      wait: { fast: 4, steady: 1, slow: 0.25, never: 0 },
      over: 10,
      gap: 0.02,
      heat: 0.05,
      runs: 5,
      idle: 0.01,
      rest: 0.5,
      swap: 0.5,
      day: 0.02,
    },
    units: { clock: '24h', heat: null, both: false },
  };
  const plan = planOf(sketch, problem);
  return { problem, plan: { ...plan, calls: callsOf(problem, plan) } };
}

function stepOf(
  sketch: Sketch,
  dish: DishSketch,
  step: StepSketch,
  dishIndex: number,
  first: number,
  id: number,
): Step {
  const named = (name: number | string) =>
    typeof name === 'number' ? name : first + dish.steps.findIndex((other) => other.step === name);
  const above = id > first ? [{ step: id - 1, gap: [0, Number.POSITIVE_INFINITY] as [number, number] }] : [];
  return {
    id,
    dish: dishIndex,
    name: step.step,
    work: step.work,
    after: (step.after ?? above).map((link) => ({
      step: named(link.step),
      gap: { low: link.gap[0], high: link.gap[1] },
    })),
    keeps: null,
    empties: false,
    options: [optionOf(sketch, step)],
    core: step.core ?? null,
  };
}

function optionOf(sketch: Sketch, step: StepSketch): Option {
  const minutes = step.at[1] - step.at[0];
  return {
    entry: 0,
    place: placeOf(sketch, step),
    duration: { kind: 'fixed', minutes, low: minutes, high: minutes },
    core: step.core ?? null,
    atPeak: false,
    forecasts: null,
    settings: step.celsius === undefined ? [] : [step.celsius],
    ideal: step.celsius ?? null,
    flame: step.flame ?? null,
    pan: step.pan ?? null,
    pans: 1,
    load: null,
    hands: NO_HANDS,
  };
}

function placeOf(sketch: Sketch, step: StepSketch): OptionPlace {
  if (step.appliance === undefined) return { kind: step.place === undefined ? 'none' : 'board' };
  const { surface } = sketch.kitchen.appliances[step.appliance]!;
  if (surface.kind !== 'burners') return { kind: 'heated', appliance: step.appliance, mode: step.mode ?? 0 };
  const burner = surface.burners.findIndex((each) => each.name === step.place);
  return { kind: 'burner', appliance: step.appliance, burners: [burner] };
}

function planOf(sketch: Sketch, problem: Problem): PlanDocument {
  const iso = (minute: number) => showIso(problem.origin + minute * 60_000, problem.zone);
  const { appliances } = sketch.kitchen;
  const late = sketch.late ?? 0;
  const parts = {
    late: 0,
    wait: 0,
    over: 0,
    gap: 0,
    heat: 0,
    runs: 0,
    idle: 0,
    rest: 0,
    swap: 0,
    day: 0,
    ...sketch.parts,
  };
  return {
    format: 'hearthtable-plan/1',
    problem: { title: sketch.title, digest: problem.digest },
    serve: iso(sketch.serve),
    zone: sketch.zone,
    status: sketch.status ?? 'good',
    points: { total: Object.values(parts).reduce((sum, part) => sum + part, 0), bound: sketch.bound, parts },
    steps: sketch.dishes.flatMap((dish) => [
      ...dish.steps.map((step) => rowOf(sketch, iso, dish, step, step.work)),
      ...(dish.hold ? [rowOf(sketch, iso, dish, { ...dish.hold, step: 'hold', work: 'warm' }, 'hold')] : []),
    ]),
    runs: sketch.runs.map((run) => ({
      appliance: appliances[run.appliance]!.name,
      mode: appliances[run.appliance]!.modes[run.mode]!.name,
      celsius: run.celsius,
      start: iso(run.at[0]),
      end: iso(run.at[1]),
      changeover: run.changeover,
    })),
    dishes: sketch.dishes.map((dish) => {
      const ready = Math.max(...dish.steps.map((step) => step.at[1]));
      const serve = dish.course === undefined ? null : sketch.serve + late + sketch.courses[dish.course]!.at;
      return {
        dish: dish.dish,
        serve: serve === null ? null : iso(serve),
        ready: iso(ready),
        wait: serve === null ? null : serve - ready,
        late: serve === null ? null : late,
        ...(dish.core === undefined ? {} : { core: { ...dish.core, peakAt: iso(dish.core.peakAt) } }),
      };
    }),
    calls: [],
    cautions: sketch.cautions ?? [],
    effort: { level: 'normal', seed: 1, rounds: 1200, stopped: false },
  };
}

function rowOf(
  { kitchen, cooks }: Sketch,
  iso: (minute: number) => string,
  dish: DishSketch,
  step: StepSketch,
  work: string,
): StepRow {
  const appliance = step.appliance === undefined ? null : kitchen.appliances[step.appliance]!;
  return {
    dish: dish.dish,
    step: step.step,
    work,
    start: iso(step.at[0]),
    end: iso(step.at[1]),
    appliance: appliance?.name ?? null,
    mode: appliance?.modes[step.mode ?? 0]?.name ?? null,
    place: step.place ?? null,
    celsius: step.celsius ?? null,
    pan: step.pan === undefined ? null : kitchen.pans[step.pan]!.name,
    spot: step.spot ?? null,
    level: step.level ?? null,
    ...(step.core === undefined ? {} : { pull: step.core }),
    ...(step.window === undefined
      ? {}
      : { window: { from: iso(step.window[0]), to: iso(step.window[1]), late: step.window[2] } }),
    hands: (step.hands ?? []).map(([cook, from, to]) => ({ cook: cooks[cook]!, start: iso(from), end: iso(to) })),
  };
}

const PATIO: Kitchen = {
  name: 'Patio grill and one burner',
  room: 21,
  boards: 2,
  appliances: [
    {
      name: 'grill',
      kind: 'grill',
      surface: {
        kind: 'grate',
        round: null,
        zones: [
          { name: 'left', x: 0, width: 0.28, depth: 0.46 },
          { name: 'middle', x: 0.28, width: 0.28, depth: 0.46 },
          { name: 'right', x: 0.56, width: 0.28, depth: 0.46 },
        ],
      },
      modes: [
        { name: 'sear', lid: 'open', heat: { low: 220, high: 320 }, lit: [], height: null },
        { name: 'roast', lid: 'closed', heat: { low: 110, high: 260 }, lit: ['right'], height: 0.22 },
      ],
      heats: 14,
      cools: 8,
      dial: { unit: 'C', step: 5 },
    },
    {
      name: 'range',
      kind: 'cooktop',
      surface: {
        kind: 'burners',
        burners: [
          { name: 'front left', size: 0.23, carries: { low: 0.1, high: 0.28 } },
          { name: 'back left', size: 0.18, carries: { low: 0.1, high: 0.23 } },
        ],
      },
      modes: [],
      heats: Number.POSITIVE_INFINITY,
      cools: Number.POSITIVE_INFINITY,
      dial: { unit: 'C', step: 5 },
    },
  ],
  pans: [
    {
      name: 'roasting pan',
      footprint: { kind: 'rectangle', width: 0.22, depth: 0.33 },
      height: 0.09,
      count: 1,
      wash: 5,
    },
    { name: 'small skillet', footprint: { kind: 'round', diameter: 0.26 }, height: 0.05, count: 1, wash: 0 },
    { name: 'half sheet', footprint: { kind: 'rectangle', width: 0.33, depth: 0.46 }, height: 0.03, count: 2, wash: 0 },
  ],
};

/** A loin of pork and roots on one grill; 11:00 in Lisbon is minute 0. */
export const orchardSupper = (): Sample =>
  sampleFrom({
    title: 'Orchard supper',
    zone: 'Europe/Lisbon',
    origin: '2026-10-03T11:00:00+01:00',
    serve: 450,
    kitchen: PATIO,
    cooks: ['Ines', 'Tomas'],
    courses: [{ name: 'main', at: 0 }],
    dishes: [
      {
        dish: 'Brined pork loin',
        course: 0,
        keeps: 10,
        core: { pull: 58, peak: 61.4, peakAt: 441, atServe: 60.6 },
        steps: [
          { step: 'brine', work: 'chill', at: [70, 310] },
          { step: 'dry', work: 'prep', at: [310, 320], place: 'board 2', hands: [[0, 310, 320]] },
          {
            step: 'sear',
            work: 'sear',
            at: [320, 332],
            appliance: 0,
            mode: 0,
            place: 'left + middle',
            celsius: 280,
            spot: { x: 0.12, y: 0.18, turned: false },
            hands: [[0, 320, 332]],
            after: [{ step: 'dry', gap: [0, 40] }],
          },
          {
            step: 'roast',
            work: 'roast',
            at: [347, 422],
            appliance: 0,
            mode: 1,
            place: 'left',
            celsius: 165,
            pan: 0,
            spot: { x: 0, y: 0.06, turned: false },
            hands: [
              [0, 347, 350],
              [0, 367, 368],
              [0, 387, 388],
              [1, 407, 408],
              [0, 419, 422],
            ],
            after: [{ step: 'sear', gap: [0, 15] }],
            core: 58,
            window: [413, 434, 4],
          },
          { step: 'rest', work: 'rest', at: [422, 444], after: [{ step: 'roast', gap: [0, 2] }] },
          {
            step: 'carve',
            work: 'carve',
            at: [444, 450],
            place: 'board 1',
            hands: [[0, 444, 450]],
            after: [{ step: 'rest', gap: [0, 5] }],
          },
        ],
      },
      {
        dish: 'Roast roots',
        course: 0,
        keeps: 25,
        steps: [
          { step: 'cut', work: 'prep', at: [290, 310], place: 'board 1', hands: [[0, 290, 310]] },
          {
            step: 'roast',
            work: 'roast',
            at: [398, 443],
            appliance: 0,
            mode: 1,
            place: 'left + middle',
            celsius: 165,
            pan: 2,
            spot: { x: 0.22, y: 0, turned: false },
            hands: [
              [1, 398, 400],
              [1, 413, 415],
              [1, 428, 430],
            ],
          },
          {
            step: 'dress',
            work: 'finish',
            at: [443, 446],
            hands: [[1, 443, 446]],
            after: [
              { step: 'roast', gap: [0, 5] },
              { step: 10, gap: [0, 360] },
            ],
          },
        ],
      },
      {
        dish: 'Herb oil',
        steps: [
          {
            step: 'warm',
            work: 'simmer',
            at: [262, 277],
            appliance: 1,
            place: 'front left',
            flame: 'low',
            pan: 1,
            hands: [[0, 262, 264]],
          },
          { step: 'strain', work: 'finish', at: [277, 281], hands: [[0, 277, 281]] },
        ],
      },
    ],
    runs: [
      { appliance: 0, mode: 0, celsius: 280, at: [320, 332], changeover: 19 },
      { appliance: 0, mode: 1, celsius: 165, at: [347, 443], changeover: 15 },
    ],
    cautions: [
      {
        rule: 'pork-whole-cut',
        source: 'an invented source for the sample',
        dish: 'Brined pork loin',
        say: 'Whole cuts of pork: a core of 63 °C, then three minutes of rest.',
      },
    ],
    parts: { wait: 4, gap: 0.9, runs: 5, day: 7.6 },
    bound: 12.6,
  });

const HARBOUR: Kitchen = {
  name: 'Harbour kitchen',
  room: 20,
  boards: 1,
  appliances: [
    {
      name: 'oven',
      kind: 'oven',
      surface: { kind: 'racks', count: 2, width: 0.56, depth: 0.41, height: 0.38, clearance: 0.04 },
      modes: [
        { name: 'roast', lid: null, heat: { low: 75, high: 270 }, lit: [], height: null },
        { name: 'fan', lid: null, heat: { low: 75, high: 250 }, lit: [], height: null },
      ],
      heats: 11,
      cools: 4,
      dial: { unit: 'F', step: 5 },
    },
    {
      name: 'range',
      kind: 'cooktop',
      surface: {
        kind: 'burners',
        burners: [
          { name: 'front', size: 0.23, carries: { low: 0.1, high: 0.28 } },
          { name: 'back', size: 0.18, carries: { low: 0.1, high: 0.23 } },
        ],
      },
      modes: [],
      heats: Number.POSITIVE_INFINITY,
      cools: Number.POSITIVE_INFINITY,
      dial: { unit: 'F', step: 5 },
    },
    {
      name: 'drawer',
      kind: 'warming drawer',
      surface: { kind: 'racks', count: 1, width: 0.5, depth: 0.4, height: 0.2, clearance: 0.02 },
      modes: [{ name: 'warm', lid: null, heat: { low: 40, high: 90 }, lit: [], height: null }],
      heats: 5,
      cools: 2,
      dial: { unit: 'F', step: 5 },
    },
  ],
  pans: [
    { name: 'deep dish', footprint: { kind: 'rectangle', width: 0.25, depth: 0.35 }, height: 0.08, count: 1, wash: 0 },
    { name: 'stock pot', footprint: { kind: 'round', diameter: 0.28 }, height: 0.25, count: 1, wash: 0 },
    { name: 'half sheet', footprint: { kind: 'rectangle', width: 0.33, depth: 0.46 }, height: 0.03, count: 2, wash: 0 },
  ],
};

/** Three courses over two days, names that are hard to cut, a hold, two pans at once; 12:00 in Halifax is minute 0. */
export const harbourDinner = (): Sample =>
  sampleFrom({
    title: 'Harbour dinner',
    zone: 'America/Halifax',
    origin: '2026-12-05T12:00:00-04:00',
    serve: 1800,
    kitchen: HARBOUR,
    cooks: ['Noor', 'Bartholomew Featherstonehaugh'],
    courses: [
      { name: 'first', at: 0 },
      { name: 'main', at: 40 },
      { name: 'sweet', at: 85 },
    ],
    dishes: [
      {
        dish: 'Leek soup 🥣',
        course: 0,
        steps: [
          {
            step: 'simmer',
            work: 'simmer',
            at: [1700, 1790],
            appliance: 1,
            place: 'back',
            flame: 'medium',
            pan: 1,
            hands: [
              [0, 1700, 1702],
              [0, 1745, 1746],
            ],
          },
          {
            step: 'ladle',
            work: 'plate',
            at: [1795, 1800],
            hands: [
              [0, 1795, 1800],
              [1, 1795, 1800],
            ],
          },
        ],
      },
      {
        dish: "Crème brûlée à l'orange",
        course: 2,
        steps: [
          {
            step: 'bake',
            work: 'bake',
            at: [60, 105],
            appliance: 0,
            place: ['rack 1', 'rack 2'],
            celsius: 150,
            pan: 2,
            spot: [
              { x: 0, y: 0, turned: true },
              { x: 0, y: 0, turned: true },
            ],
            hands: [[0, 60, 62]],
          },
          { step: 'chill', work: 'chill', at: [105, 1878] },
          { step: 'torch', work: 'finish', at: [1878, 1885], hands: [[1, 1878, 1885]] },
        ],
      },
      {
        dish: '海鮮 fish pie with a very long name indeed',
        course: 1,
        steps: [
          {
            step: 'bake',
            work: 'bake',
            at: [1760, 1815],
            appliance: 0,
            mode: 1,
            place: 'rack 2',
            celsius: 190,
            pan: 0,
            spot: { x: 0, y: 0, turned: false },
            hands: [[1, 1760, 1762]],
          },
          { step: 'rest', work: 'rest', at: [1815, 1830], after: [{ step: 'bake', gap: [0, 2] }] },
        ],
      },
      {
        dish: 'Greens',
        course: 1,
        steps: [
          {
            step: 'steam',
            work: 'steam',
            at: [1826, 1836],
            appliance: 1,
            place: 'front',
            flame: 'high',
            pan: 1,
            hands: [[0, 1826, 1828]],
          },
          {
            step: 'plate up',
            work: 'plate',
            at: [1836, 1840],
            hands: [[0, 1836, 1840]],
            after: [{ step: 'steam', gap: [0, 0] }],
          },
        ],
      },
      {
        dish: 'Potato rolls',
        course: 0,
        steps: [
          {
            step: 'bake',
            work: 'bake',
            at: [1760, 1778],
            appliance: 0,
            mode: 1,
            place: 'rack 1',
            celsius: 190,
            pan: 2,
            spot: { x: 0, y: 0, turned: true },
            hands: [[0, 1760, 1762]],
          },
        ],
        hold: {
          at: [1780, 1798],
          appliance: 2,
          place: 'rack 1',
          celsius: 70,
          pan: 2,
          spot: { x: 0, y: 0, turned: true },
        },
      },
    ],
    runs: [
      { appliance: 0, mode: 0, celsius: 150, at: [60, 105], changeover: 12 },
      { appliance: 0, mode: 1, celsius: 190, at: [1760, 1815], changeover: 16 },
      { appliance: 2, mode: 0, celsius: 70, at: [1778, 1800], changeover: 10 },
    ],
    parts: { wait: 10, gap: 35.46, day: 36 },
    bound: 81.46,
    status: 'best',
  });

/** The supper with its course landing a quarter of an hour after its time. */
export function lateSupper(): Sample {
  const { problem, plan } = orchardSupper();
  const earlier = { ...problem, serve: problem.serve - 15 };
  return {
    problem: earlier,
    plan: {
      ...plan,
      serve: showIso(earlier.origin + earlier.serve * 60_000, earlier.zone),
      status: 'late',
      dishes: plan.dishes.map((row) => (row.late === null ? row : { ...row, late: 15 })),
    },
  };
}
