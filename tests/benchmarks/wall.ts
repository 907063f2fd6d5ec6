/**
 * Many phones at one wall: `npm run bench:wall -- [--clients N] [--seconds N]`. The phones live in a process of their own; a remark goes into
 * the journal every half second by another hand than the wall's, and each phone says when it saw which. Writes a part of RESULTS.md.
 */
import { fork } from 'node:child_process';
import { get } from 'node:http';
import { loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import type { Entry } from '../../src/live/journal/entries.js';
import { withEntry } from '../../src/live/journal/rebuild.js';
import { aWall } from '../wall/a-wall.js';
import { circumstances, table, writePart } from './results.js';

const { values } = parseArgs({
  options: { clients: { type: 'string', default: '200' }, seconds: { type: 'string', default: '30' } },
});
const [CLIENTS, SECONDS] = [Number(values.clients), Number(values.seconds)];
const EVERY = 500;

/** A remark that a phone saw: which, and when. */
type Sight = readonly [number, number];

/** In the other process: opens so many pages, and tells what each saw once it is asked. */
function phones(): void {
  const seen: Sight[][] = [];
  process.on('message', (urls: string[] | 'end') => {
    if (urls === 'end') {
      process.send!(seen, () => process.exit());
      return;
    }
    let open = 0;
    for (const url of urls) {
      const own: Sight[] = [];
      seen.push(own);
      get(url, { agent: false }, (reply) => {
        let text = '';
        reply.setEncoding('utf8');
        if (++open === urls.length) process.send!('open');
        reply.on('data', (part: string) => {
          text += part;
          for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
            const last = [...text.slice(0, end).matchAll(/remark (\d+)/g)].at(-1);
            if (last && own.at(-1)?.[0] !== Number(last[1])) own.push([Number(last[1]), Date.now()]);
            text = text.slice(end + 2);
          }
        });
      });
    }
  });
}

const pause = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

async function bench(): Promise<void> {
  const load = loadavg()[0]!;
  const kitchen = await aWall('17:00');
  const names = ['all', 'Ines', 'Tomas', 'look'];
  const child = fork(fileURLToPath(import.meta.url), {
    execArgv: ['--import', 'tsx'],
    env: { ...process.env, PHONES: '1' },
  });
  const opened = new Promise((resolve) => child.once('message', resolve));
  child.send(Array.from({ length: CLIENTS }, (_, k) => kitchen.url(names[k % names.length]!, 'events')));
  await opened;
  const memory: number[] = [];
  const written: number[] = [];
  let before: readonly Entry[] = kitchen.entries();
  const begun = process.cpuUsage();
  for (let k = 0; k < (SECONDS * 1000) / EVERY; k++) {
    const stamp = { at: kitchen.teller.iso('17:00'), when: kitchen.teller.iso('17:00'), who: null };
    const entry = withEntry(kitchen.teller.meal, before, stamp, { kind: 'note', text: `remark ${k}` }) as Entry;
    before = [...before, entry];
    written.push(Date.now());
    kitchen.append(entry);
    await pause(EVERY);
    globalThis.gc?.();
    memory.push(process.memoryUsage().heapUsed / 2 ** 20);
  }
  const used = process.cpuUsage(begun);
  await pause(1500);
  const told = new Promise<Sight[][]>((resolve) => child.once('message', (seen) => resolve(seen as Sight[][])));
  child.send('end');
  const seen = await told;
  const delays = seen.flatMap((own) => own.map(([k, at]) => at - written[k]!)).sort((a, b) => a - b);
  const at = (share: number): number => delays[Math.min(delays.length - 1, Math.floor(share * delays.length))]!;
  const missing = CLIENTS * written.length - delays.length;
  const [first, last] = [memory.slice(4, 10), memory.slice(-6)].map(
    (some) => some.reduce((a, b) => a + b, 0) / some.length,
  );
  const body = `Written by \`npm run bench:wall\`, which measures anew.

${circumstances(load)}

${CLIENTS} phones at one wall for ${SECONDS} s, in a process of their own; every ${EVERY} ms an entry is added to the journal by another hand than the wall's, and each
phone has to see it.

${table(
  ['what', 'measured'],
  [
    ['entries', written.length],
    ['times that a phone saw one', delays.length],
    ['times that one missed one', missing],
    ['ms until half had seen it', at(0.5)],
    ['ms until 99 of 100 had', at(0.99)],
    ['ms until the last had', at(1)],
    ['MiB of heap in the seconds 3 to 5', first!.toFixed(1)],
    ['MiB of heap in the last 3 seconds', last!.toFixed(1)],
    ["s of the wall's processor time", ((used.user + used.system) / 1e6).toFixed(1)],
  ],
)}`;
  writePart('Many phones at one wall', body);
  process.stdout.write(`${body}\n`);
  await kitchen.close();
  process.exitCode = missing === 0 && at(1) < 1000 ? 0 : 1;
}

if (process.env.PHONES === '1') phones();
else await bench();
