/** The formats, on little instances of our own. */
import { describe, expect, it } from 'vitest';
import { readOvens } from './read/ovens.js';
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

describe('oven scheduling', () => {
  const TEXT = `l=40;
a=2;
setup_costs=[|0,1,
|2,3,
|0,0|];
setup_times=[|4,5,|6,7,|0,0|];
m=2;
min_cap=[0,0];
max_cap=[8,9];

initState=[2,1];
s=2;
m_a_s = [|0,21,
|5,5|];
m_a_e = [|20,39,
|5,30|];
n=2;
eligible_machine = [{2,1},
{2}];
earliest_start=[3,4];
latest_end=[13,14];
min_time=[5,6];
max_time=[7,8];
size=[1,2];
attribute=[2,1];
mult_factor_total_runtime=11;
mult_factor_finished_toolate=12;
mult_factor_total_setuptimes=13;
mult_factor_total_setupcosts=14;
`;

  it('ovens, jobs and attributes from 1; the last row of a matrix of setups says nothing', () => {
    expect(readOvens(TEXT)).toEqual({
      horizon: 40,
      ovens: [
        {
          capacity: 8,
          initial: 1,
          intervals: [
            { from: 0, to: 20 },
            { from: 21, to: 39 },
          ],
        },
        {
          capacity: 9,
          initial: 0,
          intervals: [
            { from: 5, to: 5 },
            { from: 5, to: 30 },
          ],
        },
      ],
      jobs: [
        { attribute: 1, size: 1, release: 3, due: 13, shortest: 5, longest: 7, ovens: [1, 0] },
        { attribute: 0, size: 2, release: 4, due: 14, shortest: 6, longest: 8, ovens: [1] },
      ],
      setupTimes: [
        [4, 5],
        [6, 7],
      ],
      setupCosts: [
        [0, 1],
        [2, 3],
      ],
      weights: { run: 11, tardy: 12, setupTime: 13, setupCost: 14 },
    });
  });

  it.each([
    ['size=[1,2];', '', /there is no size/],
    ['size=[1,2]', 'size=[1]', /size has 1 numbers instead of 2/],
    ['size=[1,2]', 'size=[1,big]', /size has something that is no whole number/],
    ['attribute=[2,1]', 'attribute=[2,3]', /3 is not within 1 to 2/],
    ['{2}]', ']', /eligible_machine has 1 rows instead of 2/],
    ['min_cap=[0,0]', 'min_cap=[0,1]', /min_cap/],
    ['|6,7,|', '|6,|', /setup_times has a row of 1 numbers/],
  ])('says what is wrong: %s', (right, wrong, message) => {
    expect(() => readOvens(TEXT.replace(right, wrong))).toThrow(message);
  });
});
