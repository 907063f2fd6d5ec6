/**
 * Problems by hand, for tests: short specs with names, filled up to a `Problem`. It follows none of the reader's rules of
 * what is absent: gaps are free, hands are none, nothing is refused. Say what the test is about.
 */
import type { CautionRule } from '../../src/problem/caution-rules.js';
import type {
  Appliance,
  Cook,
  Course,
  Dial,
  Dish,
  Duration,
  Fades,
  Flame,
  Footprint,
  Hands,
  Hold,
  Load,
  Mode,
  Option,
  OptionPlace,
  Pan,
  Piece,
  Problem,
  Racks,
  Rates,
  ShownUnits,
  Span,
  Step,
  Work,
} from '../../src/problem/problem.js';

/** The rates of the design's section 5. */
export const DESIGN_RATES: Rates = {
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
};

export const NO_HANDS: Hands = { all: false, start: 0, end: 0, every: 0, for: 1, cooks: 1 };
export const ALL_HANDS: Hands = { ...NO_HANDS, all: true };

type Range = readonly [low: number, high: number];

export interface OptionSpec {
  /** `board`, an appliance's name, or `Appliance/burner` for one burner; absent: no place. */
  readonly place?: string;
  /** Absent: the appliance's first. */
  readonly mode?: string;
  /** Fixed minutes, a free range, or minutes by °C. */
  readonly takes?: number | { low: number; high: number; best?: Range } | Readonly<Record<`${number}C`, number>>;
  /** °C; absent: the mode's, cut to the columns. */
  readonly heat?: Range;
  readonly ideal?: number;
  readonly core?: number;
  readonly atPeak?: boolean;
  readonly forecasts?: Option['forecasts'];
  readonly flame?: Flame;
  readonly pan?: string;
  readonly pans?: number;
  /** Absent: the pan's. */
  readonly load?: Load;
  readonly hands?: Partial<Hands>;
}

export interface StepSpec extends OptionSpec {
  readonly step: string;
  /** Absent: prep. */
  readonly work?: Work;
  /** Absent: the step above, free; `step` or `Dish/step`. */
  readonly after?: readonly (string | { readonly step: string; readonly gap: Range })[];
  /** The gap to the step above. */
  readonly gap?: Range;
  readonly keeps?: number;
  readonly empties?: boolean;
  /** Each replaces the step's own. */
  readonly on?: readonly OptionSpec[];
}

export interface DishSpec {
  readonly dish: string;
  /** Absent: served in the first course. */
  readonly served?: false;
  readonly course?: string;
  readonly keeps?: number;
  readonly fades?: Fades;
  readonly hold?: { readonly heat: Range; readonly keeps?: number; readonly fades?: Fades; readonly pan?: string };
  readonly piece?: Partial<Piece>;
  readonly accept?: readonly CautionRule[];
  readonly steps: readonly StepSpec[];
}

export interface KitchenSpec {
  readonly room?: number;
  readonly appliances?: readonly Appliance[];
  readonly boards?: number;
  readonly pans?: readonly Pan[];
}

export interface ProblemSpec {
  readonly serve: number;
  readonly zone?: string;
  /** ISO time with offset of minute 0. */
  readonly start?: string;
  readonly courses?: readonly Course[];
  readonly kitchen?: KitchenSpec;
  readonly cooks?: readonly (string | (Partial<Cook> & { readonly name: string }))[];
  readonly dishes: readonly DishSpec[];
  readonly rates?: Partial<Rates>;
  readonly units?: Partial<ShownUnits>;
}

export const rectangle = (width: number, depth: number): Footprint => ({ kind: 'rectangle', width, depth });
export const circle = (diameter: number): Footprint => ({ kind: 'round', diameter });

export function pan(name: string, footprint: Footprint, more: Partial<Pan> = {}): Pan {
  return { name, footprint, height: 0.05, count: 1, wash: 0, ...more };
}

interface HeatSpec {
  readonly modes?: Readonly<Record<string, Range | (Partial<Mode> & { readonly heat: Span })>>;
  readonly heats?: number;
  readonly cools?: number;
  readonly dial?: Dial;
}

function heatOf(spec: HeatSpec, absent: Record<string, Range>): Pick<Appliance, 'modes' | 'heats' | 'cools' | 'dial'> {
  return {
    modes: Object.entries(spec.modes ?? absent).map(
      ([name, mode]): Mode => ({
        name,
        lid: null,
        lit: [],
        height: null,
        ...('heat' in mode ? mode : { heat: spanOf(mode) }),
      }),
    ),
    heats: spec.heats ?? 10,
    cools: spec.cools ?? 5,
    dial: spec.dial ?? { unit: 'C', step: 5 },
  };
}

/** Two racks of 56 x 41 cm in a cavity of 38 cm; 10 °C a minute up, 5 down. */
export function oven(name = 'oven', spec: HeatSpec & Partial<Racks> = {}): Appliance {
  const { count = 2, width = 0.56, depth = 0.41, height = 0.38, clearance = 0.04 } = spec;
  return {
    name,
    kind: 'oven',
    surface: { kind: 'racks', count, width, depth, height, clearance },
    ...heatOf(spec, { roast: [50, 270] }),
  };
}

/** Zones `left`, `middle` and `right` of 28 x 46 cm. */
export function grill(
  name = 'grill',
  spec: HeatSpec & {
    readonly zones?: readonly {
      readonly name: string;
      readonly x: number;
      readonly width: number;
      readonly depth: number;
    }[];
    readonly round?: number;
  } = {},
): Appliance {
  const zones = ['left', 'middle', 'right'].map((zone, at) => ({ name: zone, x: at * 0.28, width: 0.28, depth: 0.46 }));
  return {
    name,
    kind: 'grill',
    surface: { kind: 'grate', zones: spec.zones ?? zones, round: spec.round ?? null },
    ...heatOf(spec, { sear: [200, 320], roast: [100, 260] }),
  };
}

/** Burners by size; each carries pans up to 5 cm wider. */
export function cooktop(
  name = 'range',
  burners: Readonly<Record<string, number>> = { front: 0.23, back: 0.18 },
): Appliance {
  return {
    name,
    kind: 'cooktop',
    surface: {
      kind: 'burners',
      burners: Object.entries(burners).map(([burner, size]) => ({
        name: burner,
        size,
        carries: { low: 0, high: size + 0.05 },
      })),
    },
    modes: [],
    heats: Number.POSITIVE_INFINITY,
    cools: Number.POSITIVE_INFINITY,
    dial: { unit: 'C', step: 5 },
  };
}

function spanOf([low, high]: Range): Span {
  return { low, high };
}

export function problemOf(spec: ProblemSpec): Problem {
  const kitchen = {
    name: 'Test kitchen',
    room: spec.kitchen?.room ?? 20,
    appliances: spec.kitchen?.appliances ?? [],
    boards: spec.kitchen?.boards ?? 1,
    pans: spec.kitchen?.pans ?? [],
  };
  const courses = spec.courses ?? [{ name: 'main', at: 0 }];
  const named = spec.dishes.flatMap((dish, at) =>
    dish.steps.map((step) => ({ at, label: `${dish.dish}/${step.step}` })),
  );
  const idOf = (dish: string, name: string): number => {
    const label = name.includes('/') ? name : `${dish}/${name}`;
    const id = named.findIndex((each) => each.label === label);
    if (id < 0) throw new Error(`no step ${label}`);
    return id;
  };

  const dishes = spec.dishes.map((dish, at): Dish => {
    const course = dish.course === undefined ? 0 : courses.findIndex((each) => each.name === dish.course);
    return {
      name: dish.dish,
      served: dish.served ?? true,
      course: dish.served === false ? null : course,
      keeps: dish.keeps ?? Number.POSITIVE_INFINITY,
      fades: dish.fades ?? 'steady',
      hold: dish.hold === undefined ? null : holdOf(dish.hold, kitchen.pans),
      piece: dish.piece === undefined ? null : pieceOf(dish.piece),
      accept: dish.accept ?? [],
      steps: named.flatMap((each, id) => (each.at === at ? [id] : [])),
    };
  });
  const steps = spec.dishes.flatMap((dish, at) =>
    dish.steps.map((step, place): Step => {
      const above = dish.steps[place - 1];
      const after =
        step.after ?? (above === undefined ? [] : [{ step: above.step, gap: step.gap ?? ([0, Infinity] as const) }]);
      return {
        id: idOf(dish.dish, step.step),
        dish: at,
        name: step.step,
        work: step.work ?? 'prep',
        after: after.map((link) =>
          typeof link === 'string'
            ? { step: idOf(dish.dish, link), gap: { low: 0, high: Number.POSITIVE_INFINITY } }
            : { step: idOf(dish.dish, link.step), gap: spanOf(link.gap) },
        ),
        keeps: step.keeps ?? null,
        empties: step.empties ?? false,
        core: step.core ?? step.on?.find((entry) => entry.core !== undefined)?.core ?? null,
        options: (step.on ?? [{}]).map((entry, index) => optionOf({ ...step, ...entry }, index, kitchen)),
      };
    }),
  );
  return {
    title: 'Test meal',
    digest: '0'.repeat(64),
    zone: spec.zone ?? 'Europe/Lisbon',
    origin: Date.parse(spec.start ?? '2026-10-03T11:00:00+01:00'),
    serve: spec.serve,
    courses,
    kitchen,
    cooks: (spec.cooks ?? ['Ines']).map((cook): Cook => {
      const given = typeof cook === 'string' ? { name: cook } : cook;
      return { can: null, from: null, to: null, ...given };
    }),
    dishes,
    steps,
    rates: { ...DESIGN_RATES, ...spec.rates },
    units: { clock: '24h', heat: null, both: false, ...spec.units },
  };
}

function holdOf(spec: NonNullable<DishSpec['hold']>, pans: readonly Pan[]): Hold {
  return {
    heat: spanOf(spec.heat),
    keeps: spec.keeps ?? Number.POSITIVE_INFINITY,
    fades: spec.fades ?? 'slow',
    pan: spec.pan === undefined ? null : indexOf(pans, spec.pan),
  };
}

function pieceOf(piece: Partial<Piece>): Piece {
  return {
    food: 'pork',
    shape: 'cylinder',
    thickness: null,
    width: null,
    length: null,
    weight: null,
    from: null,
    bone: false,
    crust: 0,
    ...piece,
  };
}

function indexOf(list: readonly { readonly name: string }[], name: string): number {
  const index = list.findIndex((each) => each.name === name);
  if (index < 0) throw new Error(`nothing is called ${name}`);
  return index;
}

function optionOf(spec: OptionSpec, entry: number, kitchen: Problem['kitchen']): Option {
  const panIndex = spec.pan === undefined ? null : indexOf(kitchen.pans, spec.pan);
  const own = panIndex === null ? undefined : kitchen.pans[panIndex];
  const load = spec.load ?? (own === undefined ? null : { footprint: own.footprint, height: own.height });
  const place = placeOf(spec, kitchen, load);
  const duration = durationOf(spec.takes ?? 10);
  const takesLoad = place.kind === 'heated' || place.kind === 'burner';
  return {
    entry,
    place,
    duration,
    core: spec.core ?? null,
    atPeak: spec.atPeak ?? false,
    forecasts: spec.forecasts ?? null,
    settings:
      place.kind === 'heated' ? settingsOf(spec, kitchen.appliances[place.appliance]!, place.mode, duration) : [],
    ideal: spec.ideal ?? null,
    flame: spec.flame ?? (place.kind === 'burner' ? 'medium' : null),
    pan: panIndex,
    pans: spec.pans ?? 1,
    load: takesLoad ? load : null,
    hands: { ...NO_HANDS, ...spec.hands },
  };
}

function placeOf(spec: OptionSpec, kitchen: Problem['kitchen'], load: Load | null): OptionPlace {
  if (spec.place === undefined) return { kind: 'none' };
  if (spec.place === 'board') return { kind: 'board' };
  const [name = '', only] = spec.place.split('/');
  const appliance = indexOf(kitchen.appliances, name);
  const { surface, modes } = kitchen.appliances[appliance]!;
  if (surface.kind !== 'burners') {
    return { kind: 'heated', appliance, mode: spec.mode === undefined ? 0 : indexOf(modes, spec.mode) };
  }
  const footprint = load?.footprint;
  const narrow =
    footprint === undefined
      ? 0
      : footprint.kind === 'round'
        ? footprint.diameter
        : Math.min(footprint.width, footprint.depth);
  const burners = surface.burners.flatMap((each, index) =>
    (only === undefined || each.name === only) && narrow <= each.carries.high + 1e-6 ? [index] : [],
  );
  return { kind: 'burner', appliance, burners };
}

function durationOf(takes: NonNullable<OptionSpec['takes']>): Duration {
  if (typeof takes === 'number') return { kind: 'fixed', minutes: takes, low: takes, high: takes };
  if ('low' in takes) {
    const { low, high, best = [low, high] } = takes as { low: number; high: number; best?: Range };
    return { kind: 'range', low, high, best: spanOf(best) };
  }
  const columns = Object.entries(takes).map(([celsius, minutes]) => ({
    celsius: Number.parseFloat(celsius),
    minutes: minutes as number,
  }));
  return { kind: 'table', columns: columns.sort((one, two) => one.celsius - two.celsius) };
}

function settingsOf(spec: OptionSpec, appliance: Appliance, mode: number, duration: Duration): number[] {
  const { unit, step } = appliance.dial;
  const { heat } = appliance.modes[mode]!;
  const columns = duration.kind === 'table' ? duration.columns.map((column) => column.celsius) : [];
  const low = Math.max(heat.low, spec.heat?.[0] ?? heat.low, columns[0] ?? heat.low);
  const high = Math.min(heat.high, spec.heat?.[1] ?? heat.high, columns.at(-1) ?? heat.high);
  const toUnit = (celsius: number): number => (unit === 'F' ? (celsius * 9) / 5 + 32 : celsius);
  const toCelsius = (value: number): number => (unit === 'F' ? ((value - 32) * 5) / 9 : value);
  const settings: number[] = [];
  for (let at = Math.ceil(toUnit(low) / step - 1e-9) * step; at <= toUnit(high) + 1e-9; at += step)
    settings.push(toCelsius(at));
  return settings;
}
