/**
 * What a shared timeline tells, before any format: each cook's calls in order, what every appliance does when, and the cautions that
 * go with them.
 */
import { clean } from '../chart/text.js';
import type { View, ViewRun, ViewStep } from '../chart/view.js';
import { type ToldCall, toldCalls } from '../plan/calls.js';
import type { PlanDocument, StepRow } from '../plan/document.js';
import { RowWords } from '../plan/row-words.js';
import { idsOf } from './identity.js';

/** Whose lists; calls for nobody in particular are `anyone`'s. */
export interface Who {
  /** Names as in the meal. */
  readonly cooks: readonly string[];
  readonly anyone: boolean;
}

export interface Entry {
  /** Stays the same from plan to plan, so that a calendar knows the event again. */
  readonly id: string;
  readonly told: ToldCall;
  /** The sentence, on one line. */
  readonly say: string;
  /** `oven, rack 1`, `165 °C, fan`, `half sheet × 2`; null where it has none. */
  readonly place: string | null;
  readonly heat: string | null;
  readonly pan: string | null;
}

export interface List {
  /** The cook's name as it is shown; `Anyone` for calls that are nobody's. */
  readonly name: string;
  readonly cook: string | null;
  readonly entries: readonly Entry[];
}

export interface CardStep {
  readonly step: ViewStep;
  readonly place: string;
  readonly pan: string | null;
  /** A burner's flame; null where a run has the heat. */
  readonly flame: string | null;
}

export interface CardRun {
  readonly run: ViewRun;
  /** `165 °C, lid closed`. */
  readonly heat: string;
  /** Zones under which the fire is lit. */
  readonly lit: readonly string[];
  readonly inside: readonly CardStep[];
}

/** What to tape on an appliance's door. */
export interface Card {
  readonly name: string;
  readonly runs: readonly CardRun[];
  /** What stands on its burners, which have no runs. */
  readonly burners: readonly CardStep[];
}

export interface Shared {
  readonly view: View;
  /** Null: for all. */
  readonly who: Who | null;
  readonly lists: readonly List[];
  readonly cards: readonly Card[];
  readonly cautions: PlanDocument['cautions'];
}

export const ANYONE = 'Anyone';

/** @throws RangeError where `who` names a cook that the meal does not have. */
export function sharedOf(view: View, who: Who | null = null): Shared {
  const { problem, plan } = view;
  const strange = who?.cooks.find((name) => problem.cooks.every((cook) => cook.name !== name));
  if (strange !== undefined) throw new RangeError(`the meal has no cook "${clean(strange)}"`);
  const words = new RowWords(problem);
  const entries = entriesOf(view, words);
  // What a single cook has to do and what anyone has to do is the same.
  const all = who === null || problem.cooks.length === 1;
  const wanted = ({ cook }: List) => all || (cook === null ? who.anyone : who.cooks.includes(cook));
  const lists = listsOf(view, entries).filter(wanted);
  const dishes = new Set(lists.flatMap((list) => list.entries.flatMap(dishesIn)));
  return {
    view,
    who,
    lists,
    cards: cardsOf(view),
    cautions: plan.cautions.filter(({ dish }) => who === null || dish === null || dishes.has(dish)),
  };
}

const dishesIn = ({ told }: Entry): string[] => (isStep(told.row) ? [told.row.dish] : []);

const isStep = (row: ToldCall['row']): row is StepRow => row !== null && 'dish' in row;

function entriesOf(view: View, words: RowWords): Entry[] {
  const calls = toldCalls(view.problem, view.plan);
  const ids = idsOf(view.problem.title, calls);
  return calls.map((told, index): Entry => {
    const row = isStep(told.row) ? told.row : null;
    const heat = row ? words.heat(row) : told.row ? words.runHeat(told.row as never) : null;
    const shown = (text: string | null) => (text === null ? null : clean(text));
    return {
      id: ids[index]!,
      told,
      say: clean(told.call.say),
      place: shown(row ? words.place(row) : (told.row?.appliance ?? null)),
      heat: shown(told.kind === 'out' ? null : heat),
      pan: shown(row ? words.pan(row) : null),
    };
  });
}

/** The cooks' in the meal's order, then anyone's. A single cook is anyone. */
function listsOf({ problem }: View, entries: readonly Entry[]): List[] {
  const only = problem.cooks.length === 1 ? problem.cooks[0]! : null;
  if (only) return [{ name: clean(only.name), cook: only.name, entries }];
  const own = (cook: string | null) => entries.filter(({ told }) => told.call.cook === cook);
  const lists = problem.cooks.map(({ name }): List => ({ name: clean(name), cook: name, entries: own(name) }));
  const rest = own(null);
  return rest.length === 0 ? lists : [...lists, { name: ANYONE, cook: null, entries: rest }];
}

function cardsOf(view: View): Card[] {
  const words = new RowWords(view.problem);
  const { appliances } = view.problem.kitchen;
  return appliances.flatMap((appliance, index): Card[] => {
    const steps = view.byClock.map((at) => view.steps[at]!).filter((step) => step.appliance === index);
    const cardStep = (step: ViewStep): CardStep => ({
      step,
      place: step.places.map(clean).join(' + '),
      pan: step.row.pan === null ? null : clean(words.pan(step.row)!),
      flame: step.row.celsius === null ? words.heat(step.row) : null,
    });
    const runs = view.runs
      .filter((run) => run.appliance === index)
      .sort((a, b) => a.from - b.from)
      .map(
        (run): CardRun => ({
          run,
          heat: clean(words.runHeat(run.row)),
          lit: (appliance.modes.find((mode) => mode.name === run.row.mode)?.lit ?? []).map(clean),
          inside: steps.filter((step) => step.from >= run.from && step.to <= run.to).map(cardStep),
        }),
      );
    const burners = appliance.surface.kind === 'burners' ? steps.map(cardStep) : [];
    const name = view.applianceNames[index]!;
    return runs.length + burners.length === 0 ? [] : [{ name, runs, burners }];
  });
}
