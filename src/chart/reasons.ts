/**
 * Why a step stands where it stands: what it waits for and what waits for it, read from the rows of the plan. A reason is
 * tight when there is no minute to spare, so that moving one moves the other.
 */

import type { WhyLink, WhySide } from '../plan/why-document.js';
import { showHeat } from '../problem/degrees.js';
import { showMinutes } from '../units/show.js';
import { clean } from './text.js';
import type { View, ViewStep } from './view.js';
import { costWords, lettered, whyOfStep } from './why-lines.js';

export interface Reason {
  readonly say: string;
  /** Minutes between the two. */
  readonly slack: number;
  readonly tight: boolean;
  /** Index into `View.steps` of the step it speaks of, or null. */
  readonly step: number | null;
}

export interface Reasons {
  readonly waitsFor: readonly Reason[];
  readonly waitsForIt: readonly Reason[];
}

const reason = (say: string, slack: number, step: number | null = null): Reason => ({
  say,
  slack,
  tight: slack === 0,
  step,
});

/** Minutes beyond which a neighbour on the same place or of the same cook explains nothing. */
const FAR = 30;

/** What holds a step where it is, as it was found by timing the plan anew; null where that was not asked for. */
export interface Held {
  readonly sooner: readonly Reason[];
  readonly later: readonly Reason[];
}

export function heldOf(view: View, index: number): Held | null {
  const why = whyOfStep(view, view.steps[index]!);
  if (why === null) return null;
  const reasons = (side: WhySide, way: 'sooner' | 'later'): Reason[] => {
    if (side.free > 0) return [reason(costWords(side, way), side.free)];
    const [first, ...others] = side.chain;
    if (first === undefined) return [reason(costWords(side, way), 0)];
    const stepOf = ({ dish, step }: WhyLink): number | null =>
      view.steps.find((each) => each.row.dish === dish && each.row.step === step)?.index ?? null;
    const cost = side.points === null ? '' : ` (${costWords(side, way)})`;
    return [
      reason(`${lettered(view, first.say)}${cost}`, 0, stepOf(first)),
      ...others.map((link) => reason(lettered(view, link.say), 0, stepOf(link))),
    ];
  };
  return { sooner: reasons(why.sooner, 'sooner'), later: reasons(why.later, 'later') };
}

/** Tight ones first, each list without two reasons about one step. */
export function reasonsOf(view: View, index: number): Reasons {
  const step = view.steps[index];
  if (!step) throw new RangeError(`no step ${index}`);
  return {
    waitsFor: arranged([...predecessors(view, step), ...heatBefore(view, step), ...neighbours(view, step, -1)]),
    waitsForIt: arranged([...successors(view, step), ...heatAfter(view, step), ...neighbours(view, step, 1)]),
  };
}

function arranged(reasons: readonly Reason[]): Reason[] {
  const once = reasons.filter(
    (each, index) => each.step === null || reasons.findIndex((other) => other.step === each.step) === index,
  );
  return once.sort((a, b) => Number(b.tight) - Number(a.tight) || a.slack - b.slack);
}

const named = (view: View, step: ViewStep) => `${view.dishes[step.dish]!.letter} ${step.name}`;
const after = (slack: number) => (slack === 0 ? 'right after' : `${showMinutes(slack)} after`);
const before = (slack: number) => (slack === 0 ? 'right before' : `${showMinutes(slack)} before`);

function allowed(low: number, high: number): string {
  if (low === 0 && high === Number.POSITIVE_INFINITY) return '';
  if (high === Number.POSITIVE_INFINITY) return ` (at least ${showMinutes(low)})`;
  return low === high ? ` (exactly ${showMinutes(low)})` : ` (${low}–${showMinutes(high)})`;
}

function rowOf(view: View, id: number): ViewStep | undefined {
  return view.steps.find((step) => step.id === id);
}

function predecessors(view: View, step: ViewStep): Reason[] {
  if (step.id === null) return holdsOf(view, step, -1);
  return view.problem.steps[step.id]!.after.flatMap((link) => {
    const row = rowOf(view, link.step);
    if (!row) return [];
    const slack = step.from - row.to;
    const told = `${after(slack)} ${named(view, row)}${allowed(link.gap.low, link.gap.high)}`;
    return [{ ...reason(told, slack, row.index), tight: slack === link.gap.low || slack === link.gap.high }];
  });
}

function successors(view: View, step: ViewStep): Reason[] {
  const reasons = view.steps.flatMap((row) => {
    const link = row.id === null ? undefined : view.problem.steps[row.id]!.after.find((each) => each.step === step.id);
    if (!link || step.id === null) return [];
    const slack = row.from - step.to;
    const told = `${before(slack)} ${named(view, row)}${allowed(link.gap.low, link.gap.high)}`;
    return [{ ...reason(told, slack, row.index), tight: slack === link.gap.low || slack === link.gap.high }];
  });
  if (reasons.length > 0) return reasons;
  const held = holdsOf(view, step, 1);
  const serve = view.dishes[step.dish]!.serve;
  if (held.length > 0 || serve === null) return held;
  const landing = view.landings.find((each) => each.at === serve);
  return [reason(`${before(serve - step.to)} ${landing?.name ?? 'the course'} is served`, serve - step.to)];
}

/** A hold stands between a dish's last step and its landing, without a link in the file. */
function holdsOf(view: View, step: ViewStep, side: -1 | 1): Reason[] {
  const rows = view.steps.filter((row) => row.dish === step.dish && (row.id === null) !== (step.id === null));
  const ordered = rows.filter((row) => (side === 1 ? row.from >= step.to : row.to <= step.from));
  const row = side === 1 ? ordered[0] : ordered.sort((a, b) => a.to - b.to).at(-1);
  if (!row) return [];
  const slack = side === 1 ? row.from - step.to : step.from - row.to;
  return [reason(`${side === 1 ? before(slack) : after(slack)} ${named(view, row)}`, slack, row.index)];
}

const degrees = (view: View, appliance: number, celsius: number) =>
  showHeat(view.problem, celsius, view.problem.kitchen.appliances[appliance]!.dial.unit);

function heatBefore(view: View, step: ViewStep): Reason[] {
  const run = view.runs.find(
    (each) => each.appliance === step.appliance && each.from <= step.from && each.to >= step.to,
  );
  if (!run || step.appliance === null) return [];
  const name = view.applianceNames[run.appliance];
  const slack = step.from - run.from;
  const earlier = view.runs.filter((each) => each.appliance === run.appliance && each.to <= run.from).at(-1);
  const from = earlier ? degrees(view, run.appliance, earlier.row.celsius) : 'the cold';
  const change = run.row.changeover > 0 ? `, ${showMinutes(run.row.changeover)} from ${from}` : '';
  if (slack > FAR) return [];
  return [reason(`${after(slack)} the ${name} is at ${degrees(view, run.appliance, run.row.celsius)}${change}`, slack)];
}

function heatAfter(view: View, step: ViewStep): Reason[] {
  const next = view.runs
    .filter((run) => run.appliance === step.appliance && run.from >= step.to)
    .sort((a, b) => a.from - b.from)[0];
  const slack = next ? next.ready - step.to : FAR + 1;
  if (!next || slack > FAR) return [];
  const name = view.applianceNames[next.appliance];
  const heat = degrees(view, next.appliance, next.row.celsius);
  return [reason(`${before(slack)} the ${name} changes to ${heat}`, slack)];
}

/** The nearest step on the same place, with the same pan, and of each of its cooks. */
function neighbours(view: View, step: ViewStep, side: -1 | 1): Reason[] {
  const others = view.steps.filter((row) => row.index !== step.index);
  const gap = (from: number, to: number) => (side === -1 ? step.from - to : from - step.to);
  const nearest = <T>(all: readonly T[], slack: (each: T) => number): T | undefined =>
    all.filter((each) => slack(each) >= 0 && slack(each) <= FAR).sort((a, b) => slack(a) - slack(b))[0];
  const word = side === -1 ? after : before;
  const reasons: Reason[] = [];

  const sharing = others.filter(
    (row) => row.appliance === step.appliance && row.places.some((place) => step.places.includes(place)),
  );
  const place = nearest(sharing, (row) => gap(row.from, row.to));
  if (place) {
    const slack = gap(place.from, place.to);
    const where = place.places.find((each) => step.places.includes(each));
    reasons.push(reason(`${word(slack)} ${named(view, place)} on ${clean(where ?? '')}`, slack, place.index));
  }
  const panned = others.filter(
    (row) => step.row.pan !== null && row.row.pan === step.row.pan && row.dish !== step.dish,
  );
  const pan = nearest(panned, (row) => gap(row.from, row.to));
  if (pan && step.row.pan !== null) {
    const slack = gap(pan.from, pan.to);
    reasons.push(reason(`${word(slack)} ${named(view, pan)} with the ${clean(step.row.pan)}`, slack, pan.index));
  }
  reasons.push(...cookNeighbours(view, step, side));
  return reasons;
}

function cookNeighbours(view: View, step: ViewStep, side: -1 | 1): Reason[] {
  return [...new Set(step.hands.map((hand) => hand.cook))].flatMap((cook) => {
    const own = step.hands.filter((hand) => hand.cook === cook);
    const edge = side === -1 ? Math.min(...own.map((hand) => hand.from)) : Math.max(...own.map((hand) => hand.to));
    const slackOf = (hand: { from: number; to: number }) => (side === -1 ? edge - hand.to : hand.from - edge);
    const nearest = view.steps
      .filter((row) => row.index !== step.index)
      .flatMap((row) => row.hands.filter((hand) => hand.cook === cook).map((hand) => ({ row, slack: slackOf(hand) })))
      .filter(({ slack }) => slack >= 0 && slack <= FAR)
      .sort((a, b) => a.slack - b.slack)[0];
    if (!nearest) return [];
    const hands = `${view.cookNames[cook]}'s hands on ${named(view, nearest.row)}`;
    return [
      reason(
        `${side === -1 ? after(nearest.slack) : before(nearest.slack)} ${hands}`,
        nearest.slack,
        nearest.row.index,
      ),
    ];
  });
}
