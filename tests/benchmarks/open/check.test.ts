/** The checkers accept what is right and name what is not. */
import { describe, expect, it } from 'vitest';
import { checkProject, criticalPath } from './check/project.js';
import { checkShop } from './check/shop.js';
import type { ProjectData } from './instances.js';

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
