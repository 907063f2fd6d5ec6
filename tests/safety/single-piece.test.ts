/** Cautions of one piece. */
import { describe, expect, it } from 'vitest';
import type { Piece } from '../../src/problem/problem.js';
import { type SinglePiece, standingOf } from '../../src/safety/single-piece.js';

const piece = (food: string): Piece => ({
  food,
  shape: 'cylinder',
  thickness: 0.1,
  width: null,
  length: 0.3,
  weight: null,
  from: 4,
  bone: false,
  crust: 0,
});

const single = (food: string, goal: number, more: Partial<SinglePiece> = {}): SinglePiece => ({
  piece: piece(food),
  goal,
  curve: null,
  rest: 20,
  grill: false,
  sear: null,
  accept: [],
  degree: 'C',
  ...more,
});

const rules = (one: SinglePiece) => standingOf(one).cautions.map(({ rule }) => rule);
/** At one temperature for some minutes, after an hour of coming up. */
const held = (celsius: number, minutes: number) => ({
  minutes: [0, 60, 60 + minutes],
  celsius: [4, celsius, celsius],
  surface: [4, 90, celsius],
});

describe('one piece', () => {
  it('always has the thermometer, with the published figure and its source', () => {
    const { cautions } = standingOf(single('pork', 65));
    expect(cautions).toHaveLength(1);
    expect(cautions[0]).toMatchObject({ rule: 'thermometer', dish: null });
    expect(cautions[0]!.say).toMatch(/Published for pork: 63 °C \(145 °F\), then 3 min of rest\.$/);
    expect(cautions[0]!.source).toMatch(/^USDA FSIS, Safe Minimum/);
  });

  it('below its figure has that said once, and still the thermometer', () => {
    const { cautions, refusal } = standingOf(single('pork', 60));
    expect(cautions.map(({ rule }) => rule)).toEqual(['core-low', 'thermometer']);
    expect(cautions[0]!.say).toMatch(/^Set to 60 °C; published for pork: 63 °C/);
    expect(cautions[1]!.say).not.toContain('145');
    expect(refusal).toBeNull();
  });

  it('tells what was asked in the degrees in which it was asked', () => {
    const { cautions } = standingOf(single('pork', 60, { degree: 'F', curve: held(60, 5) }));
    expect(cautions[0]!.say).toMatch(
      /^Set to 140 °F; .*Predicted: 140 °F at most, and \d+ % of the published 12 min at 140 °F/,
    );
  });

  it.each([
    ['chicken', 70],
    ['ground beef', 65],
    ['leftover turkey', 60],
    ['venison', 60],
  ])('of %s below its figure is refused', (food, goal) => {
    const { refusal, cautions } = standingOf(single(food, goal));
    expect(refusal!.say).toContain('published for');
    expect(refusal!.hint).toMatch(/a core of \d+C or \d+F; `--accept core-unsafe`/);
    expect(cautions[0]!.rule).toBe('core-unsafe');
  });

  it('passes where that is accepted, and is still told', () => {
    const accepted = single('chicken', 60, { accept: ['core-unsafe'] });
    expect(standingOf(accepted).refusal).toBeNull();
    expect(rules(accepted)[0]).toBe('core-unsafe');
  });

  it('passes where its curve holds the published times, with the caution that this is a forecast', () => {
    const kept = single('turkey', 63, { curve: held(63, 60) });
    expect(standingOf(kept).refusal).toBeNull();
    expect(rules(kept)[0]).toBe('core-predicted');
    expect(standingOf(single('turkey', 63, { curve: held(63, 1) })).refusal).not.toBeNull();
  });

  it('of leftovers has no times that would do instead', () => {
    const { judgement, refusal } = standingOf(single('leftover turkey', 63, { curve: held(63, 60) }));
    expect(judgement.predicted?.held).toBeNull();
    expect(refusal).not.toBeNull();
  });

  it('has a rest that belongs to its figure', () => {
    expect(rules(single('pork', 65, { rest: 1 }))).toContain('rest-short');
    expect(rules(single('pork', 65, { rest: 3 }))).not.toContain('rest-short');
  });

  it('that no figure goes with says so, unless it needs none or has the highest', () => {
    expect(rules(single('carrots', 60))[0]).toBe('core-unknown');
    expect(rules(single('carrots', 80))).toEqual(['thermometer']);
  });

  it('that comes up too slowly says so', () => {
    const slow = { minutes: [0, 600], celsius: [4, 65], surface: [4, 65] };
    expect(rules(single('pork', 65, { curve: slow }))).toContain('warm-too-long');
    expect(rules(single('pork', 65, { curve: held(65, 20) }))).not.toContain('warm-too-long');
  });

  it('on a grill, or seared, has fire and iron to mind, the worst first', () => {
    expect(rules(single('pork', 60, { grill: true, sear: 'grate' }))).toEqual([
      'grill-outdoors',
      'core-low',
      'thermometer',
      'hot-iron',
    ]);
    expect(rules(single('pork', 65, { sear: 'pan' }))).toEqual(['thermometer', 'hot-fat', 'hot-iron']);
  });
});
