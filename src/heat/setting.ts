/** What is around a piece, as a cook says it, and as the solver takes it. °C, minutes, W/m²K. */
import type { Surroundings } from './exchange.js';
import type { Joint } from './joint.js';
import type { Around } from './stretch.js';
import { vapourPressure } from './vapour.js';

export type Setting =
  /** An oven, or a grill with its lid closed and no fire under the food. `radiant`: emissivity times view of what glows, absent 0.9. */
  | {
      readonly kind: 'air';
      readonly celsius: number;
      readonly moving: 'still' | 'fan';
      readonly on: 'rack' | 'pan' | 'grate';
      readonly radiant?: number;
    }
  /** Over an open fire or in a skillet of this temperature: one face, then the other, or turned all the time. */
  | {
      readonly kind: 'sear';
      readonly celsius: number;
      readonly on: 'grate' | 'pan';
      readonly turns: 'sides' | 'often';
    }
  /** In the air of a room: tempering, carried, waiting, at rest; covered with foil or not. */
  | { readonly kind: 'room'; readonly celsius: number; readonly covered: boolean };

/** A part of a leg in which nothing changes. */
export interface Part {
  readonly around: Around;
  /** Of the leg's minutes. */
  readonly share: number;
}

const STILL = 8;
const FAN = 25;

/** What is around a joint in a setting, part by part. `transfer`: all coefficients times this. */
export function partsOf(setting: Setting, { body }: Joint, transfer = 1): Part[] {
  switch (setting.kind) {
    case 'air': {
      const open = inAir(setting.celsius, setting.moving, setting.radiant ?? 0.9, transfer);
      const bottom = setting.on === 'pan' ? shielded(open) : open;
      const round = body.shape === 'cylinder' || body.shape === 'sphere';
      return [{ around: round ? evenly(open) : { bottom, top: open, side: open }, share: 1 }];
    }
    case 'sear': {
      const hot = onPlate(setting.celsius, setting.on, transfer);
      const off = inRoom(setting.on === 'grate' ? 60 : 30, false, transfer);
      const both = { bottom: hot(0.5), top: hot(0.5), side: off };
      if (body.shape === 'cylinder') return [{ around: { bottom: off, top: off, side: hot(0.25) }, share: 1 }];
      if (body.shape === 'sphere') return [{ around: evenly(hot(0.25)), share: 1 }];
      if (setting.turns === 'often') return [{ around: both, share: 1 }];
      return [
        { around: { bottom: hot(1), top: off, side: off }, share: 0.5 },
        { around: { bottom: off, top: hot(1), side: off }, share: 0.5 },
      ];
    }
    case 'room':
      return [{ around: evenly(inRoom(setting.celsius, setting.covered, transfer)), share: 1 }];
  }
}

const evenly = (one: Surroundings): Around => ({ bottom: one, top: one, side: one });

function inAir(celsius: number, moving: 'still' | 'fan', emissivity: number, transfer: number): Surroundings {
  return {
    air: celsius,
    coefficient: transfer * (moving === 'fan' ? FAN : STILL),
    walls: { celsius, emissivity: Math.min(emissivity * transfer, 1) },
    moisture: { vapour: 5000, wetness: 0.8, dries: 1 },
  };
}

function shielded(open: Surroundings): Surroundings {
  return { air: open.air, coefficient: open.coefficient };
}

function onPlate(celsius: number, on: 'grate' | 'pan', transfer: number): (share: number) => Surroundings {
  return (share) => ({
    air: on === 'grate' ? celsius / 2 : 40,
    coefficient: transfer * 10,
    moisture: { vapour: 3000, wetness: 0.8, dries: 1 },
    plate: { celsius, coefficient: transfer * 250, share: share * (on === 'grate' ? 0.3 : 0.8) },
  });
}

function inRoom(celsius: number, covered: boolean, transfer: number): Surroundings {
  const vapour = vapourPressure(celsius, covered ? 1 : 0.5);
  return {
    air: celsius,
    coefficient: transfer * (covered ? 2 : 5),
    walls: { celsius, emissivity: Math.min((covered ? 0.3 : 0.9) * transfer, 1) },
    moisture: { vapour, wetness: covered ? 0.1 : 0.8, dries: 1 },
  };
}
