/**
 * Our plans beside those of CP-SAT: the same compiled meal, the same objective, both judged by the audit, for every meal in problems/
 * and for generated ones. Writes a part of RESULTS.md, unless only some meals are asked for.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { audit } from '../../../src/audit/audit.js';
import { compile } from '../../../src/solve/compile.js';
import { randomProblemText } from '../../support/random-problem.js';
import { readMealFile } from '../../support/read-meal.js';
import { writePart } from '../results.js';
import { loadSolver } from './cp-sat.js';
import { type PeerResult, solveWithPeer } from './peer.js';
import { type Ours, type Row, report, rowLine } from './report.js';

const HERE = fileURLToPath(new URL('.', import.meta.url));
const LEAST_DISHES = 5;
const MOST_DISHES = 12;

interface Case {
  readonly name: string;
  readonly file: string;
}

function meals(): Case[] {
  return readdirSync('problems')
    .filter((name) => name.endsWith('.yaml'))
    .sort()
    .map((name) => ({ name: name.replace(/\.yaml$/, ''), file: join('problems', name) }));
}

/** Meals of 5 to 12 dishes in turn. */
function generated(count: number, folder: string): Case[] {
  return Array.from({ length: count }, (_, k) => {
    const dishes = LEAST_DISHES + (k % (MOST_DISHES - LEAST_DISHES + 1));
    const file = join(folder, `${k + 1}.yaml`);
    writeFileSync(file, randomProblemText(k + 1, { dishes }));
    return { name: `generated ${k + 1}`, file };
  });
}

function measureOurs(file: string): Ours {
  const run = spawnSync(process.execPath, [join(HERE, 'ours.mjs'), file], { encoding: 'utf8' });
  if (run.status !== 0) throw new Error(`${file}: ${run.stderr}`);
  return JSON.parse(run.stdout) as Ours;
}

async function measure({ name, file }: Case, seconds: number, log: boolean): Promise<Row> {
  const ours = measureOurs(file);
  const problem = readMealFile(file);
  const { plan, ...peer }: PeerResult = await solveWithPeer(compile(problem), { seconds, log });
  const verdict = plan === null ? null : audit(problem, plan);
  const agrees = verdict === null || Math.abs(verdict.points.total - peer.points!) <= 0.01;
  return { name, ours, peer, wrong: (verdict?.violations.length ?? 0) + (agrees && peer.holds ? 0 : 1) };
}

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      meal: { type: 'string' },
      generated: { type: 'string', default: '30' },
      seconds: { type: 'string', default: '60' },
      json: { type: 'boolean', default: false },
      log: { type: 'boolean', default: false },
    },
  });
  const [seconds, count] = [Number(values.seconds), Number(values.generated)];
  if (!(seconds > 0) || !(count >= 0)) throw new Error('--seconds and --generated take a number');
  const load = loadavg()[0]!;
  const folder = mkdtempSync(join(tmpdir(), 'hearthtable-peers-'));
  try {
    const chosen = [...meals(), ...generated(count, folder)].filter(
      ({ name }) => values.meal === undefined || name === values.meal,
    );
    if (chosen.length === 0) throw new Error(`there is no meal ${values.meal}`);
    await loadSolver();
    const rows: Row[] = [];
    for (const one of chosen) {
      const row = await measure(one, seconds, values.log);
      rows.push(row);
      process.stderr.write(`${rowLine(row)}\n`);
    }
    if (values.json) process.stdout.write(`${JSON.stringify(rows, null, 2)}\n`);
    if (values.meal === undefined) {
      const { dependencies } = JSON.parse(readFileSync(join(HERE, 'package.json'), 'utf8')) as {
        dependencies: Record<string, string>;
      };
      writePart('Beside CP-SAT', report(rows, { seconds, load, version: dependencies['or-tools-wasm']! }));
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
}

try {
  await main();
  process.exit(0);
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exit(1);
}
