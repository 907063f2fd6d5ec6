/** The measurements as tables and as data. */
import { circumstances, table } from '../results.js';
import type { Trial } from './family.js';
import { maxGap, meanGap, meanOverPath, optimal, proved, reached } from './figures.js';
import type { Measured } from './measure.js';

const percent = (value: number | null): string => (value === null ? '-' : value.toFixed(3));
const faulty = (trials: readonly Trial[]): Trial[] => trials.filter(({ faults }) => faults.length > 0);
const secondsOf = (trials: readonly Trial[]): number => trials.reduce((sum, { seconds }) => sum + seconds, 0);
const better = ({ value, instance: { upper } }: Trial): boolean => value !== null && upper !== null && value < upper;

const HEAD = [
  'set',
  'engine',
  'schedules',
  'instances',
  'solved',
  'mean gap, %',
  'max gap, %',
  'over the critical path, %',
  'best known or better',
  'optimal',
  'proved',
  'seconds',
];

function row({ set, engine, schedules, instances, trials }: Measured): (string | number)[] {
  if (engine === null) return [set, 'not yet', '', instances, '', '', '', '', '', '', '', ''];
  const solved = trials.filter(({ value }) => value !== null).length;
  const gaps = [meanGap(trials), maxGap(trials), meanOverPath(trials)].map(percent);
  const counts = [reached(trials), optimal(trials), proved(trials), secondsOf(trials).toFixed(1)];
  return [set, engine, schedules, instances, solved, ...gaps, ...counts];
}

/** Of a set and of each of its parts. */
function rowsOf(one: Measured): (string | number)[][] {
  const parts = one.parts.map(({ part, trials }) => ({
    ...one,
    set: `${one.set}, ${part}`,
    instances: trials.length,
    trials,
  }));
  return [one, ...parts].map(row);
}

function aimsOf(measured: readonly Measured[]): (string | number)[][] {
  return measured.flatMap(({ set, engine, schedules, aims }) =>
    aims.map(({ what, aim, measured, met }) => [`${set}: ${what}`, engine ?? '', schedules, aim, measured, met]),
  );
}

/** Everything that deserves a word: faults, and values better than the best known. */
function remarks(measured: readonly Measured[]): string[] {
  return measured.flatMap(({ set, engine, schedules, trials }) => [
    ...faulty(trials).map(({ instance, faults }) => {
      const more = faults.length > 2 ? ` (and ${faults.length - 2} more)` : '';
      return `FAULT ${set} ${instance.name}, ${engine}, ${schedules}: ${faults.slice(0, 2).join('; ')}${more}`;
    }),
    ...trials.filter(better).map(({ instance, value }) => {
      return `better than the best known: ${set} ${instance.name}, ${value} instead of ${instance.upper} (${engine}, ${schedules})`;
    }),
  ]);
}

export function hasFaults(measured: readonly Measured[]): boolean {
  return measured.some(({ trials }) => faulty(trials).length > 0);
}

/** One line while it goes on. */
export function progress(one: Measured): string {
  const [set, engine, ...rest] = row(one);
  return `${set} | ${engine} | ${rest.join(' | ')}`;
}

/** The tables in Markdown. */
export function tablesOf(measured: readonly Measured[]): string {
  const aims = aimsOf(measured);
  const notes = remarks(measured);
  return `${table(HEAD, measured.flatMap(rowsOf))}
${aims.length === 0 ? '' : `\n${table(['aim', 'engine', 'schedules', 'aim', 'measured', 'met'], aims)}\n`}${notes.length === 0 ? '' : `\n${notes.map((note) => `- ${note}`).join('\n')}\n`}`;
}

export function part(measured: readonly Measured[], { load, seed }: { load: number; seed: number }): string {
  return `Written by \`npm run bench:open\`, which measures anew; seed ${seed}. The data is no part of the project (\`../shared/benchmarks\`, its README names
the sources); its bounds are used to compare after solving and for nothing else. Every schedule was judged by a checker that shares no code with
the engines.

${circumstances(load)}

A gap is how far a value lies above the best known one. "Schedules" is the most that an engine may make; each pass of schedule generation counts, those of
justification too, and an engine stops early where its value meets its own bound. "Optimal" counts values that equal a known optimum,
"proved" those that the engine itself proved, infeasible ones included. Seconds are of processor time, for the whole set.

${tablesOf(measured)}`;
}

/** Everything, instance by instance. */
export function dataOf(measured: readonly Measured[]): object {
  return measured.map(({ set, engine, schedules, instances, trials, aims }) => ({
    set,
    engine,
    schedules,
    instances,
    solved: trials.filter(({ value }) => value !== null).length,
    meanGap: meanGap(trials),
    maxGap: maxGap(trials),
    overCriticalPath: meanOverPath(trials),
    bestKnownOrBetter: reached(trials),
    optimal: optimal(trials),
    proved: proved(trials),
    seconds: secondsOf(trials),
    aims,
    trials: trials.map(({ instance: { name, status, lower, upper }, ...trial }) => {
      return { name, known: { status, lower, upper }, ...trial };
    }),
  }));
}
