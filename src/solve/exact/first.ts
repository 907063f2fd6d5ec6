/** A schedule of all jobs, whatever it costs, by the constraint engine: for meals so tight that building one dish after the other leaves something out. */
import { Engine } from '../../constraint/engine.js';
import { EngineProgram } from '../../constraint/engine-program.js';
import { MOST_WORKERS } from '../../kernel/model.js';
import type { State } from '../../kernel/state.js';
import type { Compiled } from '../compile.js';
import { build, type Cut } from './build.js';
import { Unwritable } from './heat.js';
import { Rooms } from './rooms.js';
import { misfit, scheduleOf } from './schedule.js';
import type { Limits } from './times.js';

/** Null where none was found; `never`: it is proven that there is none. */
export interface First {
  readonly state: State | null;
  readonly never: boolean;
}

/** `work` in entries of the trail. */
export function firstSchedule(compiled: Compiled, work: number, shouldStop?: () => boolean): First {
  const { model } = compiled;
  const rooms = new Rooms(compiled);
  const limits: Limits = {
    idle: 'least',
    sums: false,
    late: Math.max(0, ...model.groups.map((group) => model.horizon - group.due)),
    runs: model.activities.length + model.jobs.length,
  };
  const cuts: Cut[] = [];
  let restricted = model.workers.length > MOST_WORKERS;
  try {
    for (let left = work; left > 0; ) {
      const engine = new Engine();
      const built = build(new EngineProgram(engine), compiled, rooms, limits, cuts);
      const { kind } = engine.solve([], left, shouldStop);
      if (kind !== 'solved') return { state: null, never: kind === 'refuted' && !restricted };
      const state = scheduleOf(model, built, engine.values());
      const wrong = misfit(model, state, rooms);
      if (wrong === null) return { state, never: false };
      cuts.push(wrong.cut);
      restricted ||= !wrong.proven;
      left -= engine.work;
    }
  } catch (error) {
    if (!(error instanceof Unwritable)) throw error;
  }
  return { state: null, never: false };
}
