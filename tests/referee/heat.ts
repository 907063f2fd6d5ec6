/** Heat runs: one state at a time, changeovers between them, and what runs and idling cost. */
import { Sum, type Variable } from './program.js';
import type { Timetable } from './timetable.js';
import { standsOn, type Way } from './ways.js';

interface HeatState {
  readonly mode: number;
  readonly celsius: number;
}

/** Adds the runs of every appliance; returns, for each, the minute at which its first changeover begins (or the horizon). */
export function addHeat(table: Timetable): Sum[] {
  return table.problem.kitchen.appliances.flatMap(({ surface }, a) =>
    surface.kind === 'burners' ? [] : [addAppliance(table, a)],
  );
}

function addAppliance(table: Timetable, appliance: number): Sum {
  const { problem, program, horizon } = table;
  const { room } = problem.kitchen;
  const { heats, cools } = problem.kitchen.appliances[appliance]!;
  const { rates } = problem;
  const changeover = (from: number, to: number): number =>
    Math.ceil((to > from ? (to - from) / heats : (from - to) / cools) - 1e-9);

  const users = problem.steps.filter((step) => step.options.some((option) => standsOn(option, appliance)));
  const inState = (step: number, state: HeatState | null) => (way: Way) => {
    const { place } = problem.steps[step]!.options[way.option]!;
    return (
      place.kind === 'heated' &&
      place.appliance === appliance &&
      (state === null || (place.mode === state.mode && way.celsius === state.celsius))
    );
  };
  const states: HeatState[] = [];
  for (const { options } of users) {
    for (const { place, settings } of options) {
      if (place.kind !== 'heated' || place.appliance !== appliance) continue;
      for (const celsius of settings) {
        if (!states.some((state) => state.mode === place.mode && state.celsius === celsius)) {
          states.push({ mode: place.mode, celsius });
        }
      }
    }
  }

  // on[s][minute] is 1 while a run in state s goes on; begun[s][minute] where one begins.
  const on: Variable[][] = states.map(() => Array.from({ length: horizon }, () => program.binary()));
  const runs = new Sum();
  for (const [s, state] of states.entries()) {
    const warmUp = changeover(room, state.celsius);
    const begins = new Sum();
    for (let minute = 0; minute < horizon; minute++) {
      const now = on[s]![minute]!;
      if (minute < warmUp) program.row(0, new Sum().add(now), 0);
      for (const step of users) {
        program.order(table.during(step.id, minute, inState(step.id, state)), new Sum().add(now));
      }
      const begun = program.number(0, 1);
      const rise = new Sum().add(now);
      if (minute > 0) rise.add(on[s]![minute - 1]!, -1);
      program.order(rise, new Sum().add(begun));
      runs.add(begun);
      // Follows from the rows above for whole numbers; it makes the relaxation tight.
      begins.add(begun);
      for (const step of users) program.order(table.started(step.id, minute, inState(step.id, state)), begins);
      for (let later = 1; minute + later < horizon; later++) {
        const tooSoon = states.flatMap((other, o) => (changeover(state.celsius, other.celsius) >= later ? [o] : []));
        if (tooSoon.length === 0) break;
        const clash = new Sum().add(now);
        for (const o of tooSoon) clash.add(on[o]![minute + later]!);
        program.row(0, clash, 1);
      }
    }
  }

  // The first run costs nothing; the others do.
  const used = program.number(0, 1);
  program.order(new Sum().add(used), runs);
  program.pay(new Sum().addSum(runs).add(used, -1), rates.runs);

  // first[s][minute] is 1 where the appliance's first run begins: nothing is on before it, and it is on then.
  const first = states.map(() => Array.from({ length: horizon }, () => program.binary()));
  const some = new Sum();
  const opening = new Sum().addConstant(horizon);
  const hasBegun = new Sum();
  for (let minute = 0; minute < horizon; minute++) {
    const alight = new Sum();
    const loaded = new Sum();
    for (const [s, state] of states.entries()) {
      const variable = first[s]![minute]!;
      some.add(variable);
      hasBegun.add(variable);
      opening.add(variable, minute - changeover(room, state.celsius) - horizon);
      program.order(new Sum().add(variable), new Sum().add(on[s]![minute]!));
      alight.add(on[s]![minute]!);
    }
    program.row(0, alight, 1);
    program.order(alight, hasBegun);
    // A minute is idle when a run goes on and nothing is in it.
    for (const step of users) {
      loaded.addSum(table.during(step.id, minute, inState(step.id, null)));
      program.order(table.started(step.id, minute, inState(step.id, null)), hasBegun);
    }
    const full = program.number(0, 1);
    program.order(new Sum().add(full), loaded);
    program.pay(new Sum().addSum(alight).add(full, -1), rates.idle);
  }
  program.row(0, some, 1);
  return opening;
}
