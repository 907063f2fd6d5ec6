/** A small part of the open data, where it is there: everything found passes its checker and contradicts no known bound. */
import { expect, it } from 'vitest';
import { DEFAULT_FOLDER, DEFAULT_NAME, readSets } from './data.js';
import { meanGap } from './figures.js';
import { measure } from './measure.js';
import { dataOf, hasFaults, tablesOf } from './report.js';

const sets = readSets(DEFAULT_FOLDER) ?? [];
if (sets.length === 0) it.skip(`skipped: ${DEFAULT_NAME} not found`);

it.each(sets)('$name: two instances', ({ name, instances }) => {
  const some = { name, instances: instances.filter((_, k) => k % Math.ceil(instances.length / 2) === 0) };
  const measured = measure(some, { schedules: /^osp/.test(name) ? 300 : 1000, seed: 1 }, null, () => {});
  expect(tablesOf(measured)).not.toContain('FAULT');
  expect(hasFaults(measured)).toBe(false);
  expect(JSON.stringify(dataOf(measured))).toContain(`"set":"${name}"`);
  for (const { engine, trials } of measured) {
    if (engine !== null && /^(rcpsp-j|mmrcpsp)/.test(name)) expect(meanGap(trials)).toBeLessThan(10);
  }
});
