/** Every way to do a step in this kitchen: each entry of `on`, on each appliance that its place means. */
import { quote } from '../units/measure.js';
import { showLength, showSize } from '../units/show.js';
import { carryingBurners, footprintFits, heightFits, narrowerSide, pieceFootprint, tallestLoad } from './fits.js';
import { settingsOf } from './heat.js';
import type { KitchenNames } from './kitchen.js';
import type { Spot } from './message.js';
import { nearest } from './nearest.js';
import { meaningOf } from './places.js';
import type { Appliance, Footprint, Kitchen, Load, Mode, Option, Pan, Piece } from './problem.js';
import { listed, type Reading } from './reading.js';
import type { StepEntry } from './schema.js';
import { type Way, waysOf } from './ways.js';

/** Why an entry cannot be done here; an error where no entry of the step can, else a warning. */
interface Refusal {
  readonly spot: Spot;
  readonly say: string;
  readonly hint?: string | null | undefined;
}

interface Found {
  readonly options: Option[];
  readonly refusals: Refusal[];
  /** The kitchen has no such appliance. */
  readonly absent: boolean;
}

/** The options of a step; empty where there is none, which is then said, or where the kitchen itself is wrong. */
export function optionsOf(
  reading: Reading,
  step: StepEntry,
  piece: Piece | null,
  kitchen: Kitchen | null,
  names: KitchenNames | null,
): Option[] {
  const before = reading.notes.errors;
  const ways = waysOf(reading, step, names);
  if (!kitchen || reading.notes.errors > before || ways.length === 0) return [];
  const found = ways.map((way) => new Resolver(reading, kitchen, piece, way).found());
  const options = found.flatMap((one) => one.options);
  const refusals = found.flatMap((one) => (one.options.length === 0 ? one.refusals : []));
  for (const { spot, say, hint } of refusals) {
    if (options.length === 0) reading.error('no-place', spot, say, hint);
    else reading.warn('no-place', spot, `${say} The other ways remain.`, hint);
  }
  if (options.length === 0 && refusals.length === 0 && reading.notes.errors === before) {
    const places = [...new Set(ways.map((way) => way.place))];
    const whole = places.length > 1 ? `none of ${places.join(', ')}` : `no ${places[0]}`;
    reading.error(
      'no-place',
      reading.at(step, 'on'),
      `This kitchen has ${whole}, and the step names no other place.`,
      listed(kitchen.appliances.map((one) => one.name)),
    );
  }
  if (options.length > 0 && refusals.length === 0) sayUnused(reading, step, options);
  return options;
}

/** A heat or a pan count that no way of the step has a use for is a slip. */
function sayUnused(reading: Reading, step: StepEntry, options: readonly Option[]): void {
  if (step.heat !== undefined && !options.some((option) => option.flame !== null || option.settings.length > 0)) {
    reading.error(
      'heat',
      reading.keyAt(step, 'heat'),
      'The heat has no use here: no way of the step has a place with such a heat.',
      'on: [ { place: oven } ]',
    );
  }
  if (step.mode !== undefined && !options.some((option) => option.place.kind === 'heated')) {
    reading.error(
      'mode',
      reading.keyAt(step, 'mode'),
      'The mode has no use here: no way of the step is on an appliance with modes.',
    );
  }
}

class Resolver {
  readonly #refusals: Refusal[] = [];

  constructor(
    readonly reading: Reading,
    readonly kitchen: Kitchen,
    readonly piece: Piece | null,
    readonly way: Way,
  ) {}

  found(): Found {
    const meant = meaningOf(this.way.place, this.kitchen);
    const absent = meant.kind === 'absent';
    if (absent || meant.kind === 'unknown' || !this.enoughPans())
      return { options: [], refusals: this.#refusals, absent };
    let options: (Option | undefined)[];
    if (meant.kind === 'none' || meant.kind === 'board') options = [this.unheated(meant.kind)];
    else if (meant.kind === 'burners') options = this.onBurners(meant.burners);
    else options = this.heated(meant.appliances);
    return { options: options.filter((option) => option !== undefined), refusals: this.#refusals, absent };
  }

  refuse(spot: Spot, say: string, hint?: string | null): undefined {
    this.#refusals.push({ spot, say, hint });
  }

  pan(): Pan | null {
    return this.way.pan === null ? null : this.kitchen.pans[this.way.pan]!;
  }

  enoughPans(): boolean {
    const pan = this.pan();
    if (!pan || this.way.pans <= pan.count) return true;
    this.refuse(
      this.way.panSpot,
      `The step fills ${this.way.pans} of ${quote(pan.name)}, but the kitchen has ${pan.count}.`,
    );
    return false;
  }

  option(
    place: Option['place'],
    duration: Option['duration'],
    load: Load | null,
    heat: Pick<Option, 'settings' | 'ideal' | 'flame'>,
  ): Option {
    const { index, pan, pans, hands } = this.way;
    return { entry: index, place, duration, ...heat, pan, pans, load, hands };
  }

  unheated(kind: 'none' | 'board'): Option | undefined {
    const { way } = this;
    const where = kind === 'board' ? 'A board' : 'A step without a place';
    if (kind === 'board' && this.kitchen.boards === 0)
      return this.refuse(way.spot, 'The kitchen has no board.', 'boards: 1');
    if (way.ownHeat) return this.refuse(way.spot, `${where} has no heat.`, 'leave `heat` out');
    if (way.ownMode) return this.refuse(way.modeSpot, `${where} has no modes.`, 'leave `mode` out');
    const { duration, spot } = way.time;
    if (!duration || duration.kind === 'table') {
      return this.refuse(spot, `${where} has no temperature, so that one duration is needed here.`, 'takes: 20 min');
    }
    return this.option({ kind }, duration, null, { settings: [], ideal: null, flame: null });
  }

  onBurners(burners: readonly { appliance: number; burner: number | null }[]): (Option | undefined)[] {
    const { way } = this;
    if (way.ownHeat && way.heat?.kind === 'range') {
      return [this.refuse(way.spot, 'The heat of a burner is a word, not a temperature.', 'heat: low, medium or high')];
    }
    if (way.ownMode) return [this.refuse(way.modeSpot, 'A burner has no modes.', 'leave `mode` out')];
    const { duration } = way.time;
    if (!duration || duration.kind === 'table') {
      const key = way.time.core === null ? 'takes' : 'minutes';
      return [
        this.refuse(
          way.time.core === null ? way.spot : way.time.spot,
          'A burner has no temperature, so that one duration is needed for it.',
          `{ place: ${way.place}, ${key}: 20 min }`,
        ),
      ];
    }
    const load = this.load();
    if (!load) return [];
    const side = showLength(narrowerSide(load.footprint));
    const tops = [...new Set(burners.map((one) => one.appliance))];
    const options = tops.flatMap((appliance) => {
      const { surface } = this.kitchen.appliances[appliance]!;
      if (surface.kind !== 'burners') return [];
      const wanted = burners.filter((one) => one.appliance === appliance).map((one) => one.burner);
      const carrying = carryingBurners(surface, load).filter(
        (burner) => wanted.includes(null) || wanted.includes(burner),
      );
      if (carrying.length < way.pans) return [];
      const flame = way.heat?.kind === 'flame' ? way.heat.flame : null;
      return [
        this.option({ kind: 'burner', appliance, burners: carrying }, duration, load, {
          settings: [],
          ideal: null,
          flame,
        }),
      ];
    });
    if (options.length === 0) {
      this.refuse(
        way.panSpot,
        way.pans > 1
          ? `No cooktop has ${way.pans} burners that carry ${this.called()}.`
          : `No burner meant here carries ${this.called()}, whose narrower side is ${side}.`,
      );
    }
    return options;
  }

  heated(appliances: readonly number[]): (Option | undefined)[] {
    const { way } = this;
    if (way.ownHeat && way.heat?.kind === 'flame') {
      return [
        this.refuse(
          way.spot,
          `${quote(way.heat.flame)} is the flame of a burner; here the heat is a temperature.`,
          'heat: 165C',
        ),
      ];
    }
    const having = appliances.filter((appliance) => this.modeOf(appliance) !== undefined);
    if (having.length === 0) {
      const modes = [
        ...new Set(
          appliances.flatMap((appliance) => this.kitchen.appliances[appliance]!.modes.map((mode) => mode.name)),
        ),
      ];
      return [
        this.refuse(
          way.modeSpot,
          `${quote(way.mode!)} is no mode of ${way.place}.`,
          nearest(way.mode!, modes) ?? listed(modes),
        ),
      ];
    }
    const load = this.load();
    return load ? having.map((appliance) => this.inMode(appliance, this.modeOf(appliance)!, load)) : [];
  }

  /** The named mode; else the one named like the work, else the first. */
  modeOf(appliance: number): number | undefined {
    const { modes } = this.kitchen.appliances[appliance]!;
    const find = (name: string | undefined) => modes.findIndex((mode) => mode.name === name);
    if (this.way.mode === undefined) return Math.max(0, find(this.way.work));
    const named = find(this.way.mode);
    return named < 0 ? undefined : named;
  }

  inMode(appliance: number, mode: number, load: Load): Option | undefined {
    const { way } = this;
    const where = this.kitchen.appliances[appliance]!;
    const how = where.modes[mode]!;
    const { duration, core } = way.time;
    if (!this.standsIn(where, how, load)) return undefined;
    const table = duration?.kind === 'table' ? duration : null;
    const who = `${quote(where.name)} in mode ${quote(how.name)}`;
    const heat = settingsOf(who, how, where.dial, way.heat, table);
    if ('say' in heat) return this.refuse(way.spot, heat.say, heat.hint);
    if (!duration || (core !== null && duration.kind !== 'table')) {
      const [low, high] = [heat.settings[0]!, heat.settings.at(-1)!].map((celsius) => `${Math.round(celsius)}C`);
      const needed = low === high ? `{ "${low}": 60 min }` : `{ "${low}": 80 min, "${high}": 60 min }`;
      return this.refuse(
        way.time.spot,
        `\`until\` needs \`minutes\` for the temperatures from ${low} to ${high} of ${who}.`,
        `minutes: ${needed}`,
      );
    }
    return this.option({ kind: 'heated', appliance, mode }, duration, load, { ...heat, flame: null });
  }

  standsIn(where: Appliance, how: Mode, load: Load): boolean {
    const who = `${quote(where.name)} in mode ${quote(how.name)}`;
    if (!footprintFits(where, how, load.footprint)) {
      this.refuse(
        this.way.panSpot,
        `${this.called(true)} (${showFootprint(load.footprint)}) fits nowhere in ${who}${roomOf(where)}.`,
      );
      return false;
    }
    if (!heightFits(where, how, load)) {
      const limit = showLength(tallestLoad(where, how));
      this.refuse(
        this.way.panSpot,
        `${this.called(true)} is ${showLength(load.height)} high; ${who} takes at most ${limit}.`,
      );
      return false;
    }
    return true;
  }

  called(first = false): string {
    const pan = this.pan();
    if (pan) return `${first ? 'The' : 'the'} pan ${quote(pan.name)}`;
    return `${first ? 'The' : 'the'} piece`;
  }

  load(): Load | undefined {
    const pan = this.pan();
    const height = this.piece?.thickness ?? 0;
    if (pan) return { footprint: pan.footprint, height: Math.max(pan.height, height) };
    const footprint = this.piece && pieceFootprint(this.piece);
    if (footprint) return { footprint, height };
    const say = this.piece
      ? 'No pan is named, and the piece does not say its size.'
      : 'What stands here? The step names no pan, and the dish has no `piece`.';
    this.reading.error(
      'no-load',
      this.way.spot,
      say,
      this.piece ? 'piece: { length: 34 cm, thickness: 10 cm, ... }' : 'pan: half sheet',
    );
    return undefined;
  }
}

const showFootprint = (footprint: Footprint): string =>
  footprint.kind === 'round' ? `${showLength(footprint.diameter)} across` : showSize(footprint.width, footprint.depth);

function roomOf({ surface }: Appliance): string {
  return surface.kind === 'racks' ? `: a rack is ${showSize(surface.width, surface.depth)}` : '';
}
