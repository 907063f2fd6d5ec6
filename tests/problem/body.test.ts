import { describe, expect, it } from 'vitest';
import { type Body, bodyOf, type Sizes, surfaceOf, volumeOf } from '../../src/problem/body.js';

const DENSITY = 1050;
const none = { thickness: null, width: null, length: null, weight: null };
const pieceOf = (shape: Body['shape'], sizes: Partial<Sizes>): Sizes => ({ shape, ...none, ...sizes });

function found(shape: Body['shape'], sizes: Partial<Sizes>): Body {
  const parsed = bodyOf(pieceOf(shape, sizes), DENSITY);
  if (!parsed.ok) throw new Error(parsed.say);
  return parsed.value;
}

function refused(shape: Body['shape'], sizes: Partial<Sizes>): { say: string; hint: string } {
  const parsed = bodyOf(pieceOf(shape, sizes), DENSITY);
  if (parsed.ok) throw new Error(`taken: ${JSON.stringify(parsed.value)}`);
  return { say: parsed.say, hint: parsed.hint };
}

describe('volume and surface', () => {
  it.each([
    [
      { shape: 'cylinder', thickness: 0.1, length: 0.3 },
      Math.PI * 0.05 ** 2 * 0.3,
      Math.PI * (0.1 * 0.3 + 0.1 ** 2 / 2),
    ],
    [{ shape: 'sphere', thickness: 0.2 }, (4 / 3) * Math.PI * 0.1 ** 3, 4 * Math.PI * 0.1 ** 2],
    [{ shape: 'brick', thickness: 0.1, width: 0.2, length: 0.3 }, 0.006, 0.22],
    [{ shape: 'slab', thickness: 0.03, width: 0.1, length: 0.2 }, 0.0006, 0.04],
  ] as const)('%j', (body, volume, surface) => {
    expect(volumeOf(body)).toBeCloseTo(volume, 12);
    expect(surfaceOf(body)).toBeCloseTo(surface, 12);
  });

  it('of a slab of unknown width are not known', () => {
    const slab: Body = { shape: 'slab', thickness: 0.03, width: null, length: 0.2 };
    expect(volumeOf(slab)).toBeNull();
    expect(surfaceOf(slab)).toBeNull();
  });
});

describe('a body from what is known', () => {
  it('is taken as it stands when the sizes are said', () => {
    expect(found('cylinder', { thickness: 0.1, length: 0.34 })).toEqual({
      shape: 'cylinder',
      thickness: 0.1,
      length: 0.34,
    });
    expect(found('sphere', { thickness: 0.14 })).toEqual({ shape: 'sphere', thickness: 0.14 });
    expect(found('slab', { thickness: 0.03 })).toEqual({ shape: 'slab', thickness: 0.03, width: null, length: null });
    expect(found('slab', { thickness: 0.03, weight: 0.4 })).toEqual(found('slab', { thickness: 0.03 }));
  });

  it.each([
    ['cylinder', { thickness: 0.1, length: 0.34 }],
    ['sphere', { thickness: 0.14 }],
    ['brick', { thickness: 0.06, width: 0.1, length: 0.2 }],
    ['slab', { thickness: 0.03, width: 0.1, length: 0.2 }],
  ] as const)('gets any one missing size of a %s from the weight', (shape, sizes) => {
    const whole = found(shape, sizes);
    const weight = volumeOf(whole)! * DENSITY;
    for (const missing of Object.keys(sizes)) {
      const body = found(shape, { ...sizes, [missing]: null, weight });
      for (const [side, size] of Object.entries(sizes))
        expect(body[side as keyof Body]).toBeCloseTo(size as number, 12);
    }
    expect(found(shape, { ...sizes, weight })).toEqual(whole);
  });

  it('keeps the sizes when the weight is within 15 % of theirs, and no further', () => {
    const sizes = { thickness: 0.1, length: 0.34 };
    const weight = volumeOf(found('cylinder', sizes))! * DENSITY;
    expect(found('cylinder', { ...sizes, weight: weight * 1.149 })).toEqual(found('cylinder', sizes));
    expect(found('cylinder', { ...sizes, weight: weight * 0.851 })).toEqual(found('cylinder', sizes));
    expect(refused('cylinder', { ...sizes, weight: weight * 1.151 }).say).toContain('2.8 kg');
    expect(refused('cylinder', { ...sizes, weight: weight * 0.849 }).say).toContain('2.8 kg');
  });

  it('takes a width that says the same as the diameter', () => {
    expect(found('cylinder', { thickness: 0.1, width: 0.11, length: 0.3 })).toEqual({
      shape: 'cylinder',
      thickness: 0.1,
      length: 0.3,
    });
  });
});

describe('what a cook is told', () => {
  it('of a contradiction: both weights', () => {
    expect(refused('cylinder', { thickness: 0.13, length: 0.3, weight: 2.6 })).toEqual({
      say: 'A cylinder 13 cm thick and 30 cm long weighs about 4.18 kg, but the piece says 2.6 kg.',
      hint: 'leave out what you are least sure of: it is worked out from the rest',
    });
    expect(refused('brick', { thickness: 0.06, width: 0.1, length: 0.2, weight: 2 }).say).toBe(
      'A brick 6 cm thick, 10 cm wide and 20 cm long weighs about 1.26 kg, but the piece says 2 kg.',
    );
  });

  it('of too little: what is missing', () => {
    expect(refused('cylinder', {})).toEqual({
      say: 'Nothing says how big the piece is: a cylinder needs two of thickness, length and weight.',
      hint: 'give two of thickness, length and weight',
    });
    expect(refused('cylinder', { thickness: 0.1 })).toEqual({
      say: '10 cm thick does not say how big the piece is: a cylinder needs two of thickness, length and weight.',
      hint: 'give its length or weight',
    });
    expect(refused('cylinder', { weight: 2.8 }).hint).toBe('give its thickness or length');
    expect(refused('sphere', {}).hint).toBe('give its thickness or weight');
    expect(refused('brick', {}).hint).toBe('give three of thickness, width, length and weight');
    expect(refused('brick', { weight: 1 }).hint).toBe('give two of thickness, width and length');
    expect(refused('brick', { weight: 1, length: 0.2 }).hint).toBe('give its thickness or width');
    expect(refused('slab', { weight: 1, length: 0.2 }).hint).toBe('give its thickness');
  });

  it('of a size that no food has', () => {
    expect(refused('cylinder', { thickness: 0.03, weight: 10 })).toEqual({
      say: 'A cylinder of 10 kg and 3 cm thick would be 1347.3 cm long.',
      hint: 'look at the sizes and the weight again, or give its length',
    });
    expect(refused('slab', { width: 0.4, length: 0.4, weight: 0.1 }).say).toContain('thick');
  });

  it('of something round that is not round', () => {
    expect(refused('cylinder', { thickness: 0.08, width: 0.14, length: 0.3 })).toEqual({
      say: 'A cylinder cannot be 14 cm wide and 8 cm thick: it is round.',
      hint: 'shape: brick',
    });
    expect(refused('sphere', { thickness: 0.1, length: 0.2 }).hint).toBe('shape: cylinder or brick');
  });
});

it('no density, no body', () => {
  expect(() => bodyOf(pieceOf('sphere', { thickness: 0.1 }), 0)).toThrow(RangeError);
});
