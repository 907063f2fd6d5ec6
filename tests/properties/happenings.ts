/** Random days of random meals, told in stretches of some minutes: mostly by the plan, a little off, and now and then something goes wrong. */
import type { Begun, Happened, Loss } from '../../src/live/happened.js';
import type { PlanDocument } from '../../src/plan/document.js';
import { minuteAt } from '../../src/problem/hours.js';
import type { Problem } from '../../src/problem/problem.js';
import { Random } from '../support/random.js';

export class RandomDay {
  private readonly random: Random;
  private steps = new Map<number, Begun>();
  private losses: Loss[] = [];
  private readonly gone = new Map<number, number>();
  private readonly dropped = new Set<number>();
  private serve: number;
  private now = 0;

  constructor(
    readonly problem: Problem,
    plan: PlanDocument,
    seed: number,
  ) {
    this.random = new Random(seed);
    this.serve = problem.serve;
    const first = Math.min(...plan.steps.map((row) => this.minute(row.start)));
    this.now = first + this.random.int(0, Math.max(0, problem.serve - first - 1));
  }

  /** What has happened by the next time somebody asks for a new plan. */
  next(plan: PlanDocument): Happened {
    this.carryOut(plan);
    this.mishap();
    const { now, serve } = this;
    const happened = {
      now,
      steps: new Map(this.steps),
      readings: [],
      serve,
      losses: [...this.losses],
      gone: new Map(this.gone),
      dropped: new Set(this.dropped),
    };
    this.now += 5 + this.random.int(0, 29);
    return happened;
  }

  drop(dishes: readonly number[]): void {
    for (const dish of dishes) this.dropped.add(dish);
  }

  private minute(iso: string): number {
    return Math.round(minuteAt(this.problem, iso));
  }

  private carryOut(plan: PlanDocument): void {
    for (const { id, dish, name } of this.problem.steps) {
      const rows = plan.steps.filter((row) => row.dish === this.problem.dishes[dish]!.name && row.step === name);
      const known = this.steps.get(id);
      if (rows.length === 0 || (known !== undefined && known.end !== null)) continue;
      if (known === undefined && this.minute(rows[0]!.start) >= this.now) continue;
      const off = this.random.chance(0.3) ? this.random.int(-4, 4) : 0;
      const start = known?.start ?? this.minute(rows[0]!.start);
      const end = Math.max(start, this.minute(rows.at(-1)!.end) + off);
      const over = end <= this.now && this.minute(rows.at(-1)!.start) <= this.now;
      this.steps.set(id, { start, end: over ? end : null });
    }
  }

  private mishap(): void {
    const { random, now, problem } = this;
    const { appliances, pans } = problem.kitchen;
    const kind = random.int(0, 5);
    if (kind === 0) this.serve += random.int(-20, 40);
    if (kind === 1 && appliances.length > 0) {
      const appliance = random.int(0, appliances.length - 1);
      const { surface } = appliances[appliance]!;
      const what: Loss['what'] =
        surface.kind === 'burners'
          ? { kind: 'burner', appliance, burner: random.int(0, surface.burners.length - 1) }
          : { kind: 'appliance', appliance };
      this.losses.push({ at: now, what });
    }
    if (kind === 2 && problem.cooks.length > 1) this.gone.set(random.int(0, problem.cooks.length - 1), now);
    if (kind === 3) this.dropped.add(random.int(0, problem.dishes.length - 1));
    if (kind === 4 && pans.length > 0)
      this.losses.push({ at: now, what: { kind: 'pan', pan: random.int(0, pans.length - 1), count: 1 } });
  }
}
