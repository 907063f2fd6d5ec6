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
import { limitsFor } from './times.js';

/** Null where none was found; `never`: it is proven that there is none. */
export interface First {
  readonly state: State | null;
  readonly never: boolean;
}

/** `work` in entries of the trail. */
export function firstSchedule(compiled: Compiled, work: number, shouldStop?: () => boolean): First {
  const { model } = compiled;
  const rooms = new Rooms(compiled);
  const limits = limitsFor(model, Number.POSITIVE_INFINITY, { idle: 'least', sums: false });
  const cuts: Cut[] = [];
  let restricted = model.workers.length > MOST_WORKERS;
  try {
    for (let left = work; left > 0; ) {
      const engine = new Engine();
      const built = build(new EngineProgram(engine), compiled, rooms, limits, cuts);
      const { kind } = engine.solve([], left, shouldStop);
      if (kind !== 'solved') return { state: null, never: kind === 'refuted' && !restricted };
      const state = scheduleOf(model, built, engine.values());
      // Nothing need be stored, and without costs a course may be said to land, and food be stored, later than needed.
      state.store.mode.fill(-1);
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
