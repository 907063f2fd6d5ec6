/** Why each step of a plan stands where it does, what makes the plan late, and what more of each thing would be worth. */
import type { WhyDocument, WhySide, WhyStep } from '../../plan/why-document.js';
import { isoAt } from '../../problem/hours.js';
import type { Found } from '../schedule.js';
import { lateSentences } from './late.js';
import { Teller } from './links.js';
import { Moves } from './move.js';
import { ReasonNetwork } from './reason-network.js';
import { type Hold, holdsByRule, holdsOf, type Side } from './tight.js';
import { worthsOf } from './worth.js';

const rounded = (points: number): number => Math.round(points * 100) / 100;

export interface Why {
  readonly why: WhyDocument;
  /** What makes it late; empty where nothing is. */
  readonly late: readonly string[];
}

export function whyOf({ compiled, state }: Found): Why {
  const network = new ReasonNetwork(compiled, state);
  const times = network.ownTimes();
  const holds = network.solve() === null ? null : holdsOf(network, times);
  const teller = new Teller(network, times);
  if (holds === null) {
    const late = lateSentences(network, teller, holdsByRule(network, times).sooner);
    return { why: { exact: false, steps: [], worth: [] }, late };
  }
  const moves = new Moves(network);
  const { problem, model } = compiled;
  const sideOf = (hold: Hold, node: number, side: Side): WhySide => {
    const free = hold.free[node]!;
    const cost = moves.costOf(node, times[node]!, side, free + 1);
    return {
      free,
      points: Number.isFinite(cost) ? rounded(cost) : null,
      chain: free > 0 ? [] : teller.linksOf(hold.chain(node)),
    };
  };
  const rowOf = (node: number, dish: string, step: string): WhyStep => ({
    dish,
    step,
    at: isoAt(problem, times[node]!),
    sooner: sideOf(holds.sooner, node, 'sooner'),
    later: sideOf(holds.later, node, 'later'),
  });
  const steps = problem.steps.map(({ id, name, dish }) =>
    rowOf(network.start(id).node, problem.dishes[dish]!.name, name),
  );
  for (const { id } of model.jobs) {
    if (state.store.mode[id]! >= 0) steps.push(rowOf(network.storeStart(id).node, problem.dishes[id]!.name, 'hold'));
  }
  const inTime = steps.sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
  return {
    why: { exact: true, steps: inTime, worth: worthsOf(network, teller, moves) },
    late: lateSentences(network, teller, holds.sooner),
  };
}
