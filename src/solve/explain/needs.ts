/** What of a clash of dishes it is that clashes: kinds of needs first, then single ones. */
import type { Model } from '../../kernel/model.js';
import type { State } from '../../kernel/state.js';
import type { Problem } from '../../problem/problem.js';
import { type Compiled, compile } from '../compile.js';
import { polish } from '../timing.js';
import type { Judge, Verdict } from './judge.js';
import { FAMILIES, type Family, loosened, type Need } from './loosen.js';

export interface Needs {
  readonly compiled: Compiled;
  /** Taking away any of these kinds lets the dishes go together; empty where none does. */
  readonly families: readonly Family[];
  /** The same of single needs; those of other families play no part. */
  readonly needs: readonly Need[];
  /** The dishes as they would be timed if these needs (of more kinds than gaps: gaps kept) were none; null where that is not enough. */
  readonly picture: State | null;
}

/** Added before the start and after the end, minutes. */
const AMPLE = 480;

/** The same meal with an earlier start and a later serving time by the clock. */
const withTime = (problem: Problem): Problem => ({
  ...problem,
  origin: problem.origin - AMPLE * 60_000,
  serve: problem.serve + 2 * AMPLE,
});

/** Whether dishes go together when some of their needs are taken away. */
class Looseness {
  readonly compiled: Compiled;
  private readonly ample: Model;

  constructor(
    private readonly problem: Problem,
    private readonly judge: Judge,
    /** Taken away in any case. */
    private readonly base: readonly Need[],
  ) {
    this.compiled = compile(problem);
    this.ample = compile(withTime(problem)).model;
  }

  fits(families: ReadonlySet<Family>, needs: readonly Need[]): boolean {
    return this.verdict(families, needs).kind === 'fits';
  }

  verdict(families: ReadonlySet<Family>, more: readonly Need[]): Verdict {
    const { judge, problem } = this;
    const needs = [...this.base, ...more];
    const usual = loosened(this.compiled.model, { families, needs });
    if (!families.has('clock')) return judge.ofModel(problem, usual);
    // What fits into less time fits into more, and is found sooner there.
    const ample = loosened(this.ample, { families, needs });
    if (judge.proves(problem, ample)) return { kind: 'never' };
    const verdict = judge.ofModel(problem, usual);
    return verdict.kind === 'fits' ? verdict : judge.ofModel(problem, ample);
  }
}

/** Clashes told at most, each with the things of those before it taken away. */
const MOST_CLASHES = 3;

/** What clashes, and what would clash even so if that were not scarce. At least one; the later ones have families. */
export function clashingNeeds(problem: Problem, judge: Judge): Needs[] {
  const found = [nextClash(problem, judge, [])];
  const solved: Need[] = [];
  while (found.length < MOST_CLASHES && !judge.over) {
    const last = found.at(-1)!;
    if (last.picture !== null || last.needs.length === 0) break;
    solved.push(...thingsOf(last.needs));
    const next = nextClash(problem, judge, solved);
    if (next.families.length === 0) break;
    found.push(next);
  }
  return found;
}

/** The needs that are not gaps, unless all are. */
function thingsOf(needs: readonly Need[]): readonly Need[] {
  const things = needs.filter((need) => need.family !== 'gap');
  return things.length > 0 ? things : needs;
}

function nextClash(problem: Problem, judge: Judge, base: readonly Need[]): Needs {
  const look = new Looseness(problem, judge, base);
  const { model } = look.compiled;
  const present = FAMILIES.filter((family) => family === 'clock' || needsOf(problem, model, family).length > 0);
  const away = new Set<Family>();
  for (const family of present) if (!look.fits(new Set([...away, family]), [])) away.add(family);
  const families = present.filter((family) => !away.has(family));
  const kinds = new Set(families.flatMap((family) => (PEOPLE.has(family) ? [family, 'hands' as const] : [family])));
  const candidates = FAMILIES.flatMap((family) =>
    family !== 'clock' && kinds.has(family) ? needsOf(problem, model, family) : [],
  );
  const loose: Need[] = [];
  for (const need of candidates) if (!look.fits(away, [...loose, need])) loose.push(need);
  const needs = candidates.filter((need) => !loose.includes(need));
  const verdict = look.verdict(new Set(), thingsOf(needs));
  return {
    compiled: look.compiled,
    families,
    needs,
    picture: verdict.kind === 'fits' ? pictureOf(look.compiled, verdict.state) : null,
  };
}

/** A schedule timed as a plan would be. */
function pictureOf(compiled: Compiled, state: State): State {
  const { model } = state;
  return polish({ ...compiled, model }, state, false);
}

/** With hours or skills it matters whose hands are asked for. */
const PEOPLE: ReadonlySet<Family> = new Set<Family>(['hands', 'hours', 'skill']);

/** The needs of a family, those of short steps first: they are the first to be taken away. */
function needsOf(problem: Problem, model: Model, family: Need['family']): Need[] {
  const steps = model.activities.map((one) => one.id).sort((a, b) => lengthOf(model, a) - lengthOf(model, b) || a - b);
  const of = (indices: readonly number[]): Need[] => indices.map((index) => ({ family, index }));
  const modes = (id: number) => model.activities[id]!.modes;
  switch (family) {
    case 'board':
      return of(steps.filter((a) => modes(a).some((mode) => mode.bench >= 0)));
    case 'burner':
      return of(steps.filter((a) => modes(a).some((mode) => mode.unitCount > 0)));
    case 'pan':
      return of(steps.filter((a) => modes(a).some((mode) => mode.vessel >= 0)));
    case 'space':
      return of(steps.filter((a) => modes(a).some((mode) => mode.load >= 0)));
    case 'heat':
      return of(steps.filter((a) => modes(a).some((mode) => mode.machine >= 0)));
    case 'hands':
      return of(steps.filter((a) => modes(a).some((mode) => mode.attention.crew > 0)));
    case 'gap':
      return of([...model.lags.keys()].filter((l) => model.lags[l]!.high < Number.POSITIVE_INFINITY));
    case 'skill':
      return of([...problem.cooks.keys()].filter((c) => problem.cooks[c]!.can !== null));
    case 'hours':
      return of(
        [...problem.cooks.keys()].filter((c) => problem.cooks[c]!.from !== null || problem.cooks[c]!.to !== null),
      );
  }
}

const lengthOf = (model: Model, activity: number): number => model.activities[activity]!.shortest;
