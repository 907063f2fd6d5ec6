/**
 * The problem: a meal, a kitchen and a serving time, read, checked and resolved. Everything here is immutable.
 *
 * Units: minutes, °C, metres, kilograms. Minute 0 is `start`; every time is a whole number of minutes after it
 * (real elapsed minutes, so a change of the clocks moves only the labels). References between parts are indices.
 */

import type { CautionRule } from './caution-rules.js';

export const WORKS = [
  'prep',
  'sear',
  'grill',
  'roast',
  'bake',
  'braise',
  'boil',
  'simmer',
  'fry',
  'steam',
  'rest',
  'warm',
  'chill',
  'finish',
  'carve',
  'plate',
] as const;
export type Work = (typeof WORKS)[number];

/** The kinds of work that are done on the heat; waiting costs more after the last of them. */
export const HEAT_WORKS: ReadonlySet<Work> = new Set<Work>([
  'sear',
  'grill',
  'roast',
  'bake',
  'braise',
  'boil',
  'simmer',
  'fry',
  'steam',
  'warm',
]);

export const FADES = ['fast', 'steady', 'slow', 'never'] as const;
export type Fades = (typeof FADES)[number];

export const FLAMES = ['low', 'medium', 'high'] as const;
export type Flame = (typeof FLAMES)[number];

export const APPLIANCE_KINDS = ['grill', 'oven', 'cooktop', 'warming drawer'] as const;
export type ApplianceKind = (typeof APPLIANCE_KINDS)[number];

export const CLOCKS = ['24h', '12h'] as const;
export type ClockFace = (typeof CLOCKS)[number];

/** In which units whatever is made of the meal speaks. */
export interface ShownUnits {
  readonly clock: ClockFace;
  /** Null: each heat in the degrees of its appliance's dial. */
  readonly heat: 'C' | 'F' | null;
  /** The other degrees stand beside them in brackets. */
  readonly both: boolean;
}

export interface Span {
  readonly low: number;
  /** May be Infinity where no upper end is set. */
  readonly high: number;
}

/** Penalty points; the words are those of the file's `care`. */
export interface Rates {
  /** A minute and course. */
  readonly late: number;
  /** A minute, by how fast the dish fades. */
  readonly wait: Readonly<Record<Fades, number>>;
  /** A minute beyond a dish's `keeps`, on top of `wait`. */
  readonly over: number;
  /** A minute for which prepared food waits. */
  readonly gap: number;
  /** A °C away from the ideal, and step. */
  readonly heat: number;
  /** A heat run of an appliance beyond its first. */
  readonly runs: number;
  /** A minute of a run with nothing in the appliance. */
  readonly idle: number;
  /** A minute by which a free duration lies outside its best. */
  readonly rest: number;
  /** A cook on a step beyond the number it asks for at once. */
  readonly swap: number;
  /** A minute from the first step or changeover to the meal's serve. */
  readonly day: number;
}

/** `D`: how long options take; `ProblemAsRead` where the heat model has not been asked yet. */
export interface Problem<D = Duration> {
  readonly title: string;
  /** sha256 of the file's text, hex. */
  readonly digest: string;
  /** IANA zone, e.g. `Europe/Lisbon`. */
  readonly zone: string;
  /** Milliseconds since the epoch of minute 0, which is `start`. */
  readonly origin: number;
  /** The asked serving time, minutes after `start`. */
  readonly serve: number;
  readonly courses: readonly Course[];
  readonly kitchen: Kitchen;
  readonly cooks: readonly Cook[];
  readonly dishes: readonly Dish[];
  /** Every step of every dish; a step's `id` is its place here. Steps of one dish are neighbours, in the file's order. */
  readonly steps: readonly Step<D>[];
  readonly rates: Rates;
  readonly units: ShownUnits;
}

/** What the reader makes. It becomes a `Problem` in `src/heat/meal.ts`, before anything is planned. */
export type ProblemAsRead = Problem<Duration | Asked>;
export type StepAsRead = Step<Duration | Asked>;
export type OptionAsRead = Option<Duration | Asked>;

/** Whether nothing is left to ask the heat model, so that the problem can be planned as it is. */
export const isSettled = (problem: ProblemAsRead): problem is Problem =>
  problem.steps.every(({ options }) => options.every(({ duration }) => duration.kind !== 'asked'));

export interface Course {
  readonly name: string;
  /** Minutes after the meal's serve. */
  readonly at: number;
}

export interface Cook {
  readonly name: string;
  /** Kinds of work, names or kinds of appliances, or `board`; null: everything. One match is enough. */
  readonly can: readonly string[] | null;
  /** Hours by the zone's clock, minutes after midnight, every day; null: no limit on that side. */
  readonly from: number | null;
  readonly to: number | null;
}

export interface Kitchen {
  readonly name: string;
  /** Room temperature, °C. */
  readonly room: number;
  readonly appliances: readonly Appliance[];
  readonly boards: number;
  readonly pans: readonly Pan[];
}

export interface Appliance {
  readonly name: string;
  readonly kind: ApplianceKind;
  readonly surface: Grate | Racks | Burners;
  /** Empty for a cooktop: burners have their own flame and no heat runs. */
  readonly modes: readonly Mode[];
  /** °C a minute when the temperature rises; Infinity where the appliance has none. */
  readonly heats: number;
  /** °C a minute when it falls. */
  readonly cools: number;
  readonly dial: Dial;
}

/** The temperatures that can be set: whole multiples of `step` in `unit`. */
export interface Dial {
  readonly unit: 'C' | 'F';
  readonly step: number;
}

export interface Grate {
  readonly kind: 'grate';
  /** Left to right; `x` is the left edge, metres from the leftmost. Neighbours join into one area. */
  readonly zones: readonly {
    readonly name: string;
    readonly x: number;
    readonly width: number;
    readonly depth: number;
  }[];
  /** Diameter of a round grate, of which the zones are strips; pans lie within the circle. */
  readonly round: number | null;
}

export interface Racks {
  readonly kind: 'racks';
  /** Levels, counted from 1 at the bottom. */
  readonly count: number;
  readonly width: number;
  readonly depth: number;
  /** Of the cavity, shared by all loaded levels. */
  readonly height: number;
  /** Free height that each loaded level needs above its tallest load. */
  readonly clearance: number;
}

export interface Burners {
  readonly kind: 'burners';
  readonly burners: readonly {
    readonly name: string;
    readonly size: number /** By the pan's narrower side. */;
    readonly carries: Span;
  }[];
}

export interface Mode {
  readonly name: string;
  readonly lid: 'open' | 'closed' | null;
  readonly heat: Span;
  /** Names of zones that hold no pan in this mode. */
  readonly lit: readonly string[];
  /** Limit on a load's height, metres; null: none (on racks the cavity's height holds as well). */
  readonly height: number | null;
}

/** Seen from above; `width` lies along x and `depth` along y before turning. */
export type Footprint =
  | { readonly kind: 'rectangle'; readonly width: number; readonly depth: number }
  | { readonly kind: 'round'; readonly diameter: number };

export interface Pan {
  readonly name: string;
  readonly footprint: Footprint;
  readonly height: number;
  readonly count: number;
  /** Minutes away for washing after use. */
  readonly wash: number;
}

export interface Piece {
  readonly food: string;
  readonly shape: 'cylinder' | 'sphere' | 'slab' | 'brick';
  readonly thickness: number | null;
  readonly width: number | null;
  readonly length: number | null;
  /** Of one piece, where the dish is several. */
  readonly weight: number | null;
  /** Start temperature, °C. */
  readonly from: number | null;
  /** The bone is in. */
  readonly bone: boolean;
  /** Thickness of a dry layer around it, of dough, salt or crumbs, beyond its sizes; metres, 0 without. */
  readonly crust: number;
}

export interface Hold {
  readonly heat: Span;
  /** Minutes; Infinity where not said. */
  readonly keeps: number;
  readonly fades: Fades;
  /** Index of a pan that the hold names; null: the dish's own. */
  readonly pan: number | null;
}

export interface Dish {
  readonly name: string;
  readonly served: boolean;
  /** Index of its course; null for a component. */
  readonly course: number | null;
  /** Longest wait after its last step that the dish stands; Infinity where not said. */
  readonly keeps: number;
  readonly fades: Fades;
  readonly hold: Hold | null;
  readonly piece: Piece | null;
  /** Cautions that the cook takes on: what is refused for one of them is let pass, and the caution shown all the same. */
  readonly accept: readonly CautionRule[];
  /** Ids of its steps, in the file's order. */
  readonly steps: readonly number[];
}

export interface Link {
  /** Id of the step that must end first. */
  readonly step: number;
  /** Minutes from that end to this start; already cut to the earlier step's `keeps`. */
  readonly gap: Span;
}

export interface Step<D = Duration> {
  readonly id: number;
  /** Index of its dish. */
  readonly dish: number;
  readonly name: string;
  readonly work: Work;
  readonly after: readonly Link[];
  /** The step's own `keeps`, minutes; null where not said. */
  readonly keeps: number | null;
  /** The pan is free at the step's end. */
  readonly empties: boolean;
  /** Every way to do it in this kitchen; never empty. The plan chooses one. */
  readonly options: readonly Option<D>[];
  /** `until: { core }` or `target` of the step, else of the first entry that has one, °C; null where none has. */
  readonly core: number | null;
}

export interface Option<D = Duration> {
  /** Index of the entry of the file's `on` list that this came from. */
  readonly entry: number;
  readonly place: OptionPlace;
  readonly duration: D;
  /** `until: { core }` or `target` that holds in this entry, its own or the step's, °C; null where it has none. */
  readonly core: number | null;
  /** It is a `target`: where the core shall peak in the rest that follows, not where it is pulled. */
  readonly atPeak: boolean;
  /** By the heat model, for the temperatures that may be set, rising; one without a temperature on a burner; null where it was not asked. */
  readonly forecasts: readonly Forecast[] | null;
  /** Temperatures that may be set (°C, rising, on the dial, within mode, range and columns); empty unless `place` is heated. */
  readonly settings: readonly number[];
  /** °C; null: heat costs nothing here. */
  readonly ideal: number | null;
  /** The word for a burner's flame; null elsewhere. */
  readonly flame: Flame | null;
  /** Index of a pan, or null. */
  readonly pan: number | null;
  /** How many of it; 1 without a pan as well. */
  readonly pans: number;
  /** What stands on the place: one of `pans` equal loads; null where the place takes no footprint (boards, no place). */
  readonly load: Load | null;
  readonly hands: Hands;
}

export type OptionPlace =
  | { readonly kind: 'none' }
  | { readonly kind: 'board' }
  /** Burners (indices) of the appliance that carry the load. */
  | { readonly kind: 'burner'; readonly appliance: number; readonly burners: readonly number[] }
  /** A rack or grate of an appliance with heat runs, in one of its modes. */
  | { readonly kind: 'heated'; readonly appliance: number; readonly mode: number };

export interface Load {
  readonly footprint: Footprint;
  /** The taller of pan and piece. */
  readonly height: number;
}

/**
 * How long an option takes, whole minutes.
 * `fixed`: low and high are the spread for chances; `minutes` is planned. `range`: the plan chooses; outside `best` it costs.
 * `table`: by temperature, columns rising in °C, minutes falling and convex; linear between columns, rounded up.
 */
export type Duration =
  | { readonly kind: 'fixed'; readonly minutes: number; readonly low: number; readonly high: number }
  | { readonly kind: 'range'; readonly low: number; readonly high: number; readonly best: Span }
  | { readonly kind: 'table'; readonly columns: readonly { readonly celsius: number; readonly minutes: number }[] };

/** Until the core is there: the heat model makes a table of it, or on a burner a fixed time. */
export interface Asked {
  readonly kind: 'asked';
}

/** What the heat model expects of a piece at one temperature of its appliance. */
export interface Forecast {
  /** Null on a burner. */
  readonly celsius: number | null;
  /** Minutes until it is pulled, not rounded. */
  readonly low: number;
  readonly likely: number;
  readonly high: number;
  /** Core, °C: when it is pulled, and the highest in the rest. */
  readonly pull: number;
  readonly peak: number;
  /** Minutes from the pull to the peak. */
  readonly peakAfter: number;
}

/** When a step needs attention. `all`: from start to end. Otherwise stretches at the start, the end and every so often. */
export interface Hands {
  readonly all: boolean;
  readonly start: number;
  readonly end: number;
  /** Minutes between looks, counted from the step's start; 0: none. */
  readonly every: number;
  readonly for: number;
  /** Cooks needed at once in each stretch; 1 at least (a step without hands has no stretches). */
  readonly cooks: number;
}
