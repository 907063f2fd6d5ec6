/** Rows of the timing program that come from the meal itself: lags, landings, looks, the length of the day, changeovers. */
import type { TimingProgram, TimingRun } from './timing-program.js';

export function lagRows(program: TimingProgram): void {
  for (const lag of program.compiled.model.lags) {
    program.apart(program.end(lag.from), program.start(lag.to), lag.low, lag.high);
    if (lag.rate > 0) program.charge(lag.rate, program.end(lag.from), program.start(lag.to));
  }
}

export function landingRows(program: TimingProgram): void {
  const { model } = program.compiled;
  for (const job of model.jobs) {
    if (job.group < 0) continue;
    const landing = program.landing(job.group);
    for (const a of job.activities) {
      if (!model.activities[a]!.sink) continue;
      const end = program.end(a);
      program.apart(end, landing, 0);
      if (job.rate > 0) program.charge(job.rate, end, landing);
      if (job.keeps === Number.POSITIVE_INFINITY) continue;
      const waits = program.state.landing(job.group) - program.state.end(a);
      const over = program.lp.variable(model.rates.over, 0, Number.POSITIVE_INFINITY, Math.max(0, waits - job.keeps));
      const terms = [over, 1];
      for (let k = 0; k < end.terms.length; k += 2) terms.push(end.terms[k]!, end.terms[k + 1]!);
      terms.push(program.late[job.group]!, -1);
      const { due } = model.groups[job.group]!;
      program.lp.row(terms, due - end.offset - job.keeps, Number.POSITIVE_INFINITY);
    }
  }
}

/** A length may only move as far as the number of looks stays what it is. */
export function lookRows(program: TimingProgram): void {
  const { model } = program.compiled;
  for (const { id } of model.activities) {
    const { variable, slope, constant } = program.lengths[id]!;
    const { all, every, look, end, start, crew } = program.state.modeOf(id).attention;
    if (variable < 0 || all || crew === 0) continue;
    const terms = [variable, slope === 0 ? 1 : slope];
    program.lp.row(terms, Math.min(start + end, program.state.minutes[id]!) - constant, Number.POSITIVE_INFINITY);
    if (every === 0) continue;
    const looks = Math.max(0, Math.floor((program.state.minutes[id]! - end - look) / every));
    program.lp.row(
      terms,
      looks > 0 ? looks * every + look + end - constant : 0 - constant,
      (looks + 1) * every + look + end - 1 - constant,
    );
  }
}

export function dayRows(program: TimingProgram): void {
  const { model } = program.compiled;
  const { lp, state } = program;
  let first = model.serve;
  for (const { id } of model.activities) first = Math.min(first, state.start[id]!);
  model.machines.forEach((machine, m) => {
    const run = program.runs.find((r) => r.machine === m);
    if (run === undefined) return;
    const n = machine.states.length;
    first = Math.min(first, run.from - machine.transition[n * (n + 1) + run.state]!);
  });
  const day = lp.variable(model.rates.day, 0, Number.POSITIVE_INFINITY, model.serve - first);
  for (const activity of model.activities) {
    if (activity.ins.some((lag) => lag.low >= 0)) continue;
    lp.row([day, 1, program.starts[activity.id]!, 1], model.serve, Number.POSITIVE_INFINITY);
  }
  model.machines.forEach((_, m) => {
    const run = program.runs.find((r) => r.machine === m);
    if (run === undefined) return;
    for (const { slope, constant } of changes(program, -1, run)) {
      const terms = [day, 1, run.begin, 1];
      if (run.level >= 0 && slope !== 0) terms.push(run.level, -slope);
      lp.row(terms, model.serve + constant, Number.POSITIVE_INFINITY);
    }
  });
}

/** Rows for a changeover to `run` from a fixed level or room (-1): minutes >= slope x level + constant. */
function changes(program: TimingProgram, from: number, run: TimingRun): { slope: number; constant: number }[] {
  const { problem, kit, model } = program.compiled;
  const machine = model.machines[run.machine]!;
  const n = machine.states.length;
  if (run.level < 0) return [{ slope: 0, constant: machine.transition[(from < 0 ? n : from) * (n + 1) + run.state]! }];
  const { heats, cools } = problem.kitchen.appliances[kit.applianceOf[run.machine]!]!;
  const { room } = problem.kitchen;
  return [
    { slope: 1 / heats, constant: -room / heats },
    { slope: -1 / cools, constant: room / cools },
  ];
}

/** Rows of the changeover from room temperature to the first run of each machine, and between neighbouring runs. */
export function changeoverRows(program: TimingProgram): void {
  const { problem, kit, model } = program.compiled;
  const { lp } = program;
  let before: TimingRun | null = null;
  for (const run of program.runs) {
    if (before === null || before.machine !== run.machine) {
      for (const { slope, constant } of changes(program, -1, run)) {
        const terms = [run.begin, 1];
        if (run.level >= 0 && slope !== 0) terms.push(run.level, -slope);
        lp.row(terms, constant, Number.POSITIVE_INFINITY);
      }
    } else {
      const machine = model.machines[run.machine]!;
      if (run.level < 0 && before.level < 0) {
        const n = machine.states.length;
        const least = before.state === run.state ? 0 : machine.transition[before.state * (n + 1) + run.state]!;
        lp.row([run.begin, 1, before.finish, -1], least, Number.POSITIVE_INFINITY);
      } else {
        const { heats, cools } = problem.kitchen.appliances[kit.applianceOf[run.machine]!]!;
        for (const rate of [heats, -cools]) {
          const terms = [run.begin, 1, before.finish, -1];
          let fixed = 0;
          if (run.level >= 0) terms.push(run.level, -1 / rate);
          else fixed += machine.states[run.state]!.level / rate;
          if (before.level >= 0) terms.push(before.level, 1 / rate);
          else fixed -= machine.states[before.state]!.level / rate;
          lp.row(terms, fixed, Number.POSITIVE_INFINITY);
        }
        lp.row([run.begin, 1, before.finish, -1], 0, Number.POSITIVE_INFINITY);
      }
    }
    before = run;
  }
}
