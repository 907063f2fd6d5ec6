/** The frame on folders of our own: only some sets, bounds that nobody knows, files that are not there, engines that are wrong. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { type Instance, readSet, readSets } from './data.js';
import { type Family, family, type Outcome } from './family.js';
import { gapsOf, meanGap, optimal, proved, unproved, unsolved } from './figures.js';
import { measure } from './measure.js';
import { dataOf, hasFaults, tablesOf } from './report.js';

const folder = mkdtempSync(join(tmpdir(), 'hearthtable-open-'));
afterAll(() => rmSync(folder, { recursive: true }));

function write(name: string, bounds: unknown, files: Readonly<Record<string, string>>): string {
  const path = join(folder, name);
  mkdirSync(path, { recursive: true });
  writeFileSync(join(path, 'bounds.json'), typeof bounds === 'string' ? bounds : JSON.stringify(bounds));
  for (const [file, text] of Object.entries(files)) writeFileSync(join(path, file), text);
  return path;
}

const known = (file: string, status: string, lower: number | null, upper: number | null) => ({
  file,
  status,
  lower,
  upper,
});
const effort = { schedules: 50, seed: 1 };
const nobody = () => {};

describe('folders', () => {
  it('need not have all sets, nor all bounds; what is missing is told', () => {
    const instances = {
      one: known('one.txt', 'optimal', 5, 5),
      two: known('two.txt', 'open', null, null),
      gone: known('gone.txt', 'open', 1, 9),
    };
    const path = write('shops', { set: 'jobshop', instances }, { 'one.txt': '1 2 0 2 1 3', 'two.txt': '2 1 0 4 0 3' });
    const sets = readSets(path)!;
    expect(sets.map(({ name }) => name)).toEqual(['jobshop']);
    const [row] = measure(sets[0]!, effort, null, nobody);
    expect(row!.trials.map(({ value }) => value)).toEqual([5, 7, null]);
    expect(row!.trials.map(({ faults }) => faults.length)).toEqual([0, 0, 1]);
    expect([meanGap(row!.trials), optimal(row!.trials), unsolved(row!.trials)]).toEqual([0, 1, 1]);
    expect(tablesOf([row!])).toContain('FAULT jobshop gone');
    // None of la01 to la20 is there.
    expect(row!.aims.map(({ met }) => met)).toEqual(['not told']);
  });

  it('may have sets that nothing can read yet', () => {
    const path = write('strange', { instances: { one: known('one.txt', 'open', null, null) } }, {});
    const set = readSet(path);
    expect(set.name).toBe('strange');
    const rows = measure(set, effort, null, nobody);
    expect(rows.map(({ engine, instances }) => [engine, instances])).toEqual([[null, 1]]);
    expect(tablesOf(rows)).toContain('not yet');
    expect(hasFaults(rows)).toBe(false);
  });

  it('are told from what is no folder or no bounds file', () => {
    expect(readSets(join(folder, 'nowhere'))).toBeNull();
    expect(() => readSet(write('broken', '{"instances": ', {}))).toThrow(/broken.bounds.json is no bounds file/);
    expect(() => readSet(write('odd', { instances: { one: {} } }, {}))).toThrow(/instances.one.file/);
  });
});

describe('trials', () => {
  const instance = (status: Instance['status'], lower: number | null, upper: number | null): Instance => {
    return { name: 'x', path: '', status, lower, upper };
  };
  const saying = (outcome: Partial<Outcome<number>>): Family =>
    family<null, number>({
      sets: /x/,
      read: () => null,
      check: (_, value) => ({ value, faults: [] }),
      engines: [
        { name: 'e', solve: () => ({ schedule: null, lower: null, infeasible: false, generated: 1, ...outcome }) },
      ],
      aims: () => [],
    });
  const trial = (outcome: Partial<Outcome<number>>, of: Instance) => saying(outcome).run('e', of, '', effort);

  it.each([
    ['a schedule where there is none', { schedule: 5 }, instance('infeasible', null, null), /proved to have none/],
    ['a proof against a known schedule', { infeasible: true }, instance('open', 1, 9), /where one is known/],
    ['a schedule and a proof against it', { schedule: 5, infeasible: true }, instance('open', null, null), /a proof/],
    ['less than can be', { schedule: 5 }, instance('open', 6, 9), /below the known bound 6/],
    ['less than its own bound', { schedule: 5, lower: 6 }, instance('open', null, null), /below its own bound/],
    ['a bound that is too high', { lower: 10 }, instance('open', 6, 9), /above the known 9/],
  ])('%s is a fault', (_, outcome, of, message) => {
    expect(trial(outcome, of).faults.join()).toMatch(message);
  });

  it('are counted as optimal, proved, better than known', () => {
    const trials = [
      trial({ schedule: 8, lower: 8 }, instance('optimal', 8, 8)),
      trial({ schedule: 8, lower: 7 }, instance('open', 6, 9)),
      trial({ infeasible: true }, instance('infeasible', null, null)),
      trial({}, instance('infeasible', null, null)),
    ];
    expect(trials.flatMap(({ faults }) => faults)).toEqual([]);
    expect([optimal(trials), proved(trials), unsolved(trials), unproved(trials)]).toEqual([1, 2, 0, 1]);
    expect(gapsOf(trials)).toEqual([0, (100 * -1) / 9]);
    const row = { set: 'x', engine: 'e', schedules: 1, instances: 4, trials, parts: [], aims: [] };
    expect(tablesOf([row])).toContain('better than the best known: x x, 8 instead of 9');
    expect(JSON.parse(JSON.stringify(dataOf([row])))[0]).toMatchObject({ solved: 2, optimal: 1, proved: 2 });
  });
});
