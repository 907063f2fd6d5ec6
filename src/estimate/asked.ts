/** What one piece is asked about. °C, minutes. */
import { CAUTION_RULES, type CautionRule } from '../problem/caution-rules.js';
import { nearest } from '../problem/nearest.js';
import { lengthUnitOf } from '../units/length.js';
import { quote } from '../units/measure.js';
import type { LengthUnit } from '../units/show.js';
import { type Degree, parseTemperature } from '../units/temperature.js';
import { weightUnitOf } from '../units/weight.js';
import { airsAsked, checkHeat, type Goal, goalAsked, restOf, type Sear, searOf } from './heat-asked.js';
import { type PieceAsked, pieceAsked } from './piece-asked.js';
import { type Mistake, WordReader, type Words } from './words.js';

export interface Asked extends PieceAsked {
  /** Rising, no two alike. */
  readonly air: readonly number[];
  readonly inside: 'oven' | 'grill';
  readonly moving: 'still' | 'fan';
  readonly on: 'rack' | 'pan' | 'grate';
  readonly foil: boolean;
  readonly goal: Pick<Goal, 'kind' | 'celsius'>;
  readonly sear: (Sear & { readonly on: 'grate' | 'pan' }) | null;
  /** Null: until the core is at its peak. */
  readonly rest: number | null;
  readonly room: number;
  readonly accept: readonly CautionRule[];
  readonly units: Units;
}

/** In which units it was asked, and is told again. */
export interface Units {
  readonly air: Degree;
  readonly core: Degree;
  readonly length: LengthUnit;
  readonly weight: 'kg' | 'lb';
}

/** °C, as a kitchen without `room:` has. */
const ROOM = 20;

/** All mistakes come in one go. */
export function askedOf(words: Words): Asked | { readonly mistakes: readonly Mistake[] } {
  const reader = new WordReader(words);
  const made = pieceAsked(reader);
  const airs = airsAsked(reader);
  const goal = goalAsked(reader);
  const { grill = false, pan = false, fan = false, foil = false } = words;
  if (grill && fan) reader.add('fan', 'Fans are in ovens, not in grills.', 'leave out --fan or --grill');
  const sear = reader.read('sear', searOf) ?? null;
  const rest = reader.read('rest', restOf) ?? null;
  const room = reader.read('room', parseTemperature);
  const accept = acceptOf(reader);
  if (goal !== null) checkHeat(reader, made?.joint.from ?? null, goal, airs);
  const { mistakes } = reader;
  if (mistakes.length > 0 || made === null || airs === null || goal === null) return { mistakes };
  return {
    ...made,
    air: airs.celsius,
    inside: grill ? 'grill' : 'oven',
    moving: fan ? 'fan' : 'still',
    on: pan ? 'pan' : grill ? 'grate' : 'rack',
    foil,
    goal: { kind: goal.kind, celsius: goal.celsius },
    sear: sear && { ...sear, on: grill && !pan ? 'grate' : 'pan' },
    rest,
    room: room?.celsius ?? ROOM,
    accept,
    units: { air: airs.degree, core: goal.degree, ...sizeUnits(words) },
  };
}

function acceptOf(reader: WordReader): CautionRule[] {
  return (reader.words.accept ?? []).flatMap((word) => {
    const known = CAUTION_RULES.find((rule) => rule === word);
    if (known === undefined)
      reader.add('accept', `There is no caution ${quote(word)}.`, nearest(word, CAUTION_RULES) ?? 'core-unsafe');
    return known ?? [];
  });
}

/** As the sizes are written, else as the weight is. */
function sizeUnits({ thickness, length, width, weight }: Words): Pick<Units, 'length' | 'weight'> {
  const size = thickness ?? length ?? width;
  const measured = size === undefined ? null : lengthUnitOf(size);
  const weighed = weight === undefined ? null : weightUnitOf(weight);
  return {
    length: measured ?? (weighed === 'lb' ? 'in' : 'cm'),
    weight: weighed ?? (measured === 'in' ? 'lb' : 'kg'),
  };
}
