/** Where a row of the plan is done, how hot and in what: the words of which calls and lists are made. */
import { showCoreHeat, showHeat } from '../problem/degrees.js';
import { stepKey } from '../problem/hours.js';
import type { Appliance, Option, Problem, Step } from '../problem/problem.js';
import type { RunRow, StepRow } from './document.js';

/** The names of the places that it fills. */
export const placesOf = (row: StepRow): string[] => (row.place === null ? [] : [row.place].flat());

export class RowWords {
  private readonly appliances: ReadonlyMap<string, Appliance>;
  private readonly steps: ReadonlyMap<string, Step>;

  constructor(private readonly problem: Problem) {
    this.appliances = new Map(problem.kitchen.appliances.map((appliance) => [appliance.name, appliance]));
    this.steps = new Map(problem.steps.map((step) => [stepKey(problem, step.id), step]));
  }

  /** `oven, rack 1`, `board 2`; null for what takes no place. */
  place(row: StepRow): string | null {
    const names = placesOf(row).join(' and ');
    if (row.appliance === null) return names === '' ? null : names;
    return `${row.appliance}, ${names}`;
  }

  /** The same within a sentence: ` in the oven, rack 1`, ` at board 2`, or nothing. */
  where(row: StepRow): string {
    const place = this.place(row);
    if (place === null) return '';
    if (row.appliance === null) return ` at ${place}`;
    const kind = this.appliances.get(row.appliance)?.kind;
    return ` ${kind === 'oven' || kind === 'warming drawer' ? 'in' : 'on'} the ${place}`;
  }

  /** `half sheet`, `half sheet × 2`; null without one. */
  pan(row: StepRow): string | null {
    if (row.pan === null) return null;
    const count = Array.isArray(row.place) ? row.place.length : 1;
    return count > 1 ? `${row.pan} × ${count}` : row.pan;
  }

  /** `165 °C, lid closed`, `medium flame`; null off the heat. */
  heat(row: StepRow): string | null {
    if (row.appliance === null) return null;
    // A mode that is named like the work has been said.
    const mode = row.mode === null || row.mode === row.work ? null : row.mode;
    if (row.celsius !== null) return this.inMode(row.appliance, row.mode, row.celsius, mode ?? '');
    const flame = this.optionOf(row)?.flame;
    return flame ? `${flame} flame` : null;
  }

  /** `165 °C, lid closed`, `180 °C, fan`. */
  runHeat = (run: Pick<RunRow, 'appliance' | 'mode' | 'celsius'>): string =>
    this.inMode(run.appliance, run.mode, run.celsius, run.mode);

  /** A core temperature, in whole degrees. */
  core(row: StepRow, celsius: number): string {
    return showCoreHeat(this.problem, celsius, this.appliances.get(row.appliance ?? '')?.dial.unit);
  }

  /** `words` say the mode where it has no lid. */
  private inMode(name: string, modeName: string | null, celsius: number, words: string): string {
    const appliance = this.appliances.get(name);
    const mode = appliance?.modes.find((each) => each.name === modeName);
    const manner = mode?.lid ? `lid ${mode.lid}` : words;
    return `${showHeat(this.problem, celsius, appliance?.dial.unit)}${manner === '' ? '' : `, ${manner}`}`;
  }

  /** The way of doing the step that the row took, as far as a burner's flame needs it. */
  private optionOf(row: StepRow): Option | undefined {
    const options = this.steps.get(`${row.dish}/${row.step}`)?.options ?? [];
    return options.find(({ place, pan }) => {
      if (place.kind !== 'burner') return false;
      const appliance = this.problem.kitchen.appliances[place.appliance];
      const panName = pan === null ? null : (this.problem.kitchen.pans[pan]?.name ?? null);
      if (appliance?.name !== row.appliance || panName !== row.pan || appliance.surface.kind !== 'burners')
        return false;
      const { burners } = appliance.surface;
      return place.burners.some((burner) => placesOf(row).includes(burners[burner]?.name ?? ''));
    });
  }
}
