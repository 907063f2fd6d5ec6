import { Rng } from '../kernel/rng.js';
import { lowerBound } from './bounds.js';
import { Generation } from './generation.js';
import { type Project, pathsOf } from './project.js';
import { Sampler } from './sampling.js';

export interface Sequenced {
  readonly starts: Int32Array;
  readonly makespan: number;
  readonly lower: number;
  /** Schedules made. */
  readonly made: number;
}

/** Sampling. */
export function sequence(project: Project, { schedules, seed }: { schedules: number; seed: number }): Sequenced {
  const generation = new Generation(project);
  const { size, network } = generation;
  const rng = new Rng(seed);
  const lower = lowerBound(project, network);
  const { tails } = pathsOf(network, generation.minutes);
  const keys = Float64Array.from(tails, (tail) => -tail);
  const sampler = new Sampler(network);
  const [list, starts] = [new Int32Array(size), new Int32Array(size)];
  let best = { makespan: Number.POSITIVE_INFINITY, starts: starts.slice() };
  while (generation.made < schedules && best.makespan > lower) {
    sampler.draw(keys, rng, list);
    let makespan = generation.forwards(list, starts);
    generation.byEnd(starts, makespan, list);
    makespan = generation.backwards(list, starts);
    generation.byStart(starts, list);
    makespan = generation.forwards(list, starts);
    if (makespan < best.makespan) best = { makespan, starts: starts.slice() };
  }
  return { ...best, lower, made: generation.made };
}
