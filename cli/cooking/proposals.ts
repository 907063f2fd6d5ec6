/** New plans as they are offered to the cook: asked for when something has happened, taken, left, or overtaken by what happens next. */
import { happenedOf } from '../../src/live/journal/day.js';
import type { Entry } from '../../src/live/journal/entries.js';
import { isRefusal, type Refusal, refuse } from '../../src/live/journal/names.js';
import { expectedEnds } from '../../src/live/readings/core-now.js';
import { showMinutes } from '../../src/units/show.js';
import { kept } from '../journal/open-day.js';
import type { Desk } from './desk.js';
import type { Answer } from './new-plan.js';
import { type Planner, plannerFor } from './planner.js';

export interface Proposals {
  /** What is offered; its plan is null where there is none, and it says why. */
  readonly current: () => Answer | null;
  readonly thinking: () => boolean;
  /** Whether new plans are taken at once. */
  readonly atOnce: () => boolean;
  readonly setAtOnce: (atOnce: boolean) => void;
  /** Asks again, whatever was left before. */
  readonly ask: () => void;
  readonly take: () => readonly Entry[] | Refusal;
  readonly leave: () => void;
  /** To be called as time goes on: what runs late is a reason to plan anew. */
  readonly look: () => void;
  readonly listen: (changed: () => void) => () => void;
  readonly close: () => void;
}

/** Entries that leave what is to be done as it is. */
const QUIET: ReadonlySet<Entry['kind']> = new Set(['begin', 'plan', 'heeded', 'note', 'undo']);
/** Minutes late from which a plan is looked at anew, and between two such looks. */
const LATE = 3;
const BETWEEN = 3;
/** Minutes after serving from which on that day is over, whatever was left undone. */
const PAST = 24 * 60;

export function proposalsFor(desk: Desk, atOnceFirst: boolean): Proposals {
  const listeners = new Set<() => void>();
  let atOnce = atOnceFirst;
  let offered: Answer | null = null;
  let left: string | null = null;
  let thinking = false;
  let askedAt = Number.NEGATIVE_INFINITY;
  let known = factsOf(desk);
  const tell = (): void => {
    for (const changed of listeners) changed();
  };
  const planner: Planner = plannerFor(
    (answer) => {
      thinking = false;
      offered = isWorthSaying(answer) && wordsOf(answer) !== left ? answer : null;
      // Whether a dish is given up is never settled unasked.
      if (offered?.plan && atOnce && offered.leftOut.length === 0) take();
      tell();
    },
    (fault) => {
      thinking = false;
      offered = { plan: null, changes: [], say: [`No new plan, by a fault of ours: ${fault}`], leftOut: [] };
      tell();
    },
  );

  function ask(): void {
    const day = desk.day();
    if (day.plan === null || desk.closed() !== null) return;
    const { now, cores } = desk.state();
    const read = cores.filter(({ readings }) => readings > 0);
    askedAt = now;
    if (now > day.serve + PAST) {
      const say = `Serving was ${showMinutes(now - day.serve)} ago: nothing is planned anew for that day.`;
      const none = { plan: null, changes: [], say: [say, 'A rehearsal is begun by --at.'], leftOut: [] };
      offered = wordsOf(none) === left ? null : none;
      return;
    }
    thinking = true;
    offered = null;
    planner.ask({
      thorough: factsOf(desk).told === '' && hasTime(desk),
      problem: day.problem,
      plan: day.plan,
      happened: happenedOf(day, now),
      expected: expectedEnds(read, now),
    });
  }

  function take(): readonly Entry[] | Refusal {
    if (!offered?.plan) return refuse('There is no new plan to take.');
    const { plan, say } = offered;
    const made = desk.note([{ kind: 'plan', plan: kept(plan), say: [...say] }], 0);
    if (!isRefusal(made)) offered = null;
    return made;
  }

  const deaf = desk.listen(() => {
    const facts = factsOf(desk);
    if (facts.plan !== known.plan) offered = null;
    if (facts.told !== known.told) {
      left = null;
      ask();
    }
    known = facts;
    tell();
  });
  // A plan that was made beforehand has no room for what may take longer.
  if (factsOf(desk).plans <= 1) ask();

  return {
    current: () => offered,
    thinking: () => thinking,
    atOnce: () => atOnce,
    setAtOnce: (wanted) => {
      atOnce = wanted;
      if (wanted && offered?.plan && offered.leftOut.length === 0) take();
    },
    ask: () => {
      left = null;
      ask();
    },
    take,
    leave: () => {
      if (offered) left = wordsOf(offered);
      offered = null;
    },
    look: () => {
      if (!thinking && desk.minute() - askedAt >= BETWEEN && runsLate(desk)) ask();
    },
    listen: (changed) => {
      listeners.add(changed);
      return () => void listeners.delete(changed);
    },
    close: () => {
      deaf();
      planner.close();
    },
  };
}

/** What has happened, and which plan is in force, as far as it is known again. */
function factsOf(desk: Desk): { readonly told: string; readonly plan: number; readonly plans: number } {
  const entries = desk.inForce();
  const plans = entries.filter(({ kind }) => kind === 'plan');
  return {
    told: entries.flatMap(({ kind, seq }) => (QUIET.has(kind) ? [] : [seq])).join(),
    plan: plans.at(-1)?.seq ?? 0,
    plans: plans.length,
  };
}

const runsLate = (desk: Desk): boolean =>
  desk.state().steps.some(({ standing, late }) => standing !== 'dropped' && late >= LATE);

/** Nothing should have begun by now. */
const hasTime = (desk: Desk): boolean =>
  desk.state().steps.every(({ start }) => start === null || start > desk.minute());

/** A step under way that ends some minutes sooner or later, and nothing else, is no new plan. */
const isWorthSaying = ({ plan, changes, leftOut }: Answer): boolean =>
  plan === null || leftOut.length > 0 || changes.some(({ kind }) => kind !== 'end');

/** By this an offer that was left is known again; that there is no plan is told once, until something happens. */
const wordsOf = ({ plan, say }: Answer): string => (plan === null ? 'no plan' : say.join(' '));
