/** Storage of finished jobs until their group lands, and what all jobs pay for waiting for it. */

import { choiceOf, type Literal, not, of } from '../../constraint/program.js';
import type { Job } from '../../kernel/model.js';
import { addSettings, type Doing, type Times } from './times.js';

/** By job; null where it is never stored. */
export function addStorages(times: Times): (Doing | null)[] {
  return times.model.jobs.map((job) => {
    const doing = job.storage === null || job.group < 0 ? null : addStorage(times, job);
    payWaits(times, job, doing);
    return doing;
  });
}

function sinksOf({ model }: Times, job: Job): number[] {
  return job.activities.filter((a) => model.activities[a]!.sink);
}

function addStorage(times: Times, job: Job): Doing | null {
  const { program } = times;
  const sink = sinksOf(times, job)[0]!;
  const { modes } = job.storage!;
  const happens = program.bool(`stored ${job.id}`);
  const inMode = choiceOf(program, modes.length, happens);
  modes.forEach((mode, m) => void program.some([heldAtEnd(times, sink, mode.vessel, mode.vessels)], [inMode[m]!]));
  const setting = addSettings(program, modes, inMode, happens);
  const start = of(program.int(0, times.latest));
  const minutes = of(program.int(0, times.latest));
  const end = of(program.int(0, times.latest));
  program.row(0, start.copy().plus(minutes).plus(end, -1), 0);
  program.atLeast(minutes, 1, [happens]);
  program.row(0, minutes, 0, [not(happens)]);
  program.atLeast(start.copy().plus(times.doing[sink]!.end, -1), 0, [happens]);
  program.atLeast(of(times.landing[job.group]!).plus(end, -1), 0, [happens]);
  return { modes, start, minutes, end, inMode, setting, happens, over: null };
}

/** True where the food is in so many of this vessel when the activity has ended. */
function heldAtEnd(times: Times, a: number, vessel: number, amount: number): Literal {
  const { program, model, doing } = times;
  const activity = model.activities[a]!;
  if (activity.empties) return program.no;
  const before = activity.ins.filter((lag) => model.activities[lag.from]!.job === activity.job);
  const carried = (): Literal => (before.length === 1 ? heldAtEnd(times, before[0]!.from, vessel, amount) : program.no);
  const ways = activity.modes.map((mode, m): Literal => {
    const inMode = doing[a]!.inMode[m]!;
    if (!mode.transparent) return mode.vessel === vessel && mode.vessels === amount ? inMode : program.no;
    if (activity.modes.length === 1) return carried();
    const both = program.bool();
    program.imply(both, inMode);
    program.imply(both, carried());
    return both;
  });
  return program.anyOf(ways.filter((literal) => literal !== program.no));
}

/** Waiting from each sink's end to the landing, and beyond what the job keeps. */
function payWaits(times: Times, job: Job, storage: Doing | null): void {
  const { program, model, landing, latest } = times;
  if (job.group < 0) return;
  for (const sink of sinksOf(times, job)) {
    const outside = of(landing[job.group]!).plus(times.doing[sink]!.end, -1);
    if (storage !== null) outside.plus(storage.minutes, -1);
    // Follows from the rows of the storage; it makes the relaxation tight.
    program.atLeast(outside, 0);
    const { over } = model.rates;
    if (job.keeps < latest) program.pay(of(program.above([outside.copy().plus(-job.keeps)], latest)), over);
    if (storage === null) continue;
    const { rate, keeps } = job.storage!;
    program.pay(storage.minutes, rate);
    if (keeps < latest) program.pay(of(program.above([storage.minutes.copy().plus(-keeps)], latest)), over);
  }
}
