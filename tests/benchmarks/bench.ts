/**
 * Measures how long planning takes and how much memory, for every meal in problems/ and for generated ones, and writes
 * its part of RESULTS.md. `--only NAME` measures the cases whose name contains NAME and prints them without writing anything.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { banquet } from './banquet.js';
import { circumstances, median, table, writePart } from './results.js';

const SIZES = [5, 10, 20, 50, 100, 200];
const EFFORT = 'normal';
/** Short cases are measured so often, and the middle one counts. */
const TIMES = 3;
const SHORT = 5000;
const MEAL = 'problems/one-grill-pork.yaml';
/** The meals of ten dishes whose first plan is timed in a process that goes on planning. */
const TEN = ['holiday-one-oven', '10 dishes'];

interface Case {
  readonly name: string;
  readonly file: string;
  readonly generated: boolean;
}

/** What `case.mjs` prints; milliseconds and MB. */
interface Measured {
  readonly dishes: number;
  readonly steps: number;
  readonly load: number;
  readonly read: number;
  readonly first: number | null;
  readonly planned: number;
  readonly chances: number | null;
  readonly within5: number | null;
  readonly audit: number;
  readonly violations: number;
  readonly status: string;
  readonly points: number | null;
  readonly bound: number | null;
  readonly rounds: number | null;
  readonly why: string | null;
  readonly memory: number;
}

interface Row extends Case {
  readonly measured: Measured;
}

/** What `first.mjs` prints for a case, milliseconds by the clock. */
interface First {
  readonly name: string;
  readonly cold: number;
  readonly warm: number;
}

interface Command {
  /** Milliseconds by the clock from the start of the process to its end, and of processor time. */
  readonly wall: number;
  readonly cpu: number;
}

const HERE = fileURLToPath(new URL('.', import.meta.url));

function inOwnProcess(script: string, file: string, ...more: string[]): unknown {
  const run = spawnSync(process.execPath, [join(HERE, script), file, ...more], { encoding: 'utf8' });
  if (run.status !== 0) throw new Error(`${file}: ${run.stderr}`);
  return JSON.parse(run.stdout);
}

const measureOnce = (file: string): Measured => inOwnProcess('case.mjs', file, EFFORT) as Measured;

function measureFirst({ name, file }: Case): First {
  return { name, ...(inOwnProcess('first.mjs', file) as { cold: number; warm: number }) };
}

function measure(file: string): Measured {
  const all = [measureOnce(file)];
  while (all.length < TIMES && all[0]!.planned < SHORT) all.push(measureOnce(file));
  return median(all, ({ planned }) => planned);
}

/** Makes a process tell at its end what processor time it took, in milliseconds. */
const TELL_CPU = `data:text/javascript,process.on('exit',()=>{const{user,system}=process.cpuUsage();process.stderr.write('cpu '+(user+system)/1000)})`;

/** The whole command from the shell's point of view: file in, chart out. */
function measureCommand(): Command {
  const all = Array.from({ length: 5 }, (): Command => {
    const begun = performance.now();
    const args = ['--import', TELL_CPU, 'dist/cli/main.js', 'plan', MEAL, '--text'];
    const run = spawnSync(process.execPath, args, { encoding: 'utf8' });
    const wall = performance.now() - begun;
    const cpu = /cpu ([\d.]+)$/.exec(run.stderr);
    if (run.status !== 0 || cpu === null) throw new Error(run.stderr);
    return { wall, cpu: Number(cpu[1]) };
  });
  return median(all, ({ wall }) => wall);
}

const seconds = (ms: number | null): string => (ms === null ? '-' : (ms / 1000).toFixed(ms < 9950 ? 2 : 1));
const megabytes = (value: number): string => value.toFixed(0);

function mealTable(rows: readonly Row[]): string {
  const head = [
    'meal',
    'dishes',
    'steps',
    'first plan, s',
    'final plan, s',
    '10,000 days, s',
    'in time',
    'points',
    'bound',
    'status',
    'rounds',
    'memory, MB',
  ];
  return table(
    head,
    rows.map(({ name, measured: m }) => {
      const { first, planned, points, bound, status, rounds, memory } = m;
      const times = [seconds(first), seconds(planned), seconds(m.chances), m.within5 ?? '-'];
      return [name, m.dishes, m.steps, ...times, points ?? '-', bound ?? '-', status, rounds ?? '-', megabytes(memory)];
    }),
  );
}

/** From each size to the next: by what factor time and memory grow, and the power of the steps that this is. */
function growthTable(rows: readonly Row[]): string {
  const head = ['dishes', 'steps x', 'first plan x', 'power', 'final plan x', 'power', 'memory x'];
  const lines = rows.slice(1).map((row, k) => {
    const [a, b] = [rows[k]!.measured, row.measured];
    const steps = b.steps / a.steps;
    const growth = (one: number | null, two: number | null): string[] => {
      if (one === null || two === null) return ['-', '-'];
      return [(two / one).toFixed(1), (Math.log(two / one) / Math.log(steps)).toFixed(1)];
    };
    const memory = (b.memory / a.memory).toFixed(2);
    return [
      `${a.dishes} to ${b.dishes}`,
      steps.toFixed(1),
      ...growth(a.first, b.first),
      ...growth(a.planned, b.planned),
      memory,
    ];
  });
  return table(head, lines);
}

interface Aim {
  readonly what: string;
  readonly aim: string;
  readonly measured: string;
  readonly met: boolean;
}

function aims(rows: readonly Row[], command: Command, firsts: readonly First[]): Aim[] {
  const of = (name: string): Measured => rows.find((row) => row.name === name)!.measured;
  const [ten, most] = [of('10 dishes'), of('200 dishes')];
  return [
    {
      what: `${MEAL} from command to chart`,
      aim: 'under 1 s',
      measured: `${seconds(command.wall)} s by the clock, ${seconds(command.cpu)} s of processor time`,
      met: command.wall < 1000,
    },
    {
      what: '10 dishes planned at normal effort',
      aim: 'under 1 s',
      measured: `${seconds(ten.planned)} s of processor time`,
      met: ten.planned < 1000,
    },
    ...firsts.map(({ name, cold, warm }) => ({
      what: `first plan of ${name}, in a process that goes on planning`,
      aim: 'under 50 ms',
      measured: `${warm.toFixed(0)} ms by the clock (the first of the process ${cold.toFixed(0)})`,
      met: warm < 50,
    })),
    {
      what: 'chances of 10 dishes, 10,000 days drawn',
      aim: 'under 1 s',
      measured: `${seconds(ten.chances)} s of processor time`,
      met: ten.chances !== null && ten.chances < 1000,
    },
    {
      what: `200 dishes (${most.steps} steps) planned at normal effort`,
      aim: 'under 30 s',
      measured: `${seconds(most.planned)} s of processor time`,
      met: most.planned < 30_000,
    },
    {
      what: 'memory for 200 dishes',
      aim: 'under 300 MB',
      measured: `${megabytes(most.memory)} MB at most`,
      met: most.memory < 300,
    },
  ];
}

function report(rows: readonly Row[], command: Command, firsts: readonly First[], load: number): string {
  const meals = rows.filter((row) => !row.generated);
  const generated = rows.filter((row) => row.generated);
  const wrong = rows.filter((row) => row.measured.violations > 0).map((row) => row.name);
  const none = rows
    .filter((row) => row.measured.why !== null)
    .map(({ name, measured }) => `- ${name}: ${measured.why}`);
  const aimLines = aims(rows, command, firsts).map(({ what, aim, measured, met }) => [
    what,
    aim,
    measured,
    met ? 'yes' : 'no',
  ]);
  return `Written by \`npm run bench\`, which measures anew.

${circumstances(load)}

Times are seconds of processor time at ${EFFORT} effort with seed 1, the middle of ${TIMES} where a case is short; times by the clock are
longer where other work shares the machine. The first plan is the first in which every dish has its place. Memory is
the most that the process held at any time, Node's own share (about 45 MB) included. Where steps have a spread, \`10,000 days\` is
what their chances take, and \`in time\` the share of days on which all lands within 5 minutes of its time. Every case runs in a process of its own.

## Aims

${table(['what', 'aim', 'measured', 'met'], aimLines)}

## The meals in problems/

${mealTable(meals)}

## Generated meals

Banquets of five steps a dish in kitchens that grow with them (\`tests/benchmarks/banquet.ts\`).

${mealTable(generated)}

Growth from one size to the next; "power" p means that time grows like steps^p. The time to the final plan follows the search's
budget, which grows with the dishes up to a limit.

${growthTable(generated)}

${wrong.length === 0 ? 'Every plan passed the audit.' : `Plans that did not pass the audit: ${wrong.join(', ')}.`}
${none.length === 0 ? '' : `\nWithout a plan:\n\n${none.join('\n')}\n`}`;
}

function cases(folder: string): Case[] {
  const meals = readdirSync('problems')
    .filter((name) => name.endsWith('.yaml'))
    .sort()
    .map((name) => ({ name: name.replace(/\.yaml$/, ''), file: join('problems', name), generated: false }));
  const generated = SIZES.map((dishes) => {
    const file = join(folder, `${dishes}.yaml`);
    writeFileSync(file, banquet(dishes));
    return { name: `${dishes} dishes`, file, generated: true };
  });
  return [...meals, ...generated];
}

function main(): void {
  const { only } = parseArgs({ options: { only: { type: 'string' } } }).values;
  const load = loadavg()[0]!;
  const folder = mkdtempSync(join(tmpdir(), 'hearthtable-bench-'));
  try {
    const chosen = cases(folder).filter(({ name }) => only === undefined || name.includes(only));
    if (chosen.length === 0) throw new Error(`no case has ${only} in its name`);
    const rows = chosen.map((one): Row => {
      const measured = measure(one.file);
      const { first, planned, points, memory } = measured;
      process.stderr.write(
        `${one.name}: first ${seconds(first)} s, final ${seconds(planned)} s, ${points ?? 'no'} points, ${megabytes(memory)} MB\n`,
      );
      return { ...one, measured };
    });
    if (only === undefined) {
      const firsts = chosen.filter(({ name }) => TEN.includes(name)).map(measureFirst);
      writePart('How long planning takes', report(rows, measureCommand(), firsts, load));
    } else process.stdout.write(`${mealTable(rows)}\n`);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

main();
