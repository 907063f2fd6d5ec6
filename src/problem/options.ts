/** Every way to do a step in this kitchen: each entry of `on`, on each appliance that its place means. */
import { quote } from '../units/measure.js';
import { showLength, showTemperature, showTemperatureSpan } from '../units/show.js';
import { isAble } from './able.js';
import { carryingBurners, narrowerSide } from './fits.js';
import { settingsOf } from './heat.js';
import type { KitchenNames } from './kitchen.js';
import type { Spot } from './message.js';
import { nearest } from './nearest.js';
import { meaningOf } from './places.js';
import type { Asked, Cook, Kitchen, Load, OptionAsRead as Option, Pan, Piece } from './problem.js';
import { listed, type Reading } from './reading.js';
import type { StepEntry } from './schema.js';
import { calledOf, lengthUnitOf, loadOf, noRoom } from './stand.js';
import { entriesOf, type Way, waysOf } from './ways.js';

/** What options are made from besides the step. */
export interface Surroundings {
  /** Null where it is wrong: then only words are checked. */
  readonly kitchen: Kitchen | null;
  readonly names: KitchenNames | null;
  /** Null where they are wrong. */
  readonly cooks: readonly Cook[] | null;
  /** Of the step's dish. */
  readonly piece: Piece | null;
}

/** Why an entry cannot be done here; an error where no entry of the step can, else a warning. */
interface Refusal {
  readonly spot: Spot;
  readonly say: string;
  readonly hint?: string | null | undefined;
}

/** The options of a step; empty where there is none, which is then said, or where the kitchen itself is wrong. */
export function optionsOf(reading: Reading, step: StepEntry, around: Surroundings): Option[] {
  const { kitchen, cooks, piece } = around;
  const before = reading.notes.errors;
  const ways = waysOf(reading, step, kitchen, around.names);
  const hurt = [step, ...entriesOf(step)].some((one) => typeof one === 'object' && reading.isHurt(one));
  if (!kitchen || hurt || reading.notes.errors > before || ways.length === 0) return [];
  const found = ways.map((way) => new Resolver(reading, kitchen, cooks, piece, way));
  const options = found.flatMap((one) => one.options);
  const refusals = found.flatMap((one) => (one.options.length === 0 ? one.refusals : []));
  for (const { spot, say, hint } of refusals) {
    if (options.length === 0) reading.error('no-place', spot, say, hint);
    else reading.warn('no-place', spot, `${say} The other ways remain.`, hint);
  }
  if (options.length === 0 && refusals.length === 0 && reading.notes.errors === before) {
    const places = [...new Set(ways.map((way) => way.place))];
    const none = places.length > 1 ? `none of ${places.join(', ')}` : `no ${places[0]}`;
    const say = `This kitchen has ${none}, and the step names no other place.`;
    reading.error('no-place', reading.at(step, 'on'), say, listed(kitchen.appliances.map((one) => one.name)));
  }
  if (options.length > 0 && refusals.length === 0) sayUnused(reading, step, options);
  return options;
}

/** A heat or a mode that no way of the step has a use for is a slip. */
function sayUnused(reading: Reading, step: StepEntry, options: readonly Option[]): void {
  if (step.heat !== undefined && !options.some((option) => option.flame !== null || option.settings.length > 0)) {
    const say = 'The heat has no use here: no way of the step has a place with such a heat.';
    reading.error('heat', reading.keyAt(step, 'heat'), say, 'on: [ { place: oven } ]');
  }
  if (step.mode !== undefined && !options.some((option) => option.place.kind === 'heated')) {
    const say = 'The mode has no use here: no way of the step is on an appliance with modes.';
    reading.error('mode', reading.keyAt(step, 'mode'), say, 'leave `mode` out');
  }
}

type HeatPart = Pick<Option, 'settings' | 'ideal' | 'flame'>;
const UNHEATED: HeatPart = { settings: [], ideal: null, flame: null };

/** Resolves one way: its options, and why what is not among them cannot be done. */
class Resolver {
  readonly refusals: Refusal[] = [];
  readonly options: readonly Option[];
  readonly #pan: Pan | null;

  constructor(
    readonly reading: Reading,
    readonly kitchen: Kitchen,
    readonly cooks: readonly Cook[] | null,
    readonly piece: Piece | null,
    readonly way: Way,
  ) {
    this.#pan = way.pan === null ? null : kitchen.pans[way.pan]!;
    this.options = this.resolved().filter((option) => option !== undefined && this.enoughCooks(option)) as Option[];
  }

  resolved(): (Option | undefined)[] {
    const meant = meaningOf(this.way.place, this.kitchen);
    if (meant.kind === 'absent' || meant.kind === 'unknown' || !this.enoughPans()) return [];
    if (meant.kind === 'none' || meant.kind === 'board') return [this.unheated(meant.kind)];
    return meant.kind === 'burners' ? this.onBurners(meant.burners) : this.heated(meant.appliances);
  }

  refuse(spot: Spot, say: string, hint?: string | null): undefined {
    this.refusals.push({ spot, say, hint });
  }

  enoughPans(): boolean {
    const pan = this.#pan;
    if (!pan || this.way.pans <= pan.count) return true;
    const say = `The step fills ${this.way.pans} of ${quote(pan.name)}, but the kitchen has ${pan.count}.`;
    this.refuse(this.way.panSpot, say);
    return false;
  }

  enoughCooks({ place, hands }: Option): boolean {
    const asked = hands.all || hands.start > 0 || hands.end > 0 || hands.every > 0 ? hands.cooks : 0;
    const able = this.cooks?.filter((cook) => isAble(this.kitchen, cook, this.way.work, place)).length ?? asked;
    if (able >= asked) return true;
    const has = able === 0 ? 'no cook' : `only ${able}`;
    const say = `The step asks for ${asked === 1 ? 'a cook' : `${asked} cooks at once`}, but ${has} can do it.`;
    this.refuse(this.way.handsSpot, say, `can: [${this.way.work}]`);
    return false;
  }

  option(place: Option['place'], duration: Option['duration'], load: Load | null, heat: HeatPart): Option {
    const { index, pan, pans, hands, time } = this.way;
    const { core, atPeak } = time;
    return { entry: index, place, duration, core, atPeak, forecasts: null, ...heat, pan, pans, load, hands };
  }

  unheated(kind: 'none' | 'board'): Option | undefined {
    const { spot, ownHeat, heatSpot, ownMode, modeSpot, time } = this.way;
    const where = kind === 'board' ? 'A board' : 'A step without a place';
    if (kind === 'board' && this.kitchen.boards === 0)
      return this.refuse(spot, 'The kitchen has no board.', 'boards: 1');
    if (ownHeat) return this.refuse(heatSpot, `${where} has no heat.`, 'leave `heat` out');
    if (ownMode) return this.refuse(modeSpot, `${where} has no modes.`, 'leave `mode` out');
    if (!time.duration || time.duration.kind === 'table') {
      const say = `${where} has no temperature, so that one duration is needed here.`;
      return this.refuse(time.spot, say, 'takes: 20 min');
    }
    return this.option({ kind }, time.duration, null, UNHEATED);
  }

  onBurners(burners: readonly { appliance: number; burner: number | null }[]): (Option | undefined)[] {
    const { way } = this;
    const duration = way.time.duration ?? this.asked();
    if (way.ownHeat && way.heat?.kind === 'range') {
      return [this.refuse(way.heatSpot, 'The heat of a burner is a word, not a temperature.', 'low, medium or high')];
    }
    if (way.ownMode) return [this.refuse(way.modeSpot, 'A burner has no modes.', 'leave `mode` out')];
    if (!duration) return [];
    if (duration.kind === 'table') {
      const say = 'A burner has no temperature, so that one duration is needed for it.';
      const key = way.time.core === null ? 'takes' : 'minutes';
      return [this.refuse(way.spot, say, `{ place: ${way.place}, ${key}: 20 min }`)];
    }
    const load = this.load();
    if (!load) return [];
    const flame = way.heat?.kind === 'flame' ? way.heat.flame : null;
    const options = [...new Set(burners.map((one) => one.appliance))].flatMap((appliance) => {
      const { surface } = this.kitchen.appliances[appliance]!;
      if (surface.kind !== 'burners') return [];
      const meant = burners.filter((one) => one.appliance === appliance).map((one) => one.burner);
      const carrying = carryingBurners(surface, load).filter((one) => meant.includes(null) || meant.includes(one));
      if (carrying.length < way.pans) return [];
      return [this.option({ kind: 'burner', appliance, burners: carrying }, duration, load, { ...UNHEATED, flame })];
    });
    if (options.length === 0) this.refuse(way.panSpot, this.notCarried(load));
    return options;
  }

  notCarried(load: Load): string {
    const called = calledOf(this.#pan);
    const side = showLength(narrowerSide(load.footprint), lengthUnitOf(this.kitchen));
    if (this.way.pans > 1) return `No cooktop has ${this.way.pans} burners here that carry ${called}.`;
    return `No burner meant here carries ${called}, whose narrower side is ${side}.`;
  }

  heated(appliances: readonly number[]): (Option | undefined)[] {
    const { way } = this;
    if (way.ownHeat && way.heat?.kind === 'flame') {
      const say = `${quote(way.heat.flame)} is the flame of a burner; here the heat is a temperature.`;
      return [this.refuse(way.heatSpot, say, 'heat: 165C')];
    }
    const having = appliances.filter((appliance) => this.modeOf(appliance) !== undefined);
    if (having.length === 0) {
      const modes = appliances.flatMap((appliance) => this.kitchen.appliances[appliance]!.modes.map((one) => one.name));
      const hint = nearest(way.mode!, modes) ?? listed([...new Set(modes)]);
      return [this.refuse(way.modeSpot, `${quote(way.mode!)} is no mode of ${way.place}.`, hint)];
    }
    const load = this.load();
    return load ? having.map((appliance) => this.inMode(appliance, this.modeOf(appliance)!, load)) : [];
  }

  /** The named mode; else the one named like the work, else the first. */
  modeOf(appliance: number): number | undefined {
    const { modes } = this.kitchen.appliances[appliance]!;
    const index = modes.findIndex((mode) => mode.name === (this.way.mode ?? this.way.work));
    if (index >= 0) return index;
    return this.way.mode === undefined ? 0 : undefined;
  }

  inMode(appliance: number, mode: number, load: Load): Option | undefined {
    const { way } = this;
    const where = this.kitchen.appliances[appliance]!;
    const how = where.modes[mode]!;
    const { duration, core } = way.time;
    const crowded = noRoom(where, how, load, calledOf(this.#pan), lengthUnitOf(this.kitchen));
    if (crowded) return this.refuse(way.panSpot, crowded);
    const table = duration?.kind === 'table' ? duration : null;
    const who = `${quote(where.name)} in mode ${quote(how.name)}`;
    const heat = settingsOf(who, how, where.dial, way.heat, table);
    if ('say' in heat) return this.refuse(way.heat ? way.heatSpot : way.spot, heat.say, heat.hint);
    if (core !== null && duration?.kind === 'fixed') {
      const [low, high] = [heat.settings[0]!, heat.settings.at(-1)!].map((celsius) =>
        showTemperature(celsius, where.dial.unit).replace(' °', ''),
      );
      const say = `One number of \`minutes\` is for a burner; for the temperatures from ${low} to ${high} they are a table.`;
      // No numbers here: minutes that nobody measured must not be copied.
      const hint = `leave \`minutes\` out, or minutes: { "${low}": ...${low === high ? '' : `, "${high}": ...`} }`;
      return this.refuse(way.time.spot, say, hint);
    }
    if (!duration && way.heat === undefined) {
      const span = showTemperatureSpan(heat.settings[0]!, heat.settings.at(-1)!, where.dial.unit);
      const say = `How hot may it be? No heat is written, so that it could be anything within ${span}.`;
      return this.refuse(way.time.spot, say, `heat: ${where.dial.unit === 'C' ? '150-180C' : '300-350F'}`);
    }
    const time = duration ?? this.asked();
    return time && this.option({ kind: 'heated', appliance, mode }, time, load, { ...heat, flame: null });
  }

  /** The heat model is to say how long it takes, if there is a piece to reckon with. */
  asked(): Asked | undefined {
    if (this.piece) return { kind: 'asked' };
    const say = 'How long until the core is there follows from the `piece` of the dish, which is missing.';
    const hint = 'piece: { food: pork, thickness: 11 cm, weight: 2.5 kg } in the dish, or `minutes` here';
    return this.refuse(this.way.time.spot, say, hint);
  }

  load(): Load | null {
    const load = loadOf(this.#pan, this.piece);
    if (!load) {
      const [say, hint] = this.piece
        ? ['No pan is named, and the piece does not say its size.', 'piece: { length: 34 cm, thickness: 10 cm }']
        : ['What stands here? The step names no pan, and the dish has no `piece`.', 'pan: half sheet'];
      this.reading.error('no-load', this.way.spot, say, hint);
    }
    return load;
  }
}
