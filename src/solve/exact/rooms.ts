/** What stands together on a machine, and whether a "no" is proven: the kitchen's packing gives up on very crowded sets. */
import type { StandingLoad } from '../../kernel/model.js';
import { arrangement } from '../../kitchen/arrange.js';
import { shelvesOf } from '../../kitchen/surface-of.js';
import type { Load } from '../../problem/problem.js';
import { loadOf } from '../../problem/stand.js';
import type { Compiled } from '../compile.js';

/** Work for one proof, in nodes; the solver's own packing takes a tenth of it. */
const NODES = 200_000;

export type Judgement = 'fits' | 'clash' | 'unknown';

export class Rooms {
  private readonly loads = new Map<number, Load>();
  private readonly known = new Map<string, Judgement>();

  constructor(private readonly compiled: Compiled) {
    const { problem, model, kit } = compiled;
    for (const step of problem.steps) {
      step.options.forEach((option, o) => {
        const { load } = model.activities[step.id]!.modes[o]!;
        if (load >= 0) this.loads.set(load, option.load!);
      });
    }
    for (const { id, storage } of model.jobs) {
      for (const { load, vessel } of storage?.modes ?? []) {
        const pan = problem.kitchen.pans[vessel - kit.panOf(0)]!;
        if (load >= 0) this.loads.set(load, loadOf(pan, problem.dishes[id]!.piece)!);
      }
    }
  }

  /** `clash` is proven; `unknown`: neither does the solver's own packing find spots, nor is there a proof that there are none. */
  judge(machine: number, standing: readonly StandingLoad[]): Judgement {
    if (standing.length === 0) return 'fits';
    const key = `${machine}: ${standing.map((s) => `${s.program} ${s.load} ${s.count} ${s.start} ${s.end}`).join(', ')}`;
    let judgement = this.known.get(key);
    if (judgement === undefined) {
      judgement = this.prove(machine, standing);
      this.known.set(key, judgement);
    }
    return judgement;
  }

  private prove(machine: number, standing: readonly StandingLoad[]): Judgement {
    const { problem, model, kit } = this.compiled;
    if (model.machines[machine]!.fits(standing)) return 'fits';
    const appliance = problem.kitchen.appliances[kit.applianceOf[machine]!]!;
    // Programs never overlap in time, so that each can be judged by itself.
    for (const program of new Set(standing.map((one) => one.program))) {
      const things = standing
        .filter((one) => one.program === program)
        .flatMap(({ load, count, start, end }) =>
          Array.from({ length: count }, () => ({ ...this.loads.get(load)!, start, end, fixed: null })),
        );
      const found = arrangement(shelvesOf(appliance, appliance.modes[program]!), things, NODES);
      if (found.placed === null && found.proof) return 'clash';
    }
    return 'unknown';
  }
}
