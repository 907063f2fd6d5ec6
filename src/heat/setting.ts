/**
 * What is around a piece, as a cook says it, made into what the solver takes: convection, radiation, vapour and contact on every side.
 * °C, W/m²K, Pa, metres. What no source gives is marked as our estimate; the vapour in an oven and the drying of a
 * roasting surface are fitted (calibration.ts).
 */
import type { Calibration } from './calibration.js';
import type { Surroundings } from './exchange.js';
import { givesJuice, type Joint } from './joint.js';
import { type Dry, steamIn } from './steam.js';
import type { Around } from './stretch.js';
import { vapourPressure } from './vapour.js';

export type Setting =
  /**
   * In the closed heat of an oven, or of a grill whose fire is not under the food. In a `pan` the underside, of a round piece a part
   * of it, takes its heat through the metal; `rack` and `grate` leave it open. `radiant`: emissivity of the food as its
   * surroundings see it, 0 to 1; absent: 0.85. `covered`: wrapped in foil, from which nothing evaporates. 50 to 350 °C.
   */
  | {
      readonly kind: 'air';
      readonly celsius: number;
      readonly moving: 'still' | 'fan';
      readonly on: 'rack' | 'pan' | 'grate';
      readonly radiant?: number;
      readonly covered?: boolean;
    }
  /**
   * Over an open fire whose grate, or in a skillet whose floor has this temperature, 100 to 400 °C: half the time on one face
   * and half on the other (`sides`), or turned all the time (`often`). A round piece is always rolled.
   */
  | {
      readonly kind: 'sear';
      readonly celsius: number;
      readonly on: 'grate' | 'pan';
      readonly turns: 'sides' | 'often';
    }
  /** In the still air of a room or a refrigerator: tempering, carried, waiting, at rest; under foil or not. */
  | { readonly kind: 'room'; readonly celsius: number; readonly covered: boolean };

/** A part of the time in a setting, in which nothing changes. */
export interface Part {
  readonly around: Around;
  readonly share: number;
}

/**
 * Emissivity of meat and of most moist food: 0.74 to 0.78 for beef (transfer coefficients, quoted from food-engineering tables) up to 0.95
 * for water (from memory).
 */
const EMISSIVITY = 0.85;
/**
 * Convection in a domestic fan oven: 33.4 W/m²K in all at 175 °C (model input of Feyissa, Gernaey and Adler-Nissen, Meat Science 93
 * (2013) 810) less about 12 of radiation; the engineering range is 20 to 40 in all.
 */
const FAN = 21;
/**
 * Convection in a domestic still oven round something of TURKEY m: 19.25 W/m²K in all were measured on turkeys at 163 °C (Chang, Carpenter and
 * Toledo, J. Food Science 63 (1998) 257; attribution from memory), less about 12 of radiation; the engineering range is 5 to 15. Free
 * convection goes with thickness^(−1/4) (laminar, round horizontal cylinders; Holman, Heat Transfer, from memory).
 */
const STILL = 7.3;
const TURKEY = 0.22;
/**
 * kg/m² of water that a surface lacks where it lets the next through half as easily: a film of one or two tenths of a millimetre, the less where
 * juice comes from inside as it is heated. Our estimates.
 */
const DRIES = { meat: 0.1, other: 0.2 };
/** °C of an oven to which the fitted vapour belongs. */
const USUAL = 165;
/** Contact with a hot plate: 200 to 1200 W/m²K were measured under a patty that was pressed (Housova and Topinka, J. Food Engineering 4 (1985) 169, from memory). */
const CONTACT = 300;
/** Share of a face that touches: bars of a grate; the floor of a skillet. Our estimates. */
const TOUCHES = { grate: 0.3, pan: 0.9 };
/** Share of the outside of a round piece that is turned to the fire or the pan. Our estimate. */
const TURNED_DOWN = 0.25;
/** Emissivity of a used pan's underside (oxidised metal 0.3 to 0.8, from memory). */
const PAN = 0.5;
/** Radiation's coefficient per emissivity between an oven at 170 °C and a pan at 120 °C, W/m²K. */
const RADIATION = 16.5;
/** Emissivity of aluminium foil: 0.04 bright, more when handled (from memory). */
const FOIL = 0.1;
/** Free convection in a room from a piece of 10 to 20 cm some 40 K warmer: 4 to 6 W/m²K (correlations for cylinders, from memory). */
const ROOM = 5;
/** Under a loose tent of foil: two films of still air one after the other, and hardly any radiation. Our estimate. */
const TENT = { coefficient: 2.5, emissivity: FOIL, wetness: 0.3 };
/** Conductivity of a dry layer of crumbs, dough or salt, W/mK: 0.1 to 0.4 (from memory). */
const CRUST = 0.2;

/** What is around a joint, part by part. `transfer`: all coefficients times this, 0.5 to 1.17. */
export function partsOf(setting: Setting, joint: Joint, calibration: Calibration, transfer = 1): Part[] {
  const layer = joint.crust / CRUST;
  const made = (surroundings: Surroundings): Surroundings => through(layer, scaled(transfer, surroundings));
  const round = joint.body.shape === 'cylinder' || joint.body.shape === 'sphere';
  switch (setting.kind) {
    case 'air': {
      const open = inAir(setting, calibration, joint);
      if (setting.on !== 'pan') return [{ around: evenly(made(open)), share: 1 }];
      const rolled = made(onMetal(open, TURNED_DOWN));
      if (round) return [{ around: { bottom: made(open), top: made(open), side: rolled }, share: 1 }];
      return [{ around: { bottom: made(onMetal(open, 1)), top: made(open), side: made(open) }, share: 1 }];
    }
    case 'sear':
      return searing(setting, driesOf(joint), round, made);
    case 'room':
      return [{ around: evenly(made(inRoom(setting.celsius, setting.covered))), share: 1 }];
  }
}

const evenly = (one: Surroundings): Around => ({ bottom: one, top: one, side: one });

type Of<Kind> = Extract<Setting, { kind: Kind }>;

function inAir(
  { celsius, moving, radiant = EMISSIVITY, covered = false }: Of<'air'>,
  { vapour }: Calibration,
  joint: Joint,
): Surroundings {
  // Foil stands off the food, and is as large as several pieces.
  if (covered)
    return { air: celsius, coefficient: moving === 'fan' ? FAN : STILL, walls: { celsius, emissivity: FOIL } };
  const coefficient = moving === 'fan' ? FAN : STILL * (TURKEY / joint.body.thickness) ** 0.25;
  return {
    air: celsius,
    coefficient,
    walls: { celsius, emissivity: radiant },
    moisture: { vapour: steamAt(celsius, vapour), wetness: 1, dries: driesOf(joint) },
  };
}

const driesOf = (joint: Joint): number => (givesJuice(joint) ? DRIES.meat : DRIES.other);

const still: Dry = (celsius) => ({ air: celsius, coefficient: STILL, walls: { celsius, emissivity: EMISSIVITY } });

/** The last asked for: a table of minutes asks for the same few many times. */
const steams = new Map<string, number>();
const MOST = 500;

/** Vapour in an oven, still or not: a fan dries a roast faster, and changes the air as much faster. */
function steamAt(celsius: number, vapour: number): number {
  const key = `${celsius} ${vapour}`;
  let steam = steams.get(key);
  if (steam === undefined) {
    if (steams.size >= MOST) steams.clear();
    steam = steamIn(celsius, still, USUAL, vapour);
    steams.set(key, steam);
  }
  return steam;
}

/** A share of the surface on a pan's floor, which the oven heats from below. */
function onMetal(open: Surroundings, share: number): Surroundings {
  const below = open.coefficient + PAN * RADIATION;
  return { ...open, plate: { celsius: open.air, coefficient: 1 / (1 / below + 1 / CONTACT), share } };
}

function searing(
  { celsius, on, turns }: Of<'sear'>,
  dries: number,
  round: boolean,
  made: (surroundings: Surroundings) => Surroundings,
): Part[] {
  // Over a fire the flue gas goes round the piece; the other faces look at the room.
  const away: Surroundings = {
    air: on === 'grate' ? 80 : 40,
    coefficient: 8,
    walls: { celsius: 25, emissivity: EMISSIVITY },
    moisture: { vapour: 2000, wetness: 1, dries },
  };
  const down = (share: number): Surroundings => {
    const plate = { celsius, coefficient: CONTACT, share: share * TOUCHES[on] };
    if (on === 'pan') return { ...away, plate };
    // Between the bars it sees the fire.
    const air = share * celsius + (1 - share) * away.air;
    return { ...away, air, walls: { celsius, emissivity: EMISSIVITY * share }, plate };
  };
  const [off, below] = [made(away), made(down(1))];
  if (round) {
    const rolled = made(down(TURNED_DOWN));
    return [{ around: { bottom: off, top: off, side: rolled }, share: 1 }];
  }
  if (turns === 'often') {
    const half = made(down(0.5));
    return [{ around: { bottom: half, top: half, side: off }, share: 1 }];
  }
  return [
    { around: { bottom: below, top: off, side: off }, share: 0.5 },
    { around: { bottom: off, top: below, side: off }, share: 0.5 },
  ];
}

/** At rest the juices come out and wet what was dry. */
function inRoom(celsius: number, covered: boolean): Surroundings {
  const { coefficient, emissivity, wetness } = covered
    ? TENT
    : { coefficient: ROOM, emissivity: EMISSIVITY, wetness: 1 };
  return {
    air: celsius,
    coefficient,
    walls: { celsius, emissivity },
    moisture: { vapour: vapourPressure(celsius, 0.5), wetness, dries: Number.POSITIVE_INFINITY },
  };
}

/** All of it more or less, as ovens and surfaces differ. */
function scaled(transfer: number, surroundings: Surroundings): Surroundings {
  const { coefficient, walls, plate } = surroundings;
  return {
    ...surroundings,
    coefficient: transfer * coefficient,
    ...(walls && { walls: { ...walls, emissivity: Math.min(transfer * walls.emissivity, 1) } }),
    ...(plate && { plate: { ...plate, coefficient: transfer * plate.coefficient } }),
  };
}

/** Behind a dry layer of so much resistance, m²K/W. */
function through(layer: number, surroundings: Surroundings): Surroundings {
  if (layer === 0) return surroundings;
  const { coefficient, walls, plate } = surroundings;
  const open = 1 / (1 + layer * (coefficient + (walls?.emissivity ?? 0) * RADIATION));
  return {
    ...surroundings,
    coefficient: open * coefficient,
    ...(walls && { walls: { ...walls, emissivity: open * walls.emissivity } }),
    ...(plate && { plate: { ...plate, coefficient: plate.coefficient / (1 + layer * plate.coefficient) } }),
  };
}
