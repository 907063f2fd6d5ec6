/** What a piece has around it in a step of a meal, and while it waits. °C, minutes. */
import { type Flame, HEAT_WORKS, type Kitchen, type OptionAsRead, type Work } from '../problem/problem.js';
import type { Setting } from './setting.js';

/** °C in the cold: FDA Food Code 3-501.16 holds cold food at 5 °C (41 °F) or below, and a refrigerator is set a little lower. */
export const COLD = 4;

/** °C of a pan over a burner's flame, with a piece in it (common practice, no source). */
const PAN_OVER: Readonly<Record<Flame, number>> = { low: 140, medium: 180, high: 230 };

/** On a burner only these have the piece on the floor of the pan; in the others there is water, steam or a lid about it. */
const IN_PAN: ReadonlySet<Work> = new Set<Work>(['sear', 'grill', 'fry']);

/** Under a lid or in water nothing is known, whatever the appliance. */
const WET: ReadonlySet<Work> = new Set<Work>(['braise', 'boil', 'simmer', 'steam']);

const FAN = /\b(?:fan|convection|forced air)\b/i;
const BROIL = /\b(?:broil|broiler|overhead)\b/i;

/**
 * What is around a piece at a step, done one way, at the temperature that is set (null on burners and without a place); `cooked`: it
 * has been on the heat before. Null where the heat model knows nothing of it: in water, in steam, in a closed pot. Frying is in a
 * pan with a little fat.
 */
export function aroundStep(
  kitchen: Kitchen,
  work: Work,
  option: Pick<OptionAsRead, 'place' | 'pan' | 'flame' | 'core'>,
  celsius: number | null,
  cooked: boolean,
): Setting | null {
  const { place, pan, flame, core } = option;
  if (place.kind === 'none' || place.kind === 'board') {
    if (work === 'chill') return { kind: 'room', celsius: COLD, covered: true };
    // Food at rest after the heat is covered loosely, as cooks do (common practice, no source).
    if (!HEAT_WORKS.has(work)) return { kind: 'room', celsius: kitchen.room, covered: cooked && work === 'rest' };
    return null;
  }
  if (WET.has(work)) return null;
  // How long each side has is not known before it is known how long it takes.
  const turns = work === 'grill' || core !== null ? 'often' : 'sides';
  if (place.kind === 'burner') {
    return IN_PAN.has(work) ? { kind: 'sear', celsius: PAN_OVER[flame ?? 'medium'], on: 'pan', turns } : null;
  }
  if (celsius === null) return null;
  const { surface, modes } = kitchen.appliances[place.appliance]!;
  const mode = modes[place.mode]!;
  const grate = surface.kind === 'grate';
  if (mode.lid === 'open' || BROIL.test(mode.name))
    return { kind: 'sear', celsius, on: pan === null ? 'grate' : 'pan', turns };
  return {
    kind: 'air',
    celsius,
    moving: FAN.test(mode.name) ? 'fan' : 'still',
    on: pan !== null ? 'pan' : grate ? 'grate' : 'rack',
  };
}

/** A dish that is held warm in an appliance. */
export const aroundHold = (celsius: number): Setting => ({ kind: 'air', celsius, moving: 'still', on: 'pan' });

/** Until the next step it stays in the cold or under its foil where it was there, and else lies in the room. */
export const aroundWait = ({ room }: Kitchen, after: Setting): Setting =>
  after.kind === 'room' ? after : { kind: 'room', celsius: room, covered: false };
