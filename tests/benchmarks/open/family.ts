/** What a family of sets is to the frame: a reader, a checker, engines, aims. How to add one: DEVELOPERS.md. */
import type { Verdict } from './check/verdict.js';
import type { Instance } from './data.js';

/** What an engine may spend: schedules, counted as the literature counts them (one pass of schedule generation each). */
export interface Effort {
  readonly schedules: number;
  readonly seed: number;
}

export interface Outcome<S> {
  /** Null where none was found. */
  readonly schedule: S | null;
  /** What the engine proved to be a lower bound; null: nothing. */
  readonly lower: number | null;
  /** It proved that there is no schedule. */
  readonly infeasible: boolean;
  /** Schedules made, or whatever else it counts. */
  readonly generated: number;
}

/** A solver under trial. It sees the instance and its effort, nothing else: no bounds, no name. */
export interface Engine<D, S> {
  readonly name: string;
  readonly solve: (data: D, effort: Effort) => Outcome<S>;
}

/** One instance solved by one engine and judged. */
export interface Trial {
  readonly instance: Instance;
  /** By the checker; null where nothing was found. */
  readonly value: number | null;
  readonly lower: number | null;
  readonly infeasible: boolean;
  readonly generated: number;
  /** Length of the critical path, where the family has one. */
  readonly path: number | null;
  /** Of processor time. */
  readonly seconds: number;
  readonly faults: readonly string[];
}

export interface Aim {
  readonly what: string;
  /** The figure of some trials; null: it cannot be told from these. */
  readonly of: (trials: readonly Trial[]) => number | null;
  readonly atMost: number;
  readonly unit: '%' | '';
}

export interface Definition<D, S> {
  /** Names of the sets that belong to it, sizes and all. */
  readonly sets: RegExp;
  /** Throws where the text is not of the format. */
  readonly read: (text: string) => D;
  readonly check: (data: D, schedule: S) => Verdict;
  readonly criticalPath?: (data: D) => number;
  /** None: "not yet". */
  readonly engines: readonly Engine<D, S>[];
  /** The part of its set that an instance belongs to, where parts are told one by one as well. */
  readonly part?: (instance: Instance) => string | null;
  readonly aims: (set: string, schedules: number) => readonly Aim[];
}

/** A family whose kinds of data and schedules are nobody else's business. */
export interface Family {
  readonly sets: RegExp;
  readonly engines: readonly string[];
  readonly part: (instance: Instance) => string | null;
  readonly aims: (set: string, schedules: number) => readonly Aim[];
  readonly run: (engine: string, instance: Instance, text: string, effort: Effort) => Trial;
}

export function family<D, S>(definition: Definition<D, S>): Family {
  const { sets, read, check, criticalPath, engines, part, aims } = definition;
  const run = (name: string, instance: Instance, text: string, effort: Effort): Trial => {
    const engine = engines.find((one) => one.name === name)!;
    const data = read(text);
    const begun = process.cpuUsage();
    const { schedule, lower, infeasible, generated } = engine.solve(data, effort);
    const { user, system } = process.cpuUsage(begun);
    const verdict = schedule === null ? null : check(data, schedule);
    const value = verdict?.value ?? null;
    return {
      instance,
      value,
      lower,
      infeasible,
      generated,
      path: criticalPath?.(data) ?? null,
      seconds: (user + system) / 1e6,
      faults: [...(verdict?.faults ?? []), ...contradictions(instance, value, lower, infeasible)],
    };
  };
  return { sets, engines: engines.map(({ name }) => name), part: part ?? (() => null), aims, run };
}

/** Where a result cannot be true beside what is known, or beside itself. */
function contradictions(known: Instance, value: number | null, lower: number | null, infeasible: boolean): string[] {
  const rows: readonly (readonly [boolean, string])[] = [
    [value !== null && known.status === 'infeasible', 'a schedule for an instance that is proved to have none'],
    [value !== null && infeasible, 'a schedule, and a proof that there is none'],
    [infeasible && known.upper !== null, 'a proof that there is no schedule, where one is known'],
    [value !== null && lower !== null && value < lower, `${value} is below its own bound ${lower}`],
    [value !== null && known.lower !== null && value < known.lower, `${value} is below the known bound ${known.lower}`],
    [
      lower !== null && known.upper !== null && lower > known.upper,
      `its bound ${lower} is above the known ${known.upper}`,
    ],
  ];
  return rows.filter(([wrong]) => wrong).map(([, what]) => what);
}
