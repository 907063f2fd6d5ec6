/** What the plan's screen shows and how keys change it: pure, so that every move can be tested without a terminal. */
import { mainStretch, wholeStretch } from '../../src/chart/busy.js';
import { type Lane, LOOKS, type Look, lanesOf } from '../../src/chart/lanes.js';
import type { Stretch } from '../../src/chart/scale.js';
import type { View } from '../../src/chart/view.js';

export interface PlanState {
  readonly look: Look;
  /** Index of the step under the cursor; null when the plan has none. */
  readonly cursor: number | null;
  /** The lane on which the cursor is, of the look's lanes. */
  readonly lane: number;
  /** Minutes shown; `whole`: all of them, with folds. */
  readonly window: Stretch | 'whole';
  readonly pane: 'chart' | 'calls' | 'help';
  /** First line of the list that is shown, in the panes that are lists. */
  readonly scroll: number;
}

export type Action =
  | { readonly do: 'step'; readonly by: 1 | -1 }
  | { readonly do: 'lane'; readonly by: number }
  | { readonly do: 'edge'; readonly end: 'first' | 'last' }
  | { readonly do: 'dish'; readonly letter: string }
  | { readonly do: 'look'; readonly look: Look | 'next' }
  | { readonly do: 'zoom'; readonly by: 1 | -1 }
  | { readonly do: 'shift'; readonly by: 1 | -1 }
  | { readonly do: 'fit' | 'whole' | 'calls' | 'help' | 'close' };

/** Minutes that the closest look shows. */
const CLOSEST = 10;
const ZOOM = 1.5;

export function firstState(view: View): PlanState {
  const window = mainStretch(view);
  const cursor = view.byClock.find((step) => view.steps[step]!.from >= window.from) ?? view.byClock[0] ?? null;
  return onStep(view, { look: 'place', cursor, lane: 0, window, pane: 'chart', scroll: 0 }, cursor);
}

export function reduce(view: View, state: PlanState, action: Action): PlanState {
  if (state.pane !== 'chart') return reduceList(view, state, action);
  switch (action.do) {
    case 'step':
      return move(view, state, action.by);
    case 'lane':
      return moveLane(view, state, action.by);
    case 'edge':
      return onStep(view, state, (action.end === 'first' ? view.byClock[0] : view.byClock.at(-1)) ?? null);
    case 'dish':
      return toDish(view, state, action.letter);
    case 'look':
      return onStep(
        view,
        { ...state, look: action.look === 'next' ? nextLook(state.look) : action.look },
        state.cursor,
      );
    case 'zoom':
      return { ...state, window: zoomed(view, state, action.by === 1 ? 1 / ZOOM : ZOOM) };
    case 'shift':
      return { ...state, window: shifted(view, state.window, action.by) };
    case 'fit':
      return { ...state, window: mainStretch(view) };
    case 'whole':
      return { ...state, window: 'whole' };
    default:
      return changePane(state, action.do);
  }
}

function reduceList(view: View, state: PlanState, action: Action): PlanState {
  switch (action.do) {
    case 'lane':
      return { ...state, scroll: Math.max(0, state.scroll + action.by) };
    case 'step':
      return { ...state, scroll: Math.max(0, state.scroll + action.by) };
    case 'edge':
      return { ...state, scroll: action.end === 'first' ? 0 : Number.MAX_SAFE_INTEGER };
    case 'look':
      return reduce(view, { ...state, pane: 'chart' }, action);
    case 'calls':
    case 'help':
    case 'close':
      return changePane(state, action.do);
    default:
      return state;
  }
}

function changePane(state: PlanState, pane: 'calls' | 'help' | 'close'): PlanState {
  if (pane === 'close' || pane === state.pane) return { ...state, pane: 'chart', scroll: 0 };
  return { ...state, pane, scroll: 0 };
}

const nextLook = (look: Look): Look => LOOKS[(LOOKS.indexOf(look) + 1) % LOOKS.length]!;

/** The cursor on a step: the first lane that shows it, and a window that shows it. */
function onStep(view: View, state: PlanState, cursor: number | null, lane?: number): PlanState {
  const lanes = lanesOf(view, state.look);
  const found = lanes.findIndex((each) => each.bars.some((bar) => bar.step === cursor));
  return { ...state, cursor, lane: lane ?? Math.max(0, found), window: showing(view, state.window, cursor) };
}

function showing(view: View, window: Stretch | 'whole', cursor: number | null): Stretch | 'whole' {
  const step = cursor === null ? undefined : view.steps[cursor];
  if (!step || window === 'whole') return window;
  const span = window.to - window.from;
  const margin = span / 20;
  if (step.from < window.from) return { from: step.from - margin, to: step.from - margin + span };
  if (step.from >= window.to) return { from: step.from + margin - span / 2, to: step.from + margin + span / 2 };
  return window;
}

function move(view: View, state: PlanState, by: 1 | -1): PlanState {
  const place = state.cursor === null ? -1 : view.byClock.indexOf(state.cursor);
  const next = view.byClock[place + by];
  return next === undefined ? state : onStep(view, state, next);
}

/** To the nearest lane that has a step, over as many such lanes; there to the step nearest in time. */
function moveLane(view: View, state: PlanState, by: number): PlanState {
  const lanes = lanesOf(view, state.look);
  const full = lanes.flatMap((lane, index) => (lane.bars.some((bar) => bar.step !== null) ? [index] : []));
  const here = full.indexOf(state.lane);
  const target = full[Math.max(0, Math.min(full.length - 1, here + by))];
  if (target === undefined || target === state.lane) return state;
  return onStep(view, state, nearest(view, lanes[target]!, state.cursor), target);
}

function nearest(view: View, lane: Lane, cursor: number | null): number | null {
  const middle = cursor === null ? 0 : (view.steps[cursor]!.from + view.steps[cursor]!.to) / 2;
  const away = (from: number, to: number) => Math.max(0, from - middle, middle - to);
  const bars = lane.bars.filter((bar) => bar.step !== null);
  return bars.sort((a, b) => away(a.from, a.to) - away(b.from, b.to) || a.from - b.from)[0]?.step ?? cursor;
}

/** The dish's next step after the cursor, else its first. */
function toDish(view: View, state: PlanState, letter: string): PlanState {
  const dish = view.dishes.find((each) => each.letter === letter);
  if (!dish) return state;
  const own = view.byClock.filter((step) => view.steps[step]!.dish === dish.index);
  const place = state.cursor === null ? -1 : own.indexOf(state.cursor);
  return own.length === 0 ? state : onStep(view, state, own[(place + 1) % own.length]!);
}

function zoomed(view: View, state: PlanState, factor: number): Stretch {
  const window = state.window === 'whole' ? mainStretch(view) : state.window;
  const whole = wholeStretch(view);
  const span = Math.max(CLOSEST, Math.min(whole.to - whole.from, (window.to - window.from) * factor));
  const step = state.cursor === null ? undefined : view.steps[state.cursor];
  const seen = step && step.from >= window.from && step.from <= window.to;
  const pivot = seen ? step.from : (window.from + window.to) / 2;
  const share = (pivot - window.from) / (window.to - window.from);
  const from = pivot - share * span;
  return within({ from, to: from + span }, whole);
}

function shifted(view: View, window: Stretch | 'whole', by: 1 | -1): Stretch {
  const from = window === 'whole' ? mainStretch(view) : window;
  const step = ((from.to - from.from) / 4) * by;
  return within({ from: from.from + step, to: from.to + step }, wholeStretch(view));
}

function within(window: Stretch, whole: Stretch): Stretch {
  const span = window.to - window.from;
  const from = Math.max(whole.from, Math.min(window.from, Math.max(whole.from, whole.to - span)));
  return { from, to: from + span };
}
