/** Changes that might better a plan: of what its dearest waits and its lateness hang on, read from what presses in its times. */
import type { Problem } from '../../problem/problem.js';
import type { Found } from '../schedule.js';
import { ReasonNetwork, type RuleRow } from '../why/reason-network.js';
import { latenessOf } from './plan-again.js';
import {
  applianceProposals,
  boardProposal,
  clockProposals,
  cookProposal,
  dishProposals,
  gapProposal,
  heatProposals,
  hoursProposals,
  type Proposal,
  panProposals,
  placeProposals,
  skillProposals,
} from './proposals.js';

/** Proposals of one kind that are tried at most. */
const MOST_OF_A_KIND = 5;
const MOST_DISHES = 6;

/** Minutes that are tried where the times say no figure. */
const SOME_MINUTES = [15, 60];

/** What presses on each step and each thing of a schedule, points a minute. */
class Pressure {
  readonly onStep: Float64Array;
  private readonly byCause = new Map<string, number>();
  readonly gaps: { readonly from: number; readonly to: number }[] = [];

  constructor({ compiled, state }: Found) {
    const network = new ReasonNetwork(compiled, state);
    this.onStep = new Float64Array(compiled.model.activities.length);
    if (network.solve() === null) return;
    for (const row of network.rows) {
      const flow = network.rate(row.arc);
      if (flow <= 1e-9) continue;
      const key = keyOf(row.cause);
      this.byCause.set(key, (this.byCause.get(key) ?? 0) + flow);
      const steps = [row.from, row.to].map((node) => {
        const what = network.whats[node]!;
        return what.kind === 'start' || what.kind === 'end' ? what.a : -1;
      });
      for (const a of steps) if (a >= 0) this.onStep[a]! += flow;
      if (row.cause.kind === 'lag' && row.most) this.gaps.push({ from: steps[1]!, to: steps[0]! });
    }
  }

  of(kind: RuleRow['cause']['kind'], index = -1): number {
    return this.byCause.get(`${kind} ${index}`) ?? 0;
  }
}

const keyOf = (cause: RuleRow['cause']): string => `${cause.kind} ${'index' in cause ? cause.index : -1}`;

export function improvements(found: Found): Proposal[] {
  const { compiled, state } = found;
  const { problem, kit } = compiled;
  const pressure = new Pressure(found);
  const late = latenessOf(state);
  const all = problem.steps.map(({ id }) => id);
  const byPressure = (ids: readonly number[]): number[] =>
    [...ids].sort((a, b) => pressure.onStep[b]! - pressure.onStep[a]! || a - b);
  const heated = byPressure(all.filter((id) => state.modeOf(id).machine >= 0));
  const pans = problem.kitchen.pans.map((_, pan) => pan).filter((pan) => usersOf(problem, pan) > 1);
  pans.sort((a, b) => pressure.of('stock', kit.panOf(b)) - pressure.of('stock', kit.panOf(a)) || a - b);
  const panUsers = pans.slice(0, MOST_OF_A_KIND).map((pan) => all.find((id) => usesPan(problem, id, pan))!);
  return [
    ...pressure.gaps.slice(0, MOST_OF_A_KIND).map(({ from, to }) => few(gapProposal(problem, from, to), [2, 6])),
    ...closer(problem, heated, found).slice(0, MOST_OF_A_KIND),
    ...placeProposals(problem, heated).slice(0, MOST_OF_A_KIND),
    ...skillProposals(problem, byPressure(all)).slice(0, MOST_OF_A_KIND),
    ...hoursProposals(problem, [...problem.cooks.keys()])
      .slice(0, MOST_OF_A_KIND)
      .map((proposal) => ({ ...proposal, amounts: SOME_MINUTES.filter((n) => proposal.amounts.includes(n)) })),
    ...clock(problem, late, pressure),
    ...panProposals(problem, panUsers)
      .slice(0, MOST_OF_A_KIND)
      .map((proposal) => few(proposal, [0])),
    ...(pressure.of('stock', kit.boards) > 0 || late > 0 ? [boardProposal(problem)] : []),
    cookProposal(problem),
    ...dishes(found, pressure),
    ...applianceProposals(
      problem,
      all.filter((id) => pressure.onStep[id]! > 0),
    ).slice(0, MOST_OF_A_KIND),
  ].filter(({ amounts }) => amounts.length > 0);
}

const few = (proposal: Proposal, at: readonly number[]): Proposal => ({
  ...proposal,
  amounts: at.flatMap((index) => proposal.amounts.slice(index, index + 1)),
});

const usesPan = (problem: Problem, id: number, pan: number): boolean =>
  problem.steps[id]!.options.some((option) => option.pan === pan);

const usersOf = (problem: Problem, pan: number): number =>
  problem.steps.filter(({ id }) => usesPan(problem, id, pan)).length;

/** Serving so much later as it is late, or begun so much sooner. */
function clock(problem: Problem, late: number, pressure: Pressure): Proposal[] {
  if (late === 0 && pressure.of('bound') === 0 && pressure.of('change') === 0) return [];
  return clockProposals(problem, true).map((proposal) => {
    const amounts = late > 0 ? [late] : SOME_MINUTES;
    return {
      ...proposal,
      amounts: proposal.kind === 'start' ? amounts.filter((n) => n <= Math.max(...proposal.amounts, 0)) : amounts,
    };
  });
}

/** Heats nearer to those that the same appliance has for others, each by as little as reaches one of them. */
function closer(problem: Problem, heated: readonly number[], { compiled, state }: Found): Proposal[] {
  const levels = (machine: number): number[] => [
    ...new Set(
      heated
        .filter((id) => state.modeOf(id).machine === machine)
        .map((id) => problem.steps[id]!.options[state.mode[id]!]!.settings[state.setting[id]!]!),
    ),
  ];
  return heatProposals(problem, heated).flatMap((proposal) => {
    const wanted = proposal.amounts.filter((celsius) =>
      compiled.kit.machines.some((_, m) => levels(m).includes(celsius)),
    );
    return wanted.length === 0 ? [] : [{ ...proposal, amounts: [wanted[0]!] }];
  });
}

/** Those that press most, and those that wait longest. */
function dishes({ compiled: { problem, model }, state }: Found, pressure: Pressure): Proposal[] {
  const weight = model.jobs.map(({ id, activities, group }) => {
    const ready = Math.max(...activities.map((a) => state.end(a)));
    const wait = group < 0 ? 0 : state.landing(group) - ready;
    return activities.reduce((sum, a) => sum + pressure.onStep[a]!, 0) + model.jobs[id]!.rate * wait;
  });
  const dearest = [...weight.keys()].sort((a, b) => weight[b]! - weight[a]! || a - b);
  return dishProposals(problem, dearest.slice(0, MOST_DISHES));
}
