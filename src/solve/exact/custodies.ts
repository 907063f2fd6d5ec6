/** Renewables: benches for as long as an activity takes, vessels from its start until the food has moved on and they are washed. */
import { type Literal, not, of, Sum } from '../../constraint/program.js';
import type { Times } from './times.js';

interface Release {
  readonly kind: 'start' | 'end' | 'landing';
  readonly at: Sum;
  /** All hold where this release counts. */
  readonly when: readonly Literal[];
  /** The next activity, where it may go on in the same vessel. */
  readonly next: number;
}

export function addRenewables(times: Times): void {
  const { program, model, doing } = times;
  model.renewables.forEach((renewable, r) => {
    const intervals: number[] = [];
    const demands: number[] = [];
    for (const { id, modes } of model.activities) {
      const { inMode, start, minutes, end } = doing[id]!;
      const onBench = modes.flatMap((mode, m) => (mode.bench === r ? [inMode[m]!] : []));
      if (onBench.length > 0) {
        intervals.push(program.interval(start, minutes, end, [program.anyOf(onBench)]));
        demands.push(1);
      }
      for (const amount of new Set(modes.filter((mode) => mode.vessel === r).map((mode) => mode.vessels))) {
        const taken = program.anyOf(
          modes.flatMap((mode, m) => (mode.vessel === r && mode.vessels === amount ? [inMode[m]!] : [])),
        );
        const until = custodyEnd(times, id, r, amount, taken, renewable.tail);
        const size = of(program.int(0, times.latest + renewable.tail));
        intervals.push(program.interval(start, size, until, [taken]));
        demands.push(amount);
      }
    }
    const most = demands.reduce((sum, demand) => sum + demand, 0);
    if (most > renewable.capacity) program.cumulative(intervals, demands, renewable.capacity);
  });
}

/** When a vessel that an activity takes is free again. */
function custodyEnd(times: Times, a: number, vessel: number, amount: number, taken: Literal, tail: number): Sum {
  const { program, model, doing, latest } = times;
  const releases = releasesOf(times, a);
  const until = of(program.int(0, latest + tail));
  const goesOn = (next: number): Literal =>
    program.anyOf(
      model.activities[next]!.modes.flatMap((mode, m) => (mode.vessel === vessel ? [doing[next]!.inMode[m]!] : [])),
    );
  // The wash falls away only where every release is a start that goes on in the same vessels, and there are enough of those.
  const unwashed = tail === 0 ? program.yes : program.bool();
  if (tail > 0) {
    const some: Literal[] = [];
    const kept = new Sum();
    for (const { kind, when, next } of releases) {
      if (kind === 'end') continue;
      if (kind === 'landing' || next < 0) {
        program.some([not(unwashed), ...when.map(not)]);
        continue;
      }
      const on = goesOn(next);
      program.some([on], [unwashed, ...when]);
      const counts = when.length === 0 ? on : program.bool();
      if (when.length > 0) for (const literal of [...when, on]) program.imply(counts, literal);
      some.push(counts);
      const { modes } = model.activities[next]!;
      modes.forEach((mode, m) => {
        if (mode.vessel === vessel)
          kept.add(modes.length === 1 ? counts : both(times, counts, doing[next]!.inMode[m]!), mode.vessels);
      });
    }
    program.some(some, [unwashed]);
    program.atLeast(kept, amount, [unwashed]);
  }
  for (const { at, when } of releases) {
    program.atLeast(until.copy().plus(at, -1), 0, [taken, ...when]);
    if (tail > 0) program.atLeast(until.copy().plus(at, -1), tail, [taken, ...when, not(unwashed)]);
  }
  return until;
}

function both({ program }: Times, one: Literal, two: Literal): Literal {
  const literal = program.bool();
  program.imply(literal, one);
  program.imply(literal, two);
  return literal;
}

/** What must all have come before what an activity takes is let go. */
function releasesOf(times: Times, a: number): Release[] {
  const { program, model, doing, landing } = times;
  const found: Release[] = [{ kind: 'end', at: doing[a]!.end, when: [], next: -1 }];
  const walk = (from: number, when: readonly Literal[]): void => {
    const activity = model.activities[from]!;
    if (activity.empties) {
      found.push({ kind: 'end', at: doing[from]!.end, when, next: -1 });
      return;
    }
    for (const b of activity.nexts) {
      const { modes } = model.activities[b]!;
      const through = program.anyOf(modes.flatMap((mode, m) => (mode.transparent ? [doing[b]!.inMode[m]!] : [])));
      const mixed = modes.some((mode) => mode.transparent) && modes.some((mode) => !mode.transparent);
      if (modes.some((mode) => mode.transparent)) {
        const also = mixed ? [...when, through] : when;
        found.push({ kind: 'end', at: doing[b]!.end, when: also, next: -1 });
        walk(b, also);
      }
      if (modes.some((mode) => !mode.transparent)) {
        const also = mixed ? [...when, not(through)] : when;
        found.push({ kind: 'start', at: doing[b]!.start, when: also, next: b });
      }
    }
    const job = model.jobs[activity.job]!;
    if (job.group >= 0) {
      if (activity.sink) found.push({ kind: 'landing', at: of(landing[job.group]!), when, next: -1 });
      return;
    }
    let users = activity.outs.filter((lag) => model.activities[lag.to]!.job !== activity.job).map((lag) => lag.to);
    if (users.length === 0 && activity.sink) users = [...job.users];
    for (const user of users) found.push({ kind: 'start', at: doing[user]!.start, when, next: -1 });
  };
  walk(a, []);
  return found;
}
