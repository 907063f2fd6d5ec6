/** Small random scheduling models whose last job is a chain, for comparing its insertion with brute force. */
import type { Model, StandingLoad } from '../../src/kernel/model.js';
import {
  type ActivitySpec,
  type JobSpec,
  type ModelSpec,
  type ModeSpec,
  machineOf,
  modelOf,
} from '../kernel/model-builder.js';
import type { Random } from '../support/random.js';

export interface RandomModelSize {
  readonly horizon: number;
  /** Activities of the last job. */
  readonly chain: number;
  /** The last job may need the machine or a vessel more than once, and the day costs. */
  readonly entangled: boolean;
  /** Every activity of the last job is on the machine, whose runs and idling cost nothing. */
  readonly heated?: boolean;
}

const BENCH = 0;
const VESSELS = [1, 2];

/** At most two loads at once. */
function fits(loads: readonly StandingLoad[]): boolean {
  return loads.every(({ start }) => {
    const on = loads.filter((load) => load.start <= start && start < load.end);
    return on.reduce((sum, load) => sum + load.count, 0) <= 2;
  });
}

function onMachine(random: Random): ModeSpec {
  const states = random.some(
    random.pick([
      [0, 1],
      [2, 3],
    ]),
    0.6,
  );
  const settings = states.map((state) => ({ state, minutes: random.int(2, 6), cost: random.int(0, 4) / 4 }));
  return { machine: 0, settings, load: random.chance(0.8) ? 0 : -1 };
}

function plain(random: Random): ModeSpec {
  const low = random.int(1, 4);
  if (random.chance(0.3)) {
    const high = low + random.int(0, 6);
    const bestLow = random.int(low, high);
    return { range: { low, high, bestLow, bestHigh: random.int(bestLow, high), rate: random.pick([0, 0.5]) } };
  }
  return { minutes: low };
}

function modeSpec(random: Random, machine: boolean, vessel: number): ModeSpec {
  const mode = machine ? onMachine(random) : plain(random);
  const needs: { -readonly [key in keyof ModeSpec]: ModeSpec[key] } = {};
  if (vessel >= 0) needs.vessel = vessel;
  else if (!machine && random.chance(0.2)) needs.bench = BENCH;
  if (!machine && random.chance(0.25)) Object.assign(needs, { units: random.some([0, 1], 0.6), unitCount: 1 });
  if (mode.range === undefined && random.chance(0.5)) {
    needs.attention = random.pick([
      { all: true },
      { start: 1 },
      { start: 1, end: 1 },
      { start: 1, every: 3 },
      { all: true, crew: 2 },
    ]);
    needs.able = random.pick([1, 2, 3, 3]);
    if (needs.attention.crew === 2) needs.able = 3;
  }
  if (!machine && vessel < 0 && random.chance(0.15)) return { ...mode, transparent: true };
  return { ...mode, ...needs };
}

function chainOf(random: Random, length: number, entangled: boolean): ActivitySpec[] {
  const hot = random.int(0, length);
  const held = random.int(0, length);
  return Array.from({ length }, (_, i) => {
    const machine = i === hot || (entangled && random.chance(0.3));
    const vessel = i === held || (entangled && random.chance(0.4)) ? random.pick(VESSELS) : -1;
    const modes = [modeSpec(random, machine, vessel)];
    if (random.chance(0.4)) modes.push(modeSpec(random, machine && random.chance(0.5), vessel));
    return { modes, empties: random.chance(0.15) };
  });
}

/** The model; its last job is the one to be inserted. */
export function randomModel(random: Random, { horizon, chain, entangled, heated }: RandomModelSize): Model {
  const groups = random.chance(0.5) ? [horizon - 6] : [horizon - 10, horizon - 4];
  const lengths = [...Array.from({ length: random.int(1, 4) }, () => random.int(1, 2)), chain];
  const jobs = lengths.map((length): JobSpec => {
    // Only without a limit does one minute more of waiting cost everybody else the same.
    const last = length === chain;
    return {
      group: random.int(0, groups.length - 1),
      rate: random.pick([0, 0.25, 1, 4]),
      ...(last && random.chance(0.5) && { keeps: random.int(0, 6) }),
      activities: chainOf(random, length, entangled),
    };
  });
  if (heated) {
    Object.assign(jobs.at(-1)!, { activities: Array.from({ length: chain }, () => ({ modes: [onMachine(random)] })) });
  }
  for (const job of jobs.slice(0, -1)) delete (job as { keeps?: number }).keeps;
  const lags: NonNullable<ModelSpec['lags']> = jobs.flatMap((job, j) => {
    const first = jobs.slice(0, j).reduce((sum, before) => sum + before.activities.length, 0);
    return job.activities.slice(1).map((_, i) => {
      const low = random.int(0, 2);
      const high = random.chance(0.5) ? Number.POSITIVE_INFINITY : low + random.int(0, 5);
      return { from: first + i, to: first + i + 1, low, high, rate: random.pick([0, 0.25, 1]) };
    });
  });
  const away = {
    stays: random.chance(0.7)
      ? [{ from: 0, to: horizon }]
      : [{ from: random.int(0, 8), to: horizon - random.int(0, 8) }],
  };
  return modelOf({
    horizon,
    groups,
    serve: Math.max(...groups),
    jobs,
    lags,
    machines: [
      machineOf({
        levels: [
          [1, 3],
          [5, 6],
        ],
        runCost: heated ? 0 : 5,
        idleCost: heated ? 0 : random.pick([0, 0.1]),
        fits,
      }),
    ],
    units: 2,
    renewables: [
      { capacity: 1, tail: 0 },
      { capacity: random.int(1, 2), tail: random.int(0, 2) },
      { capacity: 1, tail: random.int(0, 3) },
    ],
    workers: [{ stays: [{ from: 0, to: horizon }] }, away],
    rates: { late: random.pick([2, 60]), day: entangled ? 0.25 : 0 },
  });
}
