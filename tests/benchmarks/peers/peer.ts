/** Solves a compiled meal with CP-SAT: within limits first, which are widened until no plan beyond them can be better. */
import { costOf, totalOf } from '../../../src/kernel/cost.js';
import { holds } from '../../../src/kernel/holds.js';
import type { State } from '../../../src/kernel/state.js';
import type { PlanDocument } from '../../../src/plan/document.js';
import type { Compiled } from '../../../src/solve/compile.js';
import { build, type Cut } from '../../../src/solve/exact/build.js';
import { Rooms } from '../../../src/solve/exact/rooms.js';
import { type Misfit, misfit, scheduleOf } from '../../../src/solve/exact/schedule.js';
import type { Limits } from '../../../src/solve/exact/times.js';
import { writePlan } from '../../../src/solve/write-plan.js';
import { solveProgram } from './cp-sat.js';
import { CpSatProgram } from './program.js';

export interface PeerResult {
  /** best: proven; good: found; none: proven that there is none; unknown: nothing found in the time. */
  readonly status: 'best' | 'good' | 'none' | 'unknown';
  readonly points: number | null;
  /** No plan has fewer points. */
  readonly bound: number;
  readonly plan: PlanDocument | null;
  /** The schedule keeps the kernel's own rules. */
  readonly holds: boolean;
  /** Seconds, building included, until the best was found and until the end. */
  readonly foundAt: number | null;
  readonly seconds: number;
  readonly variables: number;
  readonly constraints: number;
  /** Programs solved, and overlaps forbidden because there are no spots for them. */
  readonly rounds: number;
  readonly cuts: number;
}

export interface PeerOptions {
  readonly seconds: number;
  readonly log?: boolean;
}

/** In the first program. Most meals need no more. */
const FIRST: Limits = { late: 0, runs: 6, idle: 'exact', sums: false };

/** So many of the solver's solutions are asked whether everything keeps its spot. */
const FROM_THE_LAST = 20;

export async function solveWithPeer(compiled: Compiled, options: PeerOptions): Promise<PeerResult> {
  const { model } = compiled;
  const begun = performance.now();
  const now = (): number => (performance.now() - begun) / 1000;
  const rooms = new Rooms(compiled);
  const cuts: Cut[] = [];
  // Once an overlap is forbidden without proof, the program may miss the best, and its bound holds no more.
  let restricted = false;
  let limits = FIRST;
  let best: { state: State; points: number; at: number } | null = null;
  let bound = 0;
  let rounds = 0;
  let size = { variables: 0, constraints: 0 };
  const result = (status: PeerResult['status']): PeerResult => ({
    status,
    points: best?.points ?? null,
    bound: Math.min(bound, best?.points ?? bound),
    plan: best === null ? null : planOf(compiled, best.state, status === 'best' ? best.points : bound),
    holds: best === null || holds(best.state),
    foundAt: best?.at ?? null,
    seconds: now(),
    ...size,
    rounds,
    cuts: cuts.length,
  });

  for (;;) {
    const program = new CpSatProgram();
    const built = build(program, compiled, rooms, limits, cuts);
    size = program.size;
    const left = options.seconds - now();
    if (left <= 0) return result(best === null ? 'unknown' : 'good');
    const { document, scale } = program.finish(best?.points ?? Number.POSITIVE_INFINITY);
    const started = now();
    const answer = await solveProgram(document, { seconds: left, log: options.log ?? false });
    rounds++;
    const proven = answer.status === 'OPTIMAL' || answer.status === 'INFEASIBLE';
    const least = answer.status === 'INFEASIBLE' ? built.beyond : Math.min(built.beyond, answer.bound / scale);
    const surely = Math.min(least, best?.points ?? least);
    if (Number.isFinite(surely) && !restricted) bound = Math.max(bound, surely);
    if (best !== null && best.points <= bound + 0.5 / scale) return result('best');
    if (answer.status === 'INFEASIBLE') {
      const wider = widen(compiled, limits, best?.points ?? Number.POSITIVE_INFINITY);
      if (wider === null && restricted) return result(best === null ? 'unknown' : 'good');
      if (wider === null) return result(best === null ? 'none' : 'best');
      limits = wider;
      continue;
    }
    // The last that keeps its spots counts; what is better than that is forbidden and looked for again.
    let crowded: Misfit | null = null;
    for (const found of answer.found.slice(-FROM_THE_LAST).reverse()) {
      const state = scheduleOf(model, built, found.values);
      const wrong = misfit(model, state, rooms);
      crowded ??= wrong;
      if (wrong !== null) continue;
      const points = totalOf(costOf(state));
      if (best === null || points < best.points) best = { state, points, at: started + found.seconds };
      break;
    }
    if (crowded !== null) {
      cuts.push(crowded.cut);
      restricted ||= !crowded.proven;
      continue;
    }
    if (best !== null && best.points <= bound + 0.5 / scale) return result('best');
    if (!proven) return result(best === null ? 'unknown' : 'good');
    const wider = widen(compiled, limits, best!.points);
    if (wider === null) return result(restricted ? 'good' : 'best');
    limits = wider;
  }
}

/** Limits that exclude only plans of more than so many points; null where these limits did already. */
function widen({ model }: Compiled, { late, runs }: Limits, points: number): Limits | null {
  const most = Math.max(...model.groups.map((group) => model.horizon - group.due), 0);
  const users = model.activities.length + model.jobs.length;
  const runCost = Math.min(...model.machines.map((machine) => machine.runCost));
  const wanted: Limits = {
    idle: 'exact',
    sums: false,
    late: Math.min(
      most,
      Math.max(
        late,
        points === Number.POSITIVE_INFINITY ? Math.max(60, late * 8) : Math.floor(points / model.rates.late),
      ),
    ),
    runs: Math.min(
      users,
      Math.max(runs, points === Number.POSITIVE_INFINITY ? runs * 2 : Math.floor(points / runCost) + 1),
    ),
  };
  return wanted.late === late && wanted.runs === runs ? null : wanted;
}

function planOf(compiled: Compiled, state: State, bound: number): PlanDocument {
  const late = compiled.model.groups.some((group, g) => state.landing(g) > group.due);
  const points = totalOf(costOf(state));
  const status = late ? 'late' : points <= bound + 0.005 ? 'best' : 'good';
  return writePlan(compiled, state, { status, bound, effort: { level: 'deep', seed: 1, rounds: 0, stopped: false } });
}
