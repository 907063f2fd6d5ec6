/** What a piece has around it in a step. */
import { describe, expect, it } from 'vitest';
import { aroundHold, aroundStep, aroundWait, COLD } from '../../src/heat/around.js';
import type { Kitchen, OptionPlace, Work } from '../../src/problem/problem.js';
import { jointMeal } from '../support/joint-meal.js';
import { oven, problemOf } from '../support/problem-builder.js';
import { readMeal } from '../support/read-meal.js';

const PIECE = 'piece: { food: pork, thickness: 10 cm, weight: 2 kg }';
const { kitchen } = readMeal(jointMeal(PIECE, ['- { step: wait, work: rest, takes: 5 min }']));
const FIRE = kitchen.appliances.findIndex(({ kind }) => kind === 'grill');
const WALL = kitchen.appliances.findIndex(({ kind }) => kind === 'oven');
const RANGE = kitchen.appliances.findIndex(({ kind }) => kind === 'cooktop');

interface At {
  readonly pan?: number;
  readonly flame?: 'low' | 'medium' | 'high';
  readonly celsius?: number;
  readonly cooked?: boolean;
  readonly core?: number;
  readonly kitchen?: Kitchen;
}

const around = (work: Work, place: OptionPlace, { pan, flame, celsius, cooked, core, kitchen: other }: At = {}) =>
  aroundStep(
    other ?? kitchen,
    work,
    { place, pan: pan ?? null, flame: flame ?? null, core: core ?? null },
    celsius ?? null,
    cooked ?? false,
  );

const heated = (appliance: number, mode: number): OptionPlace => ({ kind: 'heated', appliance, mode });
const burner: OptionPlace = { kind: 'burner', appliance: RANGE, burners: [0] };

describe('around a piece', () => {
  it('is the air of an oven or a closed grill, still or by its fan, on what it lies on', () => {
    const air = { kind: 'air', celsius: 160, moving: 'still' };
    expect(around('roast', heated(WALL, 0), { celsius: 160 })).toEqual({ ...air, on: 'rack' });
    expect(around('roast', heated(WALL, 0), { celsius: 160, pan: 0 })).toEqual({ ...air, on: 'pan' });
    expect(around('roast', heated(WALL, 1), { celsius: 160, pan: 0 })).toEqual({ ...air, moving: 'fan', on: 'pan' });
    expect(around('roast', heated(FIRE, 1), { celsius: 160 })).toEqual({ ...air, on: 'grate' });
  });

  it('is a hot grate under an open lid, and below a broiler as if it were one', () => {
    expect(around('sear', heated(FIRE, 0), { celsius: 280 })).toEqual({
      kind: 'sear',
      celsius: 280,
      on: 'grate',
      turns: 'sides',
    });
    expect(around('grill', heated(FIRE, 0), { celsius: 280, pan: 0 })).toEqual({
      kind: 'sear',
      celsius: 280,
      on: 'pan',
      turns: 'often',
    });
    const broiler = oven('broiler');
    const modes = [{ name: 'broil', lid: null, heat: { low: 200, high: 260 }, lit: [], height: null }];
    const other = problemOf({ serve: 100, kitchen: { appliances: [{ ...broiler, modes }] }, dishes: [] }).kitchen;
    expect(around('grill', heated(0, 0), { celsius: 250, kitchen: other })).toMatchObject({
      kind: 'sear',
      celsius: 250,
    });
  });

  it('is a pan on a burner, hotter with its flame', () => {
    const pans = (['low', 'medium', 'high'] as const).map((flame) => around('fry', burner, { flame, pan: 0 }));
    expect(pans).toMatchObject([{ kind: 'sear', on: 'pan' }, {}, {}]);
    const celsius = pans.map((pan) => pan!.celsius);
    expect(celsius).toEqual([...celsius].sort((a, b) => a - b));
    expect(new Set(celsius).size).toBe(3);
  });

  it('is turned all the time where it is done when the core is there', () => {
    expect(around('sear', burner, { flame: 'high', pan: 0 })).toMatchObject({ turns: 'sides' });
    expect(around('sear', burner, { flame: 'high', pan: 0, core: 52 })).toMatchObject({ turns: 'often' });
  });

  it('is not known in water, in steam or in a closed pot', () => {
    for (const work of ['boil', 'simmer', 'steam', 'braise'] as const) {
      expect(around(work, burner, { pan: 0, flame: 'low' })).toBeNull();
      expect(around(work, heated(WALL, 0), { celsius: 150, pan: 0 })).toBeNull();
    }
    expect(around('warm', burner, { pan: 0, flame: 'low' })).toBeNull();
    expect(around('roast', { kind: 'none' })).toBeNull();
  });

  it('is the cold, the room, and foil at rest after the heat', () => {
    const { room } = kitchen;
    expect(around('chill', { kind: 'none' })).toEqual({ kind: 'room', celsius: COLD, covered: true });
    expect(around('prep', { kind: 'board' })).toEqual({ kind: 'room', celsius: room, covered: false });
    expect(around('rest', { kind: 'none' })).toEqual({ kind: 'room', celsius: room, covered: false });
    expect(around('rest', { kind: 'none' }, { cooked: true })).toEqual({ kind: 'room', celsius: room, covered: true });
    expect(around('rest', heated(WALL, 0), { celsius: 75, pan: 0 })).toMatchObject({ kind: 'air', celsius: 75 });
  });

  it('stays as it was while it waits, but for the heat', () => {
    const cold = { kind: 'room', celsius: COLD, covered: true } as const;
    expect(aroundWait(kitchen, cold)).toEqual(cold);
    expect(aroundWait(kitchen, aroundHold(80))).toEqual({ kind: 'room', celsius: kitchen.room, covered: false });
  });
});
