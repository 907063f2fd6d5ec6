/**
 * Sets published roasting times beside the model's and writes its part of RESULTS.md. `--data FILE` prints the table for another file
 * of the same form as tests/published/roasting-times.json instead, `--json` prints data, `--fit` looks for the model's three figures again.
 */
import { readFileSync } from 'node:fs';
import { loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { CALIBRATION } from '../../src/heat/calibration.js';
import { FOODS } from '../../src/heat/composition.js';
import { answersTo, type Question } from '../../src/heat/roast.js';
import {
  BEEF_TIMES,
  bestFigures,
  FITTED,
  FITTED_RISES,
  HELD_OUT,
  HELD_OUT_RISES,
  misfit,
  TIMES,
} from '../support/fit.js';
import { coreAfter, PRACTICE, type Rise } from '../support/rises.js';
import { isMet, isMetOverRow, minutesOf, offBy, type Row, type Trial, trialOf } from '../support/timetable.js';
import { whyOff } from '../support/why.js';
import { circumstances, median, table, writePart } from './results.js';

/** A trial and what came of it. */
interface Outcome {
  readonly trial: Trial;
  readonly minutes: number;
  /** Part by which it lies outside of the published span. */
  readonly off: number;
  readonly met: boolean;
  readonly metOverRow: boolean;
}

interface Summary {
  readonly rows: number;
  readonly met: number;
  readonly metOverRow: number;
  /** Off by more than a quarter. */
  readonly far: number;
  readonly worst: number;
}

function outcomeOf(trial: Trial): Outcome {
  const minutes = minutesOf(trial);
  const [met, metOverRow] = [isMet(trial, minutes), isMetOverRow(trial, minutes)];
  return { trial, minutes, off: offBy(trial, minutes), met, metOverRow };
}

function summaryOf(outcomes: readonly Outcome[]): Summary {
  const count = (test: (outcome: Outcome) => boolean): number => outcomes.filter(test).length;
  return {
    rows: outcomes.length,
    met: count(({ met }) => met),
    metOverRow: count(({ metOverRow }) => metOverRow),
    far: count(({ off }) => Math.abs(off) > 0.25),
    worst: Math.max(0, ...outcomes.map(({ off }) => Math.abs(off))),
  };
}

const percent = (part: number): string => `${Math.round(100 * part)} %`;
const signed = (part: number): string => (part === 0 ? 'in' : `${part > 0 ? '+' : '-'}${percent(Math.abs(part))}`);

const HEAD = ['cut', 'kg', 'oven', 'core', 'published', 'model', 'off', 'where not met'] as const;

const tableOf = (outcomes: readonly Outcome[]): string =>
  table(
    HEAD,
    outcomes.map(({ trial, minutes, off, met }) => [
      `${trial.row.species}: ${trial.row.cut}`,
      trial.weight.toFixed(1),
      `${trial.oven.toFixed(0)} °C`,
      `${trial.core.toFixed(0)} °C`,
      `${trial.low.toFixed(0)} to ${trial.high.toFixed(0)}`,
      Number.isFinite(minutes) ? minutes.toFixed(0) : 'never',
      signed(off),
      met ? '' : whyOff(trial.row),
    ]),
  );

const inWords = ({ rows, met, metOverRow, far, worst }: Summary): string =>
  `${met} of ${rows} rows (${percent(met / Math.max(rows, 1))}) are within the published minutes widened by 10 %, ${far} off by more than
25 %, the worst by ${percent(worst)}. Against the minutes of a whole row, lightest to heaviest piece, ${metOverRow} of ${rows} (${percent(metOverRow / Math.max(rows, 1))}).`;

/** Why rows are no trials, and how many. */
function leftOutOf(rows: readonly Row[]): string {
  const reasons = new Map<string, number>();
  for (const row of rows) {
    const trial = trialOf(row);
    if (typeof trial === 'string') reasons.set(trial, (reasons.get(trial) ?? 0) + 1);
  }
  return [...reasons].map(([why, count]) => `${count} (${why})`).join(', ') || 'none';
}

function rises(list: readonly Rise[], fitted: boolean): (string | number)[][] {
  return list.map((rise) => {
    const core = coreAfter(rise);
    const span = rise.low === rise.high ? rise.low.toFixed(1) : `${rise.low.toFixed(1)} to ${rise.high.toFixed(1)}`;
    return [
      rise.cut,
      `${rise.oven.toFixed(0)} °C`,
      rise.pull.toFixed(1),
      rise.minutes,
      span,
      core.toFixed(1),
      fitted ? 'yes' : '',
    ];
  });
}

/** Milliseconds of processor time for a table of 20 temperatures, warm, the middle of many. */
function speedOf(shape: 'cylinder' | 'sphere' | 'brick'): number {
  const thickness = 0.11;
  const body =
    shape === 'cylinder'
      ? ({ shape, thickness, length: 0.26 } as const)
      : shape === 'sphere'
        ? ({ shape, thickness } as const)
        : ({ shape, thickness, width: 0.14, length: 0.2 } as const);
  const question: Question = {
    joint: { food: FOODS.pork, body, from: 4, bone: false, crust: 0 },
    before: [{ around: { kind: 'sear', celsius: 260, on: 'grate', turns: 'sides' }, minutes: 10 }],
    heat: (celsius) => ({ kind: 'air', celsius, moving: 'still', on: 'grate' }),
    celsius: Array.from({ length: 20 }, (_, i) => 125 + 5 * i),
    goal: { target: 60 },
    moving: 2,
    rest: { around: { kind: 'room', celsius: 21, covered: true }, minutes: 25 },
  };
  const times = Array.from({ length: 25 }, () => {
    const begun = process.cpuUsage();
    answersTo(question);
    const { user, system } = process.cpuUsage(begun);
    return (user + system) / 1000;
  });
  return median(times.slice(5), (time) => time);
}

function part(load: number, heldOut: readonly Outcome[], fitted: readonly Outcome[], beef: readonly Outcome[]): string {
  const { vapour, wets, bird } = CALIBRATION;
  const speeds = (['cylinder', 'sphere', 'brick'] as const).map((shape) => [shape, speedOf(shape).toFixed(1)]);
  return `Written by \`npm run bench:roasting\`, which reckons anew.

${circumstances(load)}

Three figures were fitted (\`--fit\`): vapour in an oven of 165 °C ${vapour / 1000} kPa, ${wets} of the juice that is pressed out wets the surface,
a whole bird as a ball ${bird} times as thick as the solid ball of its weight. The rows for that are the first, fourth, seventh and so on
of all different rows of roasting times and of rises, in the order of their files; the others had no say. What is common practice for the rise
of a large roast (the last table) counted with them, a degree beyond its span as any other degree. The shapes of cuts (\`tests/support/cuts.ts\`) were
written down first. Corrected later: the standing rib and the leg of lamb, from their sources, when the fitted rows showed them wrong; the eye of
round, to which nothing is fitted, by the same reasoning as half a tenderloin (a part of a muscle is as thick as the whole); the crown roast, whose
inside sees little of the oven; the rack of veal, by what a double rack weighs; a leg without its bone, which keeps a leg's proportions.
A piece has the middle weight of its row, begins at 4.4 °C and roasts on a rack in a still oven up to the core temperature.

## Held out

${inWords(summaryOf(heldOut))}

${tableOf(heldOut)}

Left out: ${leftOutOf(TIMES)}.

## Another timetable

Of the US beef industry; nothing was fitted to it. ${inWords(summaryOf(beef))}

${tableOf(beef)}

## Fitted

${inWords(summaryOf(fitted))}

${tableOf(fitted)}

## Rises after the oven

Published for 10 to 30 minutes of standing; the model stands in the open, at 21 °C.

${table(['cut', 'oven', 'out at, °C', 'min', 'published, °C', 'model, °C', 'fitted'], [...rises(FITTED_RISES, true), ...rises(HELD_OUT_RISES, false), ...rises(PRACTICE, true)])}

## Speed

A piece's minutes, pulls, peaks and spreads at 20 temperatures, seared before and rested after, warm; milliseconds of
processor time, the aim is less than 20.

${table(['shape', 'ms'], speeds)}
`;
}

const { values } = parseArgs({
  options: { data: { type: 'string' }, json: { type: 'boolean' }, fit: { type: 'boolean' } },
});

const dataOf = ({ trial, ...rest }: Outcome): object => {
  const { row, weight, oven, core, low, high } = trial;
  return { species: row.species, cut: row.cut, weight, oven, core, low, high, ...rest };
};

function compare(file: string): void {
  const { records } = JSON.parse(readFileSync(file, 'utf8')) as { records: Row[] };
  const outcomes = records.map(trialOf).flatMap((trial) => (typeof trial === 'string' ? [] : [outcomeOf(trial)]));
  if (values.json) {
    console.log(JSON.stringify({ summary: summaryOf(outcomes), rows: outcomes.map(dataOf) }, null, 2));
    return;
  }
  console.log(`${tableOf(outcomes)}\n\n${inWords(summaryOf(outcomes))}\nLeft out: ${leftOutOf(records)}.`);
}

function main(): void {
  if (values.data !== undefined) {
    compare(values.data);
    return;
  }
  if (values.fit) {
    const calibration = bestFigures();
    console.log(JSON.stringify({ calibration, misfit: misfit(calibration), now: CALIBRATION }, null, 2));
    return;
  }
  const load = loadavg()[0]!;
  const heldOut = HELD_OUT.map(outcomeOf);
  const fitted = FITTED.map(outcomeOf);
  const beef = BEEF_TIMES.map(trialOf).flatMap((trial) => (typeof trial === 'string' ? [] : [outcomeOf(trial)]));
  if (values.json) {
    const sets = { heldOut, beef, fitted };
    const data = Object.entries(sets).map(([name, outcomes]) => [
      name,
      { summary: summaryOf(outcomes), rows: outcomes.map(dataOf) },
    ]);
    console.log(JSON.stringify({ calibration: CALIBRATION, ...Object.fromEntries(data) }, null, 2));
    return;
  }
  const body = part(load, heldOut, fitted, beef);
  writePart('Roasting times', body);
  console.log(body);
}

main();
