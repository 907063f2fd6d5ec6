/** The formats, on little instances of our own. */
import { describe, expect, it } from 'vitest';
import { readProGenMax, readPsplib } from './read/projects.js';
import { readFlexibleShop, readJobShop } from './read/shops.js';

/** PSPLIB's headings around given rows. */
function psplib(order: string[], requests: string[], [r, n]: readonly [number, number], capacities: string): string {
  const stars = '*'.repeat(72);
  return [
    stars,
    'file with basedata            : own.bas',
    stars,
    `jobs (incl. supersource/sink ):  ${order.length}`,
    'horizon                       :  99',
    'RESOURCES',
    `  - renewable                 :  ${r}   R`,
    `  - nonrenewable              :  ${n}   N`,
    '  - doubly constrained        :  0   D',
    stars,
    'PRECEDENCE RELATIONS:',
    'jobnr.    #modes  #successors   successors',
    ...order,
    stars,
    'REQUESTS/DURATIONS:',
    'jobnr. mode duration  R 1 ...',
    '-'.repeat(72),
    ...requests,
    stars,
    'RESOURCEAVAILABILITIES:',
    '  R 1 ...',
    capacities,
    stars,
  ].join('\r\n');
}

describe('PSPLIB', () => {
  it('with one mode', () => {
    const text = psplib(
      ['1 1 2 2 3', '2 1 1 4', '3 1 1 4', '4 1 0   '],
      ['1 1 0 0 0', '2 1 5 3 1', '3 1 7 0 2', '4 1 0 0 0'],
      [2, 0],
      '4 2',
    );
    const data = readPsplib(text);
    expect(data.activities[2]).toEqual([{ duration: 7, uses: [0, 2], consumes: [] }]);
    expect(data.precedences).toEqual([
      { from: 0, to: 1 },
      { from: 0, to: 2 },
      { from: 1, to: 3 },
      { from: 2, to: 3 },
    ]);
    expect(data.renewables).toEqual([4, 2]);
    expect(data.nonrenewables).toEqual([]);
  });

  it('with several modes, whose later lines have no number of the activity', () => {
    const text = psplib(
      ['1 1 1 2', '2 2 1 3', '3 1 0'],
      ['1 1 0 0 0', '2 1 3 2 6', '  2 8 1 4', '3 1 0 0 0'],
      [1, 1],
      '2 5',
    );
    const data = readPsplib(text);
    expect(data.activities[1]).toEqual([
      { duration: 3, uses: [2], consumes: [6] },
      { duration: 8, uses: [1], consumes: [4] },
    ]);
    expect([data.renewables, data.nonrenewables]).toEqual([[2], [5]]);
  });

  it('says what is wrong', () => {
    expect(() => readPsplib('nothing')).toThrow(/there is no/);
    expect(() => readPsplib(psplib(['1 1 3 2'], ['1 1 0 0'], [1, 0], '1'))).toThrow(/ends too early/);
    expect(() => readPsplib(psplib(['1 1 0'], ['1 1 0 0 9'], [1, 0], '1'))).toThrow(/1 numbers too many/);
    expect(() => readPsplib(psplib(['1 1 0'], ['1 1 0 x'], [1, 0], '1'))).toThrow(/"x" is no whole number/);
  });
});

describe('other formats', () => {
  it('ProGen/max: lags of either sign in brackets', () => {
    const text =
      '2 1 0 0\n0 1 2 1 2 [0] [0]\n1 1 2 2 3 [4] [5]\n2\t1\t2\t1\t3\t[-6]\t[2]\n3 1 0\n0 1 0 0\n1 1 5 1\n2 1 2 1\n3 1 0 0\n1\n';
    const data = readProGenMax(text);
    expect(data.lags).toEqual([
      { from: 0, to: 1, lag: 0 },
      { from: 0, to: 2, lag: 0 },
      { from: 1, to: 2, lag: 4 },
      { from: 1, to: 3, lag: 5 },
      { from: 2, to: 1, lag: -6 },
      { from: 2, to: 3, lag: 2 },
    ]);
    expect(data.activities.map(([mode]) => mode!.duration)).toEqual([0, 5, 2, 0]);
    expect(data.renewables).toEqual([1]);
  });

  it('job shop: machines from 0', () => {
    expect(readJobShop('1 2\n 1 5 0 3\n')).toEqual({
      machines: 2,
      jobs: [[[{ machine: 1, duration: 5 }], [{ machine: 0, duration: 3 }]]],
    });
    expect(() => readJobShop('1 2\n 2 5 0 3\n')).toThrow(/cannot be/);
  });

  it('flexible job shop: machines from 1, a third number on the first line that says nothing', () => {
    const two = [
      { machine: 0, duration: 4 },
      { machine: 1, duration: 6 },
    ];
    expect(readFlexibleShop('1\t2\t1.5\n 2 2 1 4 2 6 1 2 3 \n')).toEqual({
      machines: 2,
      jobs: [[two, [{ machine: 1, duration: 3 }]]],
    });
    expect(readFlexibleShop('1 2\n1 1 2 3').jobs[0]).toHaveLength(1);
  });
});
