/** The checkers accept what is right and name what is not. */
import { describe, expect, it } from 'vitest';
import { checkOvens } from './check/ovens.js';
import { checkProject, criticalPath } from './check/project.js';
import { checkShop } from './check/shop.js';
import type { OvenData, OvenSchedule, ProjectData } from './instances.js';

const mode = (duration: number, use: number, consume: number) => ({ duration, uses: [use], consumes: [consume] });
const PROJECT: ProjectData = {
  activities: [[mode(0, 0, 0)], [mode(3, 2, 0)], [mode(2, 1, 4), mode(4, 1, 1)], [mode(0, 0, 0)]],
  precedences: [
    { from: 0, to: 1 },
    { from: 1, to: 3 },
    { from: 2, to: 3 },
  ],
  lags: [{ from: 2, to: 1, lag: -3 }],
  renewables: [2],
  nonrenewables: [3],
};

describe('projects', () => {
  const faults = (starts: number[], modes: number[]) => checkProject(PROJECT, { starts, modes }).faults;

  it('right ones have no fault, and end when the sink starts', () => {
    expect(checkProject(PROJECT, { starts: [0, 0, 3, 7], modes: [0, 0, 1, 0] })).toEqual({ value: 7, faults: [] });
    expect(criticalPath(PROJECT)).toBe(3);
  });

  it.each([
    ['precedence', [0, 0, 3, 6], [0, 0, 1, 0], /3 starts before 2 ends/],
    ['a renewable', [0, 0, 2, 7], [0, 0, 1, 0], /at 2 resource 0 is used 3 times/],
    ['a nonrenewable', [0, 0, 3, 7], [0, 0, 0, 0], /4 are used, there are 3/],
    ['a maximum lag', [0, 0, 4, 8], [0, 0, 1, 0], /starts less than -3 after 2/],
    ['time', [0, -1, 3, 7], [0, 0, 1, 0], /starts at -1/],
    ['whole times', [0, 0, 3, 7.5], [0, 0, 1, 0], /starts at 7.5/],
    ['modes', [0, 0, 3, 7], [0, 0, 2, 0], /unknown mode/],
    ['completeness', [0, 0], [0, 0], /not every activity/],
  ])('%s is watched', (_, starts, modes, message) => {
    expect(faults(starts, modes).join('\n')).toMatch(message);
  });
});

describe('shops', () => {
  const at = (machine: number, duration: number) => ({ machine, duration });
  const shop = { machines: 2, jobs: [[[at(0, 3)], [at(1, 2)]], [[at(0, 1), at(1, 4)]]] };
  const run = (...rows: [number, number][][]) =>
    checkShop(
      shop,
      rows.map((row) => row.map(([start, machine]) => ({ start, machine }))),
    );

  it('right ones have no fault', () => {
    expect(run([[1, 0], [4, 1]], [[0, 0]])).toEqual({ value: 6, faults: [] }); // biome-ignore format: rows
    expect(run([[0, 0], [4, 1]], [[0, 1]])).toEqual({ value: 6, faults: [] }); // biome-ignore format: rows
  });

  it('order in a job, one at a time on a machine, and machines are watched', () => {
    expect(run([[1, 0], [3, 1]], [[0, 0]]).faults[0]).toMatch(/starts at 3, before 4/); // biome-ignore format: rows
    expect(run([[0, 0], [3, 1]], [[0, 1]]).faults[0]).toMatch(/on machine 1 at once/); // biome-ignore format: rows
    expect(run([[0, 1], [4, 1]], [[0, 0]]).faults[0]).toMatch(/no machine that it can use/); // biome-ignore format: rows
    expect(run([[0, 0]], [[3, 0]]).faults).not.toEqual([]);
  });
});

describe('ovens', () => {
  const job = { attribute: 0, size: 2, release: 0, due: 20, shortest: 4, longest: 6, ovens: [0] };
  const OVENS: OvenData = {
    horizon: 28,
    ovens: [
      {
        capacity: 5,
        initial: 1,
        intervals: [
          { from: 1, to: 12 },
          { from: 15, to: 30 },
        ],
      },
      { capacity: 9, initial: 0, intervals: [{ from: 0, to: 30 }] },
    ],
    jobs: [
      job,
      { ...job, shortest: 5, release: 4, size: 3 },
      { ...job, attribute: 1, due: 21 },
      { ...job, longest: 4 },
    ],
    setupTimes: [
      [1, 2],
      [3, 0],
    ],
    setupCosts: [
      [0, 5],
      [7, 1],
    ],
    weights: { run: 10, tardy: 1000, setupTime: 100, setupCost: 1 },
  };
  const RIGHT: OvenSchedule = [
    { machine: 0, jobs: [3], start: 20, end: 24 },
    { machine: 0, jobs: [0, 1], start: 4, end: 9 },
    { machine: 0, jobs: [2], start: 11, end: 15 },
  ];
  const faultsWith = (k: number, over: Partial<OvenSchedule[number]>): string =>
    checkOvens(
      OVENS,
      RIGHT.map((batch, i) => (i === k ? { ...batch, ...over } : batch)),
    ).faults.join('; ');

  it('right ones have no fault, and cost their runs, setups and what is tardy', () => {
    const right = RIGHT.with(2, { machine: 0, jobs: [2], start: 17, end: 21 }).with(0, {
      ...RIGHT[0]!,
      start: 24,
      end: 28,
    });
    const setups = 100 * (3 + 2 + 3) + (7 + 5 + 7);
    expect(checkOvens(OVENS, right)).toEqual({ value: 10 * (5 + 4 + 4) + 1000 + setups, faults: [] });
  });

  it.each([
    ['intervals', 1, {}, /on oven 0, 9 to 15 lies in no interval/],
    ['setups', 2, { start: 10, end: 14 }, /10 is too early: 9 and 2/],
    ['the first setup', 1, { start: 2, end: 7 }, /2 is too early: 0 and 3/],
    ['the run', 1, { end: 8 }, /runs from 4 to 8, not 5/],
    ['the longest time', 1, { jobs: [3, 1] }, /runs 5, too long/],
    ['releases', 1, { start: 3, end: 8 }, /starts at 3, before one is released/],
    ['attributes', 0, { jobs: [3, 2] }, /several attributes/],
    ['capacity', 1, { jobs: [0, 1, 3] }, /takes up 7 of 5/],
    ['which oven', 1, { machine: 1 }, /not meant for oven 1/],
    ['the horizon', 0, { start: 25, end: 29 }, /ends at 29, after the horizon/],
    ['that none is forgotten', 1, { jobs: [1] }, /job 0 is in 0 batches/],
    ['that none is done twice', 0, { jobs: [3, 0] }, /job 0 is in 2 batches/],
    ['what is not there', 0, { jobs: [9] }, /not there/],
  ])('%s: watched', (_, k, over, message) => expect(faultsWith(k, over)).toMatch(message));
});
