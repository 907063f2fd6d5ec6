/** Puts jobs that are out back into a schedule, one by one by exact insertion, in an order and with limits that vary by chance. */
import type { Model } from '../kernel/model.js';
import type { Rng } from '../kernel/rng.js';
import type { State } from '../kernel/state.js';
import type { Inserter } from './insert.js';
import { urgencyOf } from './priority.js';
import type { Bias } from './variants.js';

export class Repairer {
  readonly urgency: number[];

  constructor(
    private readonly model: Model,
    private readonly inserter: Inserter,
    private readonly rng: Rng,
  ) {
    this.urgency = urgencyOf(model);
  }

  /** Puts back all that is out; false as soon as something finds no place that could be better than the best schedule. */
  repair(state: State, bias: Bias | null, limits: readonly number[] | null): boolean {
    const { model, rng } = this;
    const out = rng.shuffle(model.jobs.filter((job) => !state.jobIsPlaced(job.id)).map((job) => job.id));
    const rule = rng.below(4);
    if (rule < 2) {
      const length = (j: number): number =>
        -model.jobs[j]!.activities.reduce((sum, a) => sum + model.activities[a]!.shortest, 0);
      const noise = 10 + rng.real() * 60;
      const key = out.map((j) => (rule === 0 ? length(j) : this.urgency[j]!) + noise * rng.real());
      const order = out.map((_, i) => i).sort((x, y) => key[x]! - key[y]!);
      return this.insertAll(
        state,
        order.map((i) => out[i]!),
        bias,
        limits,
      );
    }
    return this.insertAll(state, out, bias, limits);
  }

  /**
   * Users before what they use, otherwise in the order given. Without `limits` what finds no place in time may come late, or
   * stay out; with them, no group may land after its limit, and the first job without a place ends the attempt (false).
   */
  insertAll(state: State, order: readonly number[], bias: Bias | null, limits: readonly number[] | null): boolean {
    const { model } = this;
    const waiting = new Set(order);
    const visit = (job: number): boolean => {
      if (!waiting.delete(job)) return true;
      for (const user of model.jobs[job]!.users) if (!visit(model.activities[user]!.job)) return false;
      return this.insertOne(state, job, bias, limits) || limits === null;
    };
    return order.every(visit);
  }

  private insertOne(state: State, job: number, bias: Bias | null, limits: readonly number[] | null): boolean {
    const { model, rng, inserter } = this;
    const { rate, keeps, group } = model.jobs[job]!;
    // Few jobs are worth having ready long before they land; the short window makes the usual insertion cheap.
    const wide = rng.below(5) === 0 ? 3 : 1;
    const usual = wide * (20 + Math.min(keeps, 20) + Math.ceil(10 / rate));
    const reach = rate > 0 && group >= 0 ? Math.min(model.horizon, usual) : model.horizon;
    const noise = rng.below(4) === 0 ? 12 * rng.real() ** 2 : 0;
    const target = limits !== null && group >= 0 && rng.below(2) === 0 ? limits[group]! : 0;
    const base = { reach, lateness: 0, target, bias, noise, settings: 5, rng };
    const slack = rng.below(3) === 0 ? rng.below(25) : 0;
    if (slack > 0 && inserter.insertJob(state, job, { ...base, lateness: -slack })) return true;
    if (inserter.insertJob(state, job, base)) return true;
    if (limits === null || rng.below(8) === 0) {
      if (reach < model.horizon && inserter.insertJob(state, job, { ...base, reach: model.horizon })) return true;
    }
    const most = limits === null || group < 0 ? model.horizon : limits[group]! - state.landing(group);
    return group >= 0 && most > 0 && inserter.insertJob(state, job, { ...base, reach: model.horizon, lateness: most });
  }
}
