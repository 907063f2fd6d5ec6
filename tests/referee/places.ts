/** Boards, burners, and what stands on racks and grates. */
import { Sum } from './program.js';
import { areaOf, halves } from './scope.js';
import type { Timetable } from './timetable.js';
import { standsOn, type Way } from './ways.js';

export function addPlaces(table: Timetable): void {
  addBoards(table);
  for (const [a, { surface }] of table.problem.kitchen.appliances.entries()) {
    if (surface.kind === 'burners') addBurners(table, a, surface.burners.length);
    else addLevels(table, a);
  }
}

function addBoards(table: Timetable): void {
  const { problem, program } = table;
  for (let minute = 0; minute < table.horizon; minute++) {
    const busy = new Sum();
    for (const step of problem.steps) {
      busy.addSum(table.during(step.id, minute, (way) => step.options[way.option]!.place.kind === 'board'));
    }
    program.row(0, busy, problem.kitchen.boards);
  }
}

function addBurners(table: Timetable, appliance: number, count: number): void {
  const { problem, program } = table;
  for (let burner = 0; burner < count; burner++) {
    for (let minute = 0; minute < table.horizon; minute++) {
      const busy = new Sum();
      for (const step of problem.steps) {
        busy.addSum(
          table.during(step.id, minute, (way) => {
            const { place } = step.options[way.option]!;
            return place.kind === 'burner' && place.appliance === appliance && way.burner === burner;
          }),
        );
      }
      program.row(0, busy, 1);
    }
  }
}

/** Half loads count one and whole loads two, of two a level; where levels are apart, heights of all levels add up. */
function addLevels(table: Timetable, appliance: number): void {
  const { problem, program } = table;
  const { surface, modes } = problem.kitchen.appliances[appliance]!;
  const levels = surface.kind === 'racks' ? surface.count : 1;
  const apart = table.levels.get(appliance) === 'apart';
  for (const [mode] of modes.entries()) {
    const entries = problem.steps.flatMap((step) =>
      step.options.flatMap((option, index) =>
        standsOn(option, appliance) && option.place.kind === 'heated' && option.place.mode === mode
          ? [{ step: step.id, option: index, load: option.load! }]
          : [],
      ),
    );
    if (entries.length === 0) continue;
    const half = halves(
      entries.map((entry) => entry.load),
      areaOf(problem, appliance, mode),
    );
    for (let minute = 0; minute < table.horizon; minute++) {
      const used = (level: number | null): Sum => {
        const sum = new Sum();
        for (const [k, { step, option }] of entries.entries()) {
          const choose = (way: Way): boolean => way.option === option && way.level === level;
          sum.addSum(table.during(step, minute, choose), half[k] ? 1 : 2);
        }
        return sum;
      };
      if (!apart) {
        program.row(0, used(null), 2 * levels);
        continue;
      }
      if (surface.kind !== 'racks') throw new Error('only racks have levels');
      const heights = new Sum();
      for (let level = 1; level <= levels; level++) {
        program.row(0, used(level), 2);
        const height = program.number(0, surface.height);
        heights.add(height);
        for (const { step, option, load } of entries) {
          const here = table.during(step, minute, (way) => way.option === option && way.level === level);
          program.order(new Sum().addSum(here, load.height + surface.clearance), new Sum().add(height));
        }
      }
      program.row(0, heights, surface.height);
    }
  }
}
