/** What steps need at the same time and cannot all have: one sentence for each thing that is too scarce. */
import { transitionTime } from '../../kernel/model.js';
import { explainMisfit, type NamedLoad } from '../../kitchen/misfit.js';
import { showHeatSpan } from '../../problem/degrees.js';
import type { Option, Pan } from '../../problem/problem.js';
import { showList, showMinutes } from '../../units/show.js';
import type { Family } from './loosen.js';
import type { Needs } from './needs.js';
import { bothOrAll, clockWords, heatedOptions, numberWord, stepNames, thereAre } from './words.js';

/** Steps that a clash needs something of a family for, in the order of their ids. */
export function stepsOf({ needs }: Needs, family: Family): number[] {
  return needs
    .filter((need) => need.family === family)
    .map((need) => need.index)
    .sort((a, b) => a - b);
}

export function heatSentence(clash: Needs): string[] {
  const { problem, model, kit } = clash.compiled;
  const steps = stepsOf(clash, 'heat');
  if (steps.length === 0) return [];
  const options = steps.map((id) => heatedOptions(problem, id));
  const appliances = [...new Set(options.flat().map((option) => option.place.appliance))].sort((a, b) => a - b);
  const modes = new Set(options.flat().map((option) => `${option.place.appliance} ${option.place.mode}`));
  const named = stepNames(problem, steps).map((name, i) => {
    const { place } = options[i]![0]!;
    const { dial, modes: all } = problem.kitchen.appliances[place.appliance]!;
    const settings = options[i]!.filter((option) => option.place.appliance === place.appliance).flatMap(
      (o) => o.settings,
    );
    const heat = showHeatSpan(problem, Math.min(...settings), Math.max(...settings), dial.unit);
    return `${name} at ${heat}${modes.size > appliances.length ? ` (${all[place.mode]!.name})` : ''}`;
  });
  const where = sayOr(appliances.map((a) => `the ${problem.kitchen.appliances[a]!.name}`));
  const least = leastChange(clash, steps);
  if (steps.length === 1) {
    const warm = Math.min(
      ...model.activities[steps[0]!]!.modes.flatMap(({ machine, settings }) =>
        machine < 0 ? [0] : settings.map((setting) => transitionTime(model.machines[machine]!, -1, setting.state)),
      ),
    );
    return [`${named[0]!} needs ${where}, which takes at least ${showMinutes(warm)} to get there from the cold.`];
  }
  const change = least > 0 ? `; from one to the other it takes at least ${showMinutes(least)}` : '';
  const one = appliances.length === 1 && kit.machineOf[appliances[0]!]! >= 0 ? 'it has' : 'each has';
  return [
    `${showList(named)} ${bothOrAll(steps.length)} need ${where}${when(clash, steps)}, and ${one} one heat at a time${change}.`,
  ];
}

/** The least minutes between two of the steps on one machine, where they never have one heat in common. */
function leastChange({ compiled: { model } }: Needs, steps: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const a of steps) {
    for (const b of steps) {
      if (a === b) continue;
      for (const one of model.activities[a]!.modes) {
        for (const two of model.activities[b]!.modes) {
          if (one.machine < 0 || one.machine !== two.machine) continue;
          const machine = model.machines[one.machine]!;
          for (const s of one.settings) {
            for (const t of two.settings) least = Math.min(least, transitionTime(machine, s.state, t.state));
          }
        }
      }
    }
  }
  return Number.isFinite(least) ? least : 0;
}

export function spaceSentence(clash: Needs): string[] {
  const { problem } = clash.compiled;
  const steps = stepsOf(clash, 'space');
  if (steps.length === 0) return [];
  const first = heatedOptions(problem, steps[0]!)[0]!;
  const appliance = problem.kitchen.appliances[first.place.appliance]!;
  const loads = steps.flatMap((id): NamedLoad[] => {
    const option = heatedOptions(problem, id).find((one) => one.place.appliance === first.place.appliance);
    if (option === undefined || option.load === null) return [];
    return Array.from({ length: option.pans }, () => ({
      ...option.load!,
      name: loadName(problem.kitchen.pans, option),
    }));
  });
  const others = problem.kitchen.pans.map((pan) => ({ name: pan.name, footprint: pan.footprint, height: pan.height }));
  const misfit = explainMisfit(appliance, appliance.modes[first.place.mode]!, loads, others);
  const need = steps.length === 1 ? 'needs' : 'need';
  const told = misfit === null ? ', and no room was found for all of it' : `: ${misfit}`;
  return [`${showList(stepNames(problem, steps))} ${need} room in the ${appliance.name}${when(clash, steps)}${told}.`];
}

const loadName = (pans: readonly Pan[], option: Option): string =>
  option.pan === null ? 'piece itself' : pans[option.pan]!.name;

export function panSentences(clash: Needs): string[] {
  const { problem } = clash.compiled;
  const groups = new Map<string, number[]>();
  for (const id of stepsOf(clash, 'pan')) {
    const pans = [
      ...new Set(problem.steps[id]!.options.flatMap((option) => (option.pan === null ? [] : [option.pan]))),
    ];
    const key = pans.sort((a, b) => a - b).join();
    groups.set(key, [...(groups.get(key) ?? []), id]);
  }
  return [...groups].map(([key, steps]) => {
    const pans = key.split(',').map((index) => problem.kitchen.pans[Number(index)]!);
    const count = pans.reduce((sum, pan) => sum + pan.count, 0);
    const asked = steps.map((id) => Math.min(...problem.steps[id]!.options.map((option) => option.pans)));
    const wanted = asked.reduce((sum, one) => sum + one, 0);
    const names = showList(stepNames(problem, steps));
    const pan = sayOr(pans.map((one) => one.name));
    const one = steps.length === 1;
    const kept = steps.every((id) => staysTillServed(clash, id));
    const keep = one ? ' and keeps it until it is served' : ' and keep it until they are served';
    const many = wanted === steps.length ? '' : ` (${wanted} in all)`;
    const need = one ? 'needs' : 'each need';
    return `${names} ${need} the ${pan}${many}${when(clash, steps)}${kept ? keep : ''}; ${thereAre(count)}.`;
  });
}

/** No later step of the dish takes the food out of its pan. */
function staysTillServed({ compiled: { model } }: Needs, step: number): boolean {
  const stays = (a: number): boolean => {
    const activity = model.activities[a]!;
    if (activity.empties) return false;
    return activity.nexts.every((b) => model.activities[b]!.modes.every((mode) => mode.transparent) && stays(b));
  };
  return model.jobs[model.activities[step]!.job]!.group >= 0 && stays(step);
}

export function burnerSentence(clash: Needs): string[] {
  const { problem } = clash.compiled;
  const steps = stepsOf(clash, 'burner');
  if (steps.length === 0) return [];
  const burners = new Set<string>();
  for (const id of steps) {
    for (const { place } of problem.steps[id]!.options) {
      if (place.kind === 'burner') for (const burner of place.burners) burners.add(`${place.appliance} ${burner}`);
    }
  }
  const need = steps.length === 1 ? 'needs' : 'each need';
  const carry = `that ${burners.size === 1 ? 'carries' : 'carry'} ${steps.length === 1 ? 'the pan' : 'their pans'}`;
  return [
    `${showList(stepNames(problem, steps))} ${need} a burner${when(clash, steps)}, and ${thereAre(burners.size)} ${carry}.`,
  ];
}

export function boardSentence(clash: Needs): string[] {
  const { problem } = clash.compiled;
  const steps = stepsOf(clash, 'board');
  if (steps.length === 0) return [];
  const need = steps.length === 1 ? 'needs' : 'each need';
  return [
    `${showList(stepNames(problem, steps))} ${need} a board${when(clash, steps)}, and ${thereAre(problem.kitchen.boards)}.`,
  ];
}

/** ` at the same time (19:24 to 19:56 when served at 20:00)`, or nothing where no timing shows it. */
export function when({ compiled: { problem, model }, picture }: Needs, steps: readonly number[]): string {
  if (steps.length < 2) return '';
  if (picture === null) return ' at the same time';
  const from = Math.max(...steps.map((id) => picture.start[id]!));
  const to = Math.min(...steps.map((id) => picture.end(id)));
  if (from >= to) return '';
  const served = Math.max(...model.groups.map((_, g) => picture.landing(g)));
  const clock = (minute: number): string => clockWords(problem, minute);
  return ` at the same time (${clock(from)} to ${clock(to)} when served at ${clock(served)})`;
}

export const sayOr = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;

export const cooksWord = (count: number): string => `${numberWord(count)} ${count === 1 ? 'cook' : 'cooks'}`;
