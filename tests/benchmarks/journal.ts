/** Kills a writer of journals at 300 random moments: `npm run bench:journal -- [--kills N] [--seed N]`. */
import { parseArgs } from 'node:util';
import { killings } from '../support/killing.js';

const { values } = parseArgs({
  options: { kills: { type: 'string', default: '300' }, seed: { type: 'string', default: '1' } },
});
const found = await killings(Number(values.kills), Number(values.seed));
process.stdout.write(
  `${found.kills} kills: ${found.acknowledged} entries acknowledged, ${found.lost} of them lost, ${found.damaged} journals damaged; ` +
    `${found.torn} kills left a torn line, ${found.locked} a lock.\n`,
);
process.exitCode = found.lost + found.damaged === 0 ? 0 : 1;
