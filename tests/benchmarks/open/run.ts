/**
 * Open scheduling data: how near the engines come to the best known values. Writes its part of RESULTS.md when all sets of the default folder are
 * measured; any option prints only. `--data DIR` another folder of the same form, `--set NAME` only sets whose names begin so, `--engine NAME`,
 * `--schedules N[,N]`, `--seed N`, `--json`.
 */
import { loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { nearest } from '../../../src/problem/nearest.js';
import { writePart } from '../results.js';
import { DEFAULT_FOLDER, DEFAULT_NAME, type OpenSet, readSets } from './data.js';
import { measure } from './measure.js';
import { dataOf, hasFaults, part, progress, tablesOf } from './report.js';

const OPTIONS = {
  data: { type: 'string' },
  set: { type: 'string' },
  engine: { type: 'string' },
  schedules: { type: 'string' },
  seed: { type: 'string' },
  json: { type: 'boolean' },
} as const;

function wholeNumbers(text: string, option: string): number[] {
  const list = text.split(',').map(Number);
  if (list.some((one) => !Number.isInteger(one) || one < 1)) throw new Error(`${option} takes a whole number from 1`);
  return list;
}

/** Sets named so, or else those whose names begin so. */
function chosen(sets: readonly OpenSet[], name: string | undefined): readonly OpenSet[] {
  if (name === undefined) return sets;
  const exact = sets.filter((set) => set.name === name);
  const some = exact.length > 0 ? exact : sets.filter((set) => set.name.startsWith(name));
  if (some.length > 0) return some;
  const names = sets.map((set) => set.name);
  const near = nearest(name, names);
  throw new Error(`there is no set ${name}${near === null ? '' : `; did you mean ${near}?`} (${names.join(', ')})`);
}

function main(): void {
  const { values } = parseArgs({ options: OPTIONS });
  const all = readSets(values.data ?? DEFAULT_FOLDER);
  if (all === null && values.data !== undefined) throw new Error(`there is no folder ${values.data}`);
  if (all === null) {
    console.log(`skipped: ${DEFAULT_NAME} not found`);
    return;
  }
  const sets = chosen(all, values.set);
  if (sets.length === 0) throw new Error(`${values.data ?? DEFAULT_NAME} has no folder with a bounds.json`);
  const counts = wholeNumbers(values.schedules ?? '5000,50000', '--schedules');
  const [seed] = wholeNumbers(values.seed ?? '1', '--seed');
  const load = loadavg()[0]!;
  const measured = counts.flatMap((schedules) =>
    sets.flatMap((set) =>
      measure(set, { schedules, seed: seed! }, values.engine ?? null, (done) =>
        process.stderr.write(`${progress(done)}\n`),
      ),
    ),
  );
  if (values.json) console.log(JSON.stringify(dataOf(measured), null, 2));
  else console.log(tablesOf(measured));
  const { data, set, engine, schedules, json } = values;
  const whole = [data, set, engine, schedules, values.seed, json].every((option) => option === undefined);
  if (whole) writePart('Open scheduling data', part(measured, { load, seed: seed! }));
  if (hasFaults(measured)) process.exitCode = 1;
}

try {
  main();
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 2;
}
