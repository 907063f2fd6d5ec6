/** Every engine of every set's family on every instance. */
import { readFileSync } from 'node:fs';
import type { Instance, OpenSet } from './data.js';
import type { Aim, Effort, Family, Trial } from './family.js';
import { familyOf } from './sets/all.js';

/** One set under one engine with one effort; without an engine nothing was tried. */
export interface Measured {
  readonly set: string;
  readonly engine: string | null;
  readonly schedules: number;
  readonly instances: number;
  readonly trials: readonly Trial[];
  /** Those of each part of the set, where it has any. */
  readonly parts: readonly { readonly part: string; readonly trials: readonly Trial[] }[];
  readonly aims: readonly {
    readonly what: string;
    readonly aim: string;
    readonly measured: string;
    readonly met: string;
  }[];
}

function trialOf(family: Family, engine: string, instance: Instance, effort: Effort): Trial {
  try {
    return family.run(engine, instance, readFileSync(instance.path, 'utf8'), effort);
  } catch (error) {
    const faults = [error instanceof Error ? error.message : String(error)];
    return { instance, value: null, lower: null, infeasible: false, generated: 0, path: null, seconds: 0, faults };
  }
}

const shown = (value: number, unit: string): string => (unit === '%' ? `${value.toFixed(3)} %` : String(value));

function judged(aims: readonly Aim[], trials: readonly Trial[], tried: boolean): Measured['aims'] {
  return aims.map(({ what, of, atMost, unit }) => {
    const figure = tried ? of(trials) : null;
    const aim = `at most ${atMost}${unit === '%' ? ' %' : ''}`;
    if (figure === null) return { what, aim, measured: '-', met: tried ? 'not told' : 'not yet' };
    return { what, aim, measured: shown(figure, unit), met: figure <= atMost ? 'yes' : 'no' };
  });
}

function partsOf(family: Family, trials: readonly Trial[]): Measured['parts'] {
  const names = new Set(trials.flatMap(({ instance }) => family.part(instance) ?? []));
  return [...names].map((part) => ({
    part,
    trials: trials.filter(({ instance }) => family.part(instance) === part),
  }));
}

/** `engine`: only that one. `tell` hears of each set as it is done. */
export function measure(
  { name, instances }: OpenSet,
  effort: Effort,
  engine: string | null,
  tell: (done: Measured) => void,
): Measured[] {
  const family = familyOf(name);
  const engines = (family?.engines ?? []).filter((one) => engine === null || one === engine);
  const row = { set: name, schedules: effort.schedules, instances: instances.length };
  const aims = family?.aims(name, effort.schedules) ?? [];
  if (family === null || family.engines.length === 0) {
    const none = { ...row, engine: null, trials: [], parts: [], aims: judged(aims, [], false) };
    tell(none);
    return [none];
  }
  return engines.map((one) => {
    const trials = instances.map((instance) => trialOf(family, one, instance, effort));
    const done = { ...row, engine: one, trials, parts: partsOf(family, trials), aims: judged(aims, trials, true) };
    tell(done);
    return done;
  });
}
