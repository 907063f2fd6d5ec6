/** What came of it, as lines and as a part of RESULTS.md. */
import { circumstances, table } from '../results.js';
import type { PeerResult } from './peer.js';

/** What `ours.mjs` prints; milliseconds. */
export interface Ours {
  readonly dishes: number;
  readonly steps: number;
  readonly points: number | null;
  readonly bound: number | null;
  readonly violations: number;
  readonly first: number;
  readonly warm: number;
  /** Until the points of the plan were found; what comes after is the proof, or a search in vain. */
  readonly found: number;
  /** Better and better points on the way there, and when each was found. */
  readonly way: readonly { readonly points: number; readonly ms: number }[];
  /** With other seeds, once each. */
  readonly others: readonly Pick<Ours, 'points' | 'bound' | 'violations' | 'found' | 'way'>[];
}

export interface Row {
  readonly name: string;
  readonly ours: Ours;
  readonly peer: Omit<PeerResult, 'plan'>;
  /** Faults of CP-SAT's plan: what the audit finds, and points that differ. */
  readonly wrong: number;
}

/** Points are given to 0.01, and both sides round. */
const SLACK = 0.011;
/** Milliseconds that are quick enough in any case. */
const QUICK = 200;

const points = (value: number | null): string => (value === null ? '-' : value.toFixed(2));
const seconds = (value: number | null): string => (value === null ? '-' : value.toFixed(2));

/** By how much ours is worse than CP-SAT's: points; null where one of them has no plan. */
function worse({ ours, peer }: Row): number | null {
  return ours.points === null || peer.points === null ? null : ours.points - peer.points;
}

/** Ours is as good: no worse, or neither found a plan. */
function isEqual(row: Row): boolean {
  const more = worse(row);
  return more === null ? row.peer.points === null : more <= SLACK;
}

function isClose(row: Row): boolean {
  const more = worse(row);
  return isEqual(row) || (more !== null && more <= 0.02 * row.peer.points!);
}

/** Milliseconds in which ours has to be there. */
const enough = ({ peer }: Row): number => Math.max(QUICK, 100 * (peer.foundAt ?? peer.seconds));

/** Milliseconds until ours was as good as CP-SAT's best, whatever it found later; its own last where it never was. */
function asGoodAt({ ours, peer }: Row): number {
  const { points } = peer;
  if (points === null) return ours.found;
  return ours.way.find((one) => one.points <= points + SLACK)?.ms ?? ours.found;
}

const isQuick = (row: Row): boolean => asGoodAt(row) <= enough(row);

const isGood = (row: Row): boolean => isEqual(row) && isQuick(row);

/** The meal with each of the seeds. */
const bySeed = (row: Row): Row[] => [
  row,
  ...row.ours.others.map((other) => ({ ...row, ours: { ...row.ours, ...other } })),
];

const endsQuickly = (row: Row): boolean => row.ours.warm <= enough(row);

/** Shows that something is wrong with one of the two models. */
function contradicts({ ours, peer }: Row): boolean {
  if (ours.points === null) return false;
  return peer.status === 'none' || ours.points < peer.bound - SLACK;
}

function difference(row: Row): string {
  const more = worse(row);
  if (more === null) return isEqual(row) ? 'none' : '-';
  return Math.abs(more) <= SLACK ? '=' : `${more > 0 ? '+' : ''}${more.toFixed(2)}`;
}

const share = (rows: readonly Row[], test: (row: Row) => boolean): string =>
  `${rows.filter(test).length} of ${rows.length}`;

export function rowLine(row: Row): string {
  const { name, ours, peer, wrong } = row;
  const flag = [wrong > 0 ? `${wrong} faults` : '', contradicts(row) ? 'contradiction' : ''].filter(
    (one) => one !== '',
  );
  return [
    `${name}: ours ${points(ours.points)} as good at ${asGoodAt(row).toFixed(0)}, found at ${ours.found.toFixed(0)} of ${ours.warm.toFixed(0)} ms (first ${ours.first.toFixed(0)})`,
    `CP-SAT ${points(peer.points)} (${peer.status}), at least ${points(peer.bound)}, found at ${seconds(peer.foundAt)} s of ${seconds(peer.seconds)}`,
    difference(row),
    ...flag,
  ].join('; ');
}

function rowsTable(rows: readonly Row[]): string {
  const head = [
    'meal',
    'dishes',
    'steps',
    'ours',
    'as good at, ms',
    'found at, ms',
    'ended at, ms',
    'first, ms',
    'CP-SAT',
    'bound',
    'found at, s',
    'ended at, s',
    'gap, %',
    'ours beside',
    'good seeds',
  ];
  return table(
    head,
    rows.map((row) => {
      const { name, ours, peer } = row;
      const gap =
        peer.points === null ? '-' : ((100 * (peer.points - peer.bound)) / Math.max(peer.points, 0.01)).toFixed(1);
      const asGood = isEqual(row) ? asGoodAt(row).toFixed(0) : '-';
      const times = [ours.found, ours.warm, ours.first].map((ms) => ms.toFixed(0));
      const bound = peer.status === 'none' ? 'no plan' : points(peer.bound);
      return [
        name,
        ours.dishes,
        ours.steps,
        points(ours.points),
        asGood,
        ...times,
        points(peer.points),
        bound,
        seconds(peer.foundAt),
        seconds(peer.seconds),
        gap,
        difference(row),
        share(bySeed(row), isGood),
      ];
    }),
  );
}

interface About {
  readonly seconds: number;
  readonly load: number;
  readonly version: string;
}

export function report(rows: readonly Row[], about: About): string {
  const runs = rows.flatMap(bySeed);
  const proven = rows.filter(({ peer }) => peer.status === 'best' || peer.status === 'none').length;
  const isWrong = (row: Row): boolean => row.wrong > 0 || row.ours.violations > 0 || contradicts(row);
  const faults = [...new Set(runs.filter(isWrong).map(({ name }) => name))];
  const aims = [
    ['as good as CP-SAT', '90 %', share(rows, isEqual)],
    ['at most 2 % worse', 'all', share(rows, isClose)],
    ['in a tenth of the time in which CP-SAT found its best, or 0.2 s', 'all', share(rows, isQuick)],
    ['as good, and so in that time', '90 %', share(rows, isGood)],
    ['of runs with five seeds: as good', '', share(runs, isEqual)],
    ['of runs with five seeds: at most 2 % worse', '', share(runs, isClose)],
    ['of runs with five seeds: as good, and so in that time', '', share(runs, isGood)],
    ['ended in that time, with the proof or a search in vain', '', share(rows, endsQuickly)],
  ];
  return `Written by \`npm run bench:peers\`, which measures anew.

${circumstances(about.load)}
- CP-SAT: the npm package or-tools-wasm ${about.version}, which runs one thread here, for at most ${about.seconds} s a meal

Both solve the same compiled meal for the same points, and both plans are judged by the audit. Ours is at normal effort with seed 1; times
are by the clock, the first in a fresh process and the others the middle of five more: until it was as good as CP-SAT's best, until its own points were
found, and until it ended. "Good seeds" are those of the seeds 1 to 5, the last four run once each, with which it is as good as CP-SAT's best, and was so in a tenth of the time
in which CP-SAT found it, or in 0.2 s. Where nothing
fits, found is when that is known, without the reasons and ways out, which CP-SAT does not look for. Its times begin with the building of its program;
loading it is left out. It starts from nothing: it is given no plan of ours, and nothing is kept between runs. Its program is exact: first within
limits (no course late, at most six runs of an appliance), which are widened until no plan beyond them can be better; where loads
cannot keep their spots over time, that overlap is forbidden and the program solved again. "Bound" is proven by CP-SAT; it proved its result for ${proven} of ${rows.length} meals.

## Aims

${table(['what', 'aim', 'measured'], aims)}

## Meal by meal

The last column but one is ours less CP-SAT's, in points; \`=\` is the same, \`none\` that neither found a plan (where the bound says
\`no plan\`, it is proven that there is none).

${rowsTable(rows)}

${faults.length === 0 ? 'Every plan passed the audit, and no bound lies above a plan.' : `Faults: ${faults.join(', ')}.`}`;
}
