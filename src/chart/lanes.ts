/**
 * What a chart shows, before any width is known: groups of lanes with bars in minutes. Three ways to look at one plan: by
 * place, by dish and by cook.
 */
import { type Appliance, WORKS } from '../problem/problem.js';
import { type Texture, textureOf } from './glyphs.js';
import type { Role } from './line.js';
import { clean } from './text.js';
import type { View, ViewStep } from './view.js';

export const LOOKS = ['place', 'dish', 'cook'] as const;
/** A way to look at the plan. */
export type Look = (typeof LOOKS)[number];

export interface Bar {
  /** Index into `View.steps`; null for what is no step (a dish's wait, a lit zone). */
  readonly step: number | null;
  readonly dish: number | null;
  readonly from: number;
  readonly to: number;
  readonly texture: Texture | 'lit';
  readonly label: string;
  /** What stands when there is no room for the label. */
  readonly short: string;
  /** Cells of the fill that the label leaves to be seen. */
  readonly bare: number;
}

export interface Lane {
  /** Before the name, never cut: a dish's letter, or nothing. */
  readonly mark: string;
  /** Empty where the lane goes on with the one above. */
  readonly label: string;
  readonly role: Role;
  readonly indent: number;
  /** A group of lanes begins here; a blank row before it reads well where there is room. */
  readonly opens: boolean;
  /** Index of the appliance whose temperature the lane shows, or null. */
  readonly heat: number | null;
  readonly bars: readonly Bar[];
}

/** The lanes of a look, from top to bottom. */
export function lanesOf(view: View, look: Look): Lane[] {
  if (look === 'dish') return dishLanes(view);
  return look === 'cook' ? cookLanes(view) : [...placeLanes(view), ...cookLanes(view)];
}

/** Bars in as few rows as they need, in the order of their start; what is in one row does not overlap. */
function rowsOf(bars: readonly Bar[]): Bar[][] {
  const rows: { end: number; bars: Bar[] }[] = [];
  for (const bar of [...bars].sort((a, b) => a.from - b.from || a.to - b.to)) {
    const row = rows.find((candidate) => candidate.end <= bar.from);
    if (row) {
      row.bars.push(bar);
      row.end = Math.max(row.end, bar.to);
    } else {
      rows.push({ end: bar.to, bars: [bar] });
    }
  }
  return rows.map((row) => row.bars);
}

function lane(label: string, bars: readonly Bar[], more: Partial<Lane> = {}): Lane[] {
  const rows = rowsOf(bars);
  if (rows.length === 0) rows.push([]);
  return rows.map((row, index) => ({
    mark: index === 0 ? (more.mark ?? '') : '',
    label: index === 0 ? label : '',
    role: more.role ?? 'plain',
    indent: more.indent ?? 1,
    opens: index === 0 && (more.opens ?? false),
    heat: index === 0 ? (more.heat ?? null) : null,
    bars: row,
  }));
}

function stepBar(view: View, step: ViewStep): Bar {
  const letter = view.dishes[step.dish]!.letter;
  return {
    step: step.index,
    dish: step.dish,
    from: step.from,
    to: step.to,
    texture: textureOf(step.work),
    label: `${letter} ${step.name}`,
    short: letter,
    bare: 0,
  };
}

/** One lane a place, under the lane of its appliance's temperature; then boards; then what takes no place. */
export function placeLanes(view: View): Lane[] {
  const { appliances } = view.problem.kitchen;
  const lanes = appliances.flatMap((appliance, index) => applianceLanes(view, appliance, index));
  const placeless = view.steps.filter((step) => step.appliance === null);
  const boards = [...new Set(placeless.flatMap((step) => step.places))].sort(byNumber);
  for (const [index, board] of boards.entries()) {
    const bars = placeless.filter((step) => step.places.includes(board)).map((step) => stepBar(view, step));
    lanes.push(...lane(clean(board), bars, { indent: 0, role: 'strong', opens: index === 0 }));
  }
  const aside = placeless.filter((step) => step.places.length === 0);
  for (const [index, work] of WORKS.filter((each) => aside.some((step) => step.work === each)).entries()) {
    const bars = aside.filter((step) => step.work === work).map((step) => stepBar(view, step));
    lanes.push(...lane(work, bars, { indent: 0, role: 'strong', opens: index === 0 && boards.length === 0 }));
  }
  return lanes;
}

const byNumber = (a: string, b: string) => a.localeCompare(b, 'en', { numeric: true });

function applianceLanes(view: View, appliance: Appliance, index: number): Lane[] {
  const steps = view.steps.filter((step) => step.appliance === index);
  const runs = view.runs.filter((run) => run.appliance === index);
  if (steps.length === 0 && runs.length === 0) return [];
  const title = lane(view.applianceNames[index]!, [], { indent: 0, role: 'strong', heat: index, opens: true });
  const places = placeNames(appliance).map((place) => {
    const bars = steps.filter((step) => step.places.includes(place)).map((step) => stepBar(view, step));
    return { place, bars: [...bars, ...litBars(view, appliance, index, place)] };
  });
  const used = appliance.surface.kind === 'burners' ? places.filter(({ bars }) => bars.length > 0) : places;
  return [...title, ...used.flatMap(({ place, bars }) => lane(clean(place), bars))];
}

/** As they lie before the cook: zones from left to right, racks from the top. */
function placeNames(appliance: Appliance): string[] {
  const { surface } = appliance;
  if (surface.kind === 'grate') return surface.zones.map((zone) => zone.name);
  if (surface.kind === 'burners') return surface.burners.map((burner) => burner.name);
  return Array.from({ length: surface.count }, (_, level) => `rack ${surface.count - level}`);
}

function litBars(view: View, appliance: Appliance, index: number, place: string): Bar[] {
  return view.runs
    .filter((run) => run.appliance === index)
    .filter((run) => appliance.modes.find((mode) => mode.name === run.row.mode)?.lit.includes(place))
    .map((run) => ({
      step: null,
      dish: null,
      from: run.from,
      to: run.to,
      texture: 'lit' as const,
      label: 'lit',
      short: '',
      bare: 0,
    }));
}

/** One lane a dish: its steps, and dotted where it waits. */
export function dishLanes(view: View): Lane[] {
  return view.dishes.flatMap((dish) => {
    const steps = view.steps.filter((step) => step.dish === dish.index);
    const bars = steps.map(
      (step): Bar => ({
        ...stepBar(view, step),
        label: step.name,
        short: step.name,
        bare: 1,
      }),
    );
    const [first, ...more] = lane(dish.name, bars, { indent: 0, role: `dish ${dish.index}`, mark: `${dish.letter} ` });
    if (!first) return [];
    return [{ ...first, bars: [...waits(steps, dish.index, dish.serve), ...first.bars] }, ...more];
  });
}

function waits(steps: readonly ViewStep[], dish: number, serve: number | null): Bar[] {
  const bars: Bar[] = [];
  let done: number | null = null;
  const until = (to: number) => {
    if (done === null || to <= done) return;
    bars.push({ step: null, dish, from: done, to, texture: 'wait', label: '', short: '', bare: 0 });
  };
  for (const step of [...steps].sort((a, b) => a.from - b.from)) {
    until(step.from);
    done = Math.max(done ?? step.to, step.to);
  }
  if (serve !== null) until(serve);
  return bars;
}

/** One lane a cook: the stretches of hands. */
export function cookLanes(view: View): Lane[] {
  return view.cookNames.flatMap((name, cook) => {
    const bars = view.steps.flatMap((step) =>
      step.hands
        .filter((hand) => hand.cook === cook)
        .map((hand): Bar => ({ ...stepBar(view, step), from: hand.from, to: hand.to, texture: 'hands' })),
    );
    return lane(name, bars, { indent: 0, role: 'strong', opens: cook === 0 });
  });
}
