import { describe, expect, it } from 'vitest';
import type { CallRow, PlanDocument } from '../../../src/plan/document.js';
import { oven, pan, problemOf, rectangle } from '../../support/problem-builder.js';
import { faultsOf, isoAt, planOf } from '../plan-builder.js';

const problem = problemOf({
  serve: 100,
  kitchen: { appliances: [oven()], pans: [pan('dish', rectangle(0.2, 0.3))] },
  dishes: [
    { dish: 'Pie', steps: [{ step: 'bake', work: 'bake', place: 'oven', pan: 'dish', takes: 30, heat: [150, 200] }] },
  ],
});
const plan = planOf(problem, {
  steps: {
    'Pie/bake': {
      at: [60, 90],
      in: ['oven', 'roast'],
      place: 'rack 1',
      level: 1,
      spot: [0, 0],
      pan: 'dish',
      celsius: 180,
    },
  },
  runs: [{ in: ['oven', 'roast'], celsius: 180, at: [60, 92], changeover: 16 }],
});
const saying = (change: Partial<PlanDocument>): string[] => faultsOf(problem, { ...plan, ...change });

describe('what a plan says about itself', () => {
  it('is right in a right plan', () => {
    expect(saying({})).toEqual([]);
    // 10 minutes of waiting at 1, two idle minutes at 0.01, a day from the changeover at 44 to 100 at 0.02.
    expect(plan.points.total).toBe(11.14);
  });

  it('is about this file, zone and serving time', () => {
    expect(saying({ problem: { ...plan.problem, digest: 'f'.repeat(64) } })).toEqual(['0 problem']);
    expect(saying({ zone: 'Europe/Madrid' })).toEqual(['0 problem']);
    expect(saying({ serve: isoAt(problem, 101) })).toEqual(['0 problem']);
  });

  it('gives its points to a hundredth', () => {
    const { parts, total, bound } = plan.points;
    const points = (change: object): string[] => saying({ points: { ...plan.points, ...change } });
    expect(points({ total: total + 0.01 })).toEqual([]);
    expect(points({ total: total + 0.02 })).toEqual(['0 points']);
    expect(points({ total: total - 0.02 })).toEqual(['0 points']);
    expect(points({ parts: { ...parts, wait: parts.wait + 0.01 } })).toEqual([]);
    expect(points({ parts: { ...parts, wait: parts.wait + 0.02 } })).toEqual(['0 points']);
    expect(points({ parts: { ...parts, swap: Number.NaN } })).toEqual(['0 points']);
    expect(points({ bound: total + 0.01 })).toEqual([]);
    expect(points({ bound: total + 0.02 })).toEqual(['0 points']);
    expect(bound).toBe(0);
  });

  it('calls a plan best only where its bound proves it, and late where something is', () => {
    expect(saying({ status: 'best' })).toEqual(['0 status']);
    expect(saying({ status: 'best', points: { ...plan.points, bound: plan.points.total } })).toEqual([]);
    expect(saying({ status: 'late' })).toEqual(['0 status']);
    expect(saying({ status: 'none' })).toEqual(['0 status']);
    const tardy = planOf(problem, {
      steps: {
        'Pie/bake': {
          at: [80, 110],
          in: ['oven', 'roast'],
          place: 'rack 1',
          level: 1,
          spot: [0, 0],
          pan: 'dish',
          celsius: 180,
        },
      },
      runs: [{ in: ['oven', 'roast'], celsius: 180, at: [80, 110], changeover: 16 }],
    });
    expect(faultsOf(problem, tardy)).toEqual([]);
    expect(faultsOf(problem, { ...tardy, status: 'good' })).toEqual(['0 status']);
  });

  it('tells when a dish is ready and how long it waits', () => {
    const [pie] = plan.dishes;
    expect(saying({ dishes: [{ ...pie!, ready: isoAt(problem, 91) }] })).toEqual(['0 dishes']);
    expect(saying({ dishes: [{ ...pie!, wait: 9 }] })).toEqual(['0 dishes']);
    expect(saying({ dishes: [{ ...pie!, wait: null }] })).toEqual(['0 dishes']);
  });

  it('calls known cooks to known steps while they last, or to an appliance or the table', () => {
    const call = (at: number, change: Partial<CallRow> = {}): string[] =>
      saying({ calls: [{ at: isoAt(problem, at), cook: 'Ines', dish: 'Pie', step: 'bake', say: 'Now.', ...change }] });
    for (const at of [60, 75, 90, 44, 92, 100]) expect(call(at)).toEqual([]);
    for (const at of [43, 45, 59, 91, 93, 99, 101]) expect(call(at)).toEqual(['0 calls']);
    expect(call(75, { cook: null })).toEqual([]);
    expect(call(75, { cook: 'Rui' })).toEqual(['0 calls']);
    expect(call(75, { step: 'rest' })).toEqual(['0 calls']);
    expect(call(75, { dish: 'Tart' })).toEqual(['0 calls']);
  });
});
