/**
 * How near the pull comes that readings predict: `npm run bench:readings -- [--roasts N] [--seed N]`. Simulated roasts are 15 % bigger or smaller
 * than said, heat some 10 % better or worse, and are read with 1 K of noise at 50, 70 and 85 % of their time.
 */
import { loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { Refit } from '../../src/heat/refit.js';
import { Rng } from '../../src/kernel/rng.js';
import { simulatedRoast } from '../support/simulated-roast.js';
import { circumstances, table, writePart } from './results.js';

const { values } = parseArgs({
  options: { roasts: { type: 'string', default: '1000' }, seed: { type: 'string', default: '1' } },
});
const load = loadavg()[0]!;
const [roasts, rng] = [Number(values.roasts), new Rng(Number(values.seed))];
const SHOWN = ['none', '1', '2', '3'];
const errors: number[][] = SHOWN.map(() => []);
const times: number[] = [];
let inside = 0;
for (let at = 0; at < roasts; at++) {
  const { followed, pull, truth, said } = simulatedRoast(rng, at);
  errors[0]!.push(Math.abs(said - truth));
  for (let count = 1; count <= followed.readings.length; count++) {
    const before = process.cpuUsage();
    const refit = new Refit({ ...followed, readings: followed.readings.slice(0, count) }, pull + 4);
    const { low, likely, high } = refit.minutesTo(pull);
    const { user, system } = process.cpuUsage(before);
    times.push((user + system) / 1000);
    errors[count]!.push(Math.abs(likely - truth));
    if (count === 2 && low <= truth && truth <= high) inside += 1;
  }
}
const at = (sorted: readonly number[], share: number): string =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!.toFixed(1);
const rows = errors.map((own, k) => {
  const sorted = own.toSorted((a, b) => a - b);
  const share = (100 * sorted.filter((error) => error <= 5).length) / sorted.length;
  return [SHOWN[k]!, `${share.toFixed(1)} %`, at(sorted, 0.5), at(sorted, 0.95)];
});
const cpu = times.toSorted((a, b) => a - b);
const body = `${circumstances(load)}

${roasts} simulated roasts of four shapes, 8 to 14 cm thick (slabs 5 to 8), half of them 15 % bigger and half 15 % smaller than said in all directions, with
heat transfer and first temperature that vary as well; read with a noise of 1 K at 50, 70 and 85 % of their time. Minutes by which the predicted pull is off:

${table(['Readings', 'Within 5 min', 'Median', '95th percentile'], rows)}

The range from 10 to 90 % after two readings holds the true minute in ${((100 * inside) / roasts).toFixed(0)} % of them. One refit takes ${at(cpu, 0.5)} ms of processor time
in the middle, ${at(cpu, 0.95)} ms at the 95th percentile (bricks).
`;
process.stdout.write(body);
writePart('Readings', body);
