/** What goes wrong on one evening, which hangs on the seed alone. */
import { Rng } from '../../src/kernel/rng.js';
import type { Loss } from '../../src/live/happened.js';
import type { Problem } from '../../src/problem/problem.js';

export type Mishap =
  | { readonly kind: 'serve'; readonly at: number; readonly serve: number }
  | { readonly kind: 'lost'; readonly at: number; readonly loss: Loss }
  | { readonly kind: 'gone'; readonly at: number; readonly cook: number };

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
