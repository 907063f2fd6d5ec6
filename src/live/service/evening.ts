/** How one evening happens to go: how long each step really takes, and what goes wrong. All of it hangs on the seed alone. */
import { deviates, minutesAt, type Spread, WRITTEN_DEVIATIONS } from '../../chance/draws.js';
import { STANDARD_DEVIATIONS } from '../../heat/spread.js';
import { Rng } from '../../kernel/rng.js';
import type { Option, Problem } from '../../problem/problem.js';
import type { Loss } from '../happened.js';
import { minutesOf } from '../reshuffle/doing.js';

export type Mishap =
  | { readonly kind: 'serve'; readonly at: number; readonly serve: number }
  | { readonly kind: 'lost'; readonly at: number; readonly loss: Loss }
  | { readonly kind: 'gone'; readonly at: number; readonly cook: number };

/** A step of which nobody says how long it may take is mostly done in this many times its minutes. */
const UNSAID = { low: 0.9, high: 1.15 };

/** How many times its likely minutes a step takes on this evening, in whatever place it is done: by step. */
export function pacesOf(problem: Problem, seed: number): number[] {
  return problem.steps.map(({ id }) => deviates(1, seed, id)[0]!);
}

/** Minutes that a way of doing a step takes at a temperature, at so many deviations from the likely ones; null where that is the cook's choice. */
export function realMinutes(option: Option, celsius: number | null, deviations: number): number | null {
  const { duration, forecasts } = option;
  if (duration.kind === 'range') return null;
  const likely = minutesOf(option, celsius);
  const forecast = forecasts?.find((each) => each.celsius === celsius);
  let spread: Spread = {
    low: likely * UNSAID.low,
    likely,
    high: likely * UNSAID.high,
    deviations: WRITTEN_DEVIATIONS,
  };
  if (forecast !== undefined && Number.isFinite(forecast.high)) {
    const { low, high } = forecast;
    spread = { low: Math.min(low, likely), likely, high: Math.max(high, likely), deviations: STANDARD_DEVIATIONS };
  } else if (duration.kind === 'fixed' && duration.low < duration.high) {
    spread = { low: duration.low, likely, high: duration.high, deviations: WRITTEN_DEVIATIONS };
  }
  return Math.max(1, Math.round(minutesAt(spread, deviations)));
}

/** Shares of evenings on which it happens. */
const OFTEN = { serve: 0.3, burner: 0.2, pan: 0.1, gone: 0.15 };

/** Serving moved by up to half an hour, a burner or a pan lost, a cook who leaves: each at some minute from `from` until shortly before serving. */
export function mishapsOf(problem: Problem, seed: number, from: number): Mishap[] {
  const rng = new Rng(seed ^ 0x51ed270b);
  const { serve, kitchen, cooks } = problem;
  const minute = (): number => from + rng.below(Math.max(1, serve - 20 - from));
  const out: Mishap[] = [];
  if (rng.real() < OFTEN.serve) {
    const by = 5 * (1 + rng.below(6));
    const at = minute();
    // Guests who come sooner say so in time.
    const sooner = rng.below(3) === 0 && serve - at > 120;
    out.push({ kind: 'serve', at, serve: sooner ? serve - Math.min(by, 15) : serve + by });
  }
  const burners = kitchen.appliances.flatMap(({ surface }, appliance) =>
    surface.kind === 'burners' ? surface.burners.map((_, burner) => ({ appliance, burner })) : [],
  );
  if (rng.real() < OFTEN.burner && burners.length > 1) {
    const at = minute();
    out.push({ kind: 'lost', at, loss: { at, what: { kind: 'burner', ...burners[rng.below(burners.length)]! } } });
  }
  const pans = kitchen.pans.flatMap(({ count }, pan) => (count > 1 ? [pan] : []));
  if (rng.real() < OFTEN.pan && pans.length > 0) {
    const at = minute();
    out.push({ kind: 'lost', at, loss: { at, what: { kind: 'pan', pan: pans[rng.below(pans.length)]!, count: 1 } } });
  }
  if (rng.real() < OFTEN.gone && cooks.length > 1) {
    out.push({ kind: 'gone', at: minute(), cook: rng.below(cooks.length) });
  }
  return out.sort((a, b) => a.at - b.at);
}
