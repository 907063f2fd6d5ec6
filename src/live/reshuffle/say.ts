/** Why the plan has changed, and what that means, in one or two sentences. */
import type { PlanDocument } from '../../plan/document.js';
import { clockAt, minuteAt, stepKey } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';
import { showMinutes, showTemperature } from '../../units/show.js';
import type { Happened } from '../happened.js';
import type { Change } from './changes.js';
import type { PlanAsRead } from './doing.js';
import type { Fact } from './facts.js';
import type { Left } from './left.js';

export interface Known {
  readonly before: PlanDocument;
  readonly planned: PlanAsRead;
  readonly happened: Happened;
  readonly facts: readonly (readonly Fact[])[];
  readonly left: Left;
  /** Whether the new plan keeps minutes free that the one before it did not. */
  readonly room: boolean;
}

/** Causes and effects that are told; more of them are counted. */
const MOST = 2;

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** The first sentence says what happened, the second what it changes; those of what is lost or given up follow. */
export function sayChanges(problem: Problem, after: PlanDocument, changes: readonly Change[], known: Known): string[] {
  const causes = causesOf(problem, known);
  const effects = effectsOf(problem, after, changes, known);
  const out: string[] = [];
  const room = known.room ? ['some minutes are kept free for what may take longer'] : [];
  const first = [...(causes.length > 0 ? [listed(causes.slice(0, MOST))] : []), ...room];
  if (first.length > 0) out.push(`${upper(first.join('; '))}.`);
  if (effects.length > 0) out.push(`${upper(effects.join('; '))}.`);
  else out.push('Nothing else changes.');
  for (const [dish, step] of known.left.unfit) {
    const { name } = problem.dishes[dish]!;
    out.push(
      `${name} cannot be finished: nothing that is left does its ${problem.steps[step]!.name}. It is left out of the plan.`,
    );
  }
  return out;
}

function causesOf(problem: Problem, { before, planned, happened, facts, left }: Known): string[] {
  const out: string[] = [];
  const { appliances, pans } = problem.kitchen;
  const serve = Math.round(minuteAt(problem, before.serve));
  if (happened.serve !== serve) out.push(`serving is at ${clockAt(problem, happened.serve)} now`);
  for (const { what } of happened.losses) {
    if (what.kind === 'board') out.push('a board is lost');
    else if (what.kind === 'pan') out.push(`a ${pans[what.pan]!.name} is lost`);
    else {
      const { name, surface } = appliances[what.appliance]!;
      const burner = what.kind === 'burner' && surface.kind === 'burners' ? surface.burners[what.burner]!.name : null;
      out.push(`${burner === null ? name : `${burner} of ${name}`} is lost`);
    }
  }
  for (const cook of happened.gone.keys()) out.push(`${problem.cooks[cook]!.name} has left`);
  const names = [...happened.dropped].map((dish) => problem.dishes[dish]!.name);
  if (names.length > 0) out.push(`${listed(names)} ${names.length === 1 ? 'is' : 'are'} given up`);
  for (const dish of problem.dishes) {
    if (dish.steps.every((id) => planned.steps[id]!.length === 0)) out.push(`${dish.name} is new`);
  }
  const shifts = facts.flatMap((own, id): { minutes: number; say: string }[] => {
    const fact = own.at(-1);
    const row = planned.steps[id]!.at(-1);
    if (fact === undefined || row === undefined || left.cut.has(id)) return [];
    const key = stepKey(problem, id);
    const by = fact.doing.end - row.end;
    if (fact.ended && by < 0) return [{ minutes: -by, say: `${key} was done ${showMinutes(-by)} early` }];
    if (fact.ended && by > 0) return [{ minutes: by, say: `${key} was done ${showMinutes(by)} late` }];
    if (fact.ended || fact.free || by === 0) return [];
    const say = by > 0 ? `${key} takes ${showMinutes(by)} longer` : `${key} will be done ${showMinutes(-by)} early`;
    return [{ minutes: Math.abs(by), say }];
  });
  shifts.sort((a, b) => b.minutes - a.minutes);
  return [...out, ...shifts.map(({ say }) => say)];
}

/** Infinite where nothing is left to be done. */
const beginOf = (problem: Problem, { steps }: PlanDocument): number =>
  Math.round(Math.min(...steps.map(({ start }) => minuteAt(problem, start))));

function effectsOf(
  problem: Problem,
  after: PlanDocument,
  changes: readonly Change[],
  { before, happened }: Known,
): string[] {
  const clock = (iso: string): string => clockAt(problem, Math.round(minuteAt(problem, iso)));
  const out: string[] = [];
  const late = Math.max(0, ...after.dishes.map((dish) => dish.late ?? 0));
  const was = Math.max(0, ...before.dishes.map((dish) => dish.late ?? 0));
  if (late > was) out.push(`the meal lands ${showMinutes(late)} late`);
  else if (late < was)
    out.push(late === 0 ? 'the meal lands in time' : `the meal lands ${showMinutes(late)} late only`);
  // What everybody has to know first, as long as nothing has begun.
  const [begins, begun] = [beginOf(problem, after), beginOf(problem, before)];
  if (happened.steps.size === 0 && Number.isFinite(begins - begun) && begins !== begun) {
    const by = showMinutes(Math.abs(begins - begun));
    out.push(`the first step is at ${clockAt(problem, begins)}, ${by} ${begins < begun ? 'earlier' : 'later'}`);
  }
  for (const { kind, dish, step } of changes) {
    const row = after.steps.find((each) => each.dish === dish && each.step === step);
    if (kind === 'new' && step === 'hold' && row?.celsius != null) {
      const dial = problem.kitchen.appliances.find((each) => each.name === row.appliance)?.dial.unit ?? 'C';
      out.push(`${dish} holds in the ${row.appliance} at ${showTemperature(row.celsius, dial)}`);
    }
  }
  const places = changes.filter(
    (change) => change.kind === 'place' || (change.kind === 'new' && change.step !== 'hold'),
  );
  const goTo = ({ dish, step, from, to }: Change): void => {
    const row = after.steps.findLast((each) => each.dish === dish && each.step === step)!;
    out.push(
      from === null
        ? `${dish}/${step} is at ${clock(row.start)}`
        : `${dish}/${step} goes to ${to} at ${clock(row.start)}`,
    );
  };
  // Which board it is, is least of all news.
  const isBoard = ({ from, to }: Change): boolean => [from, to].every((place) => place?.startsWith('board ') ?? false);
  places.filter((change) => !isBoard(change)).forEach(goTo);
  for (const { dish, step, to } of changes.filter((change) => change.kind === 'cook')) {
    if (to !== null) out.push(`${dish}/${step} is for ${to}`);
  }
  const moved = changes.filter((change) => change.kind === 'start');
  moved.sort((a, b) => Math.abs(b.minutes) - Math.abs(a.minutes));
  for (const { dish, step, to, minutes } of moved) {
    out.push(
      `${dish}/${step} is at ${clock(to!)}, ${showMinutes(Math.abs(minutes))} ${minutes < 0 ? 'earlier' : 'later'}`,
    );
  }
  places.filter(isBoard).forEach(goTo);
  if (out.length <= MOST + 1) return out;
  return [...out.slice(0, MOST), `${out.length - MOST} more changes`];
}
