/** Puts a schedule right in which cooks, burners, boards or pans are wanted twice: by the few changes of its order that help most. */
import { asOrder } from '../../chance/orders.js';
import { holds } from '../../kernel/holds.js';
import type { State } from '../../kernel/state.js';
import type { Compiled } from '../../solve/compile.js';
import { handedOver } from '../../solve/lines.js';
import { type Move, Reorder } from '../../solve/reorder.js';

/** Points for each minute for which anything is wanted twice: more than what any delay saves by it. */
export const CLASH = 1000;
/** Changes that are tried for each activity; mostly one of the first is enough. */
const MOST_TRIED = 11;
/** Changes of one order that are tried before the best of them is made, where one of them helps. */
const AT_ONCE = 20;
/** Where none helps, so many are made that cost no more than so many points, each to see whether another helps then. */
const DETOURS = 16;
const DEARER = 3 * CLASH;

export interface Untangled {
  /** Those who end what has begun may be others than before. */
  readonly compiled: Compiled;
  /** In the best times of its order. Whether it holds is for the caller to ask: what is wanted twice may still be so. */
  readonly state: State;
}

/** @param given what is wanted twice in it costs `CLASH` points a minute; about `most` changes are tried for each activity. */
export function untangled(given: Untangled, most = MOST_TRIED): Untangled {
  const begun = inTime(given);
  return begun === null ? given : new Untangling(most * given.compiled.model.activities.length).from(begun);
}

/** An order in its best times. */
interface Order extends Untangled {
  readonly reorder: Reorder;
}

function inTime({ compiled, state }: Untangled): Order | null {
  const reorder = new Reorder(compiled, state, { clash: CLASH, dearer: DEARER });
  return reorder.state === null ? null : { compiled, state: reorder.state, reorder };
}

interface Tried {
  readonly move: Move;
  readonly saved: number;
}

class Untangling {
  private tried = 0;

  constructor(private readonly most: number) {}

  from(begun: Order): Untangled {
    let order = begun;
    while (!holds(order.state) && this.tried < this.most) {
      const next = this.better(order);
      if (next === null) break;
      order = next;
    }
    return order;
  }

  /** By one change, or by two of which the first does not help by itself. */
  private better(order: Order): Order | null {
    const known: Tried[] = [];
    const { least } = order.reorder;
    const next = this.changed(order, least, known);
    if (next !== null) return next;
    for (const { move } of known.sort((a, b) => b.saved - a.saved).slice(0, DETOURS)) {
      const between = withMove(order, move);
      const found = between === null ? null : this.changed(between, least, []);
      if (found !== null) return found;
    }
    return null;
  }

  /** The order with the best of the first changes that bring it below so many points; `known` gets those that were tried and can be. */
  private changed(order: Order, most: number, known: Tried[]): Order | null {
    const { reorder } = order;
    const moves = reorder.moves();
    for (let k = 0; k < moves.length; k += AT_ONCE) {
      const some = moves.slice(k, k + AT_ONCE).map((move): Tried => ({ move, saved: reorder.saving(move) }));
      this.tried += some.length;
      known.push(...some.filter(({ saved }) => saved > -DEARER));
      for (const { move, saved } of some.sort((a, b) => b.saved - a.saved)) {
        if (reorder.least - saved > most - 1e-6) break;
        // Its times may bring about another order than the one that was tried.
        const next = withMove(order, move);
        if (next !== null && next.reorder.least < most - 1e-6) return next;
      }
    }
    return null;
  }
}

/** The order with a change; where that is of hands that end what has begun, it is settled that they do. Null where it cannot be. */
function withMove({ compiled, state, reorder }: Order, move: Move): Order | null {
  const next = reorder.taken(move);
  if (next === null) return null;
  const progress = compiled.model.progress!;
  if (move.kind !== 'hand' || progress.settled[move.a]! === null) return inTime({ compiled, state: next });
  const hands = handedOver(state, move)!;
  const settled = progress.settled.map((as, a) => (a === move.a ? { ...as!, hands } : as));
  const model = { ...compiled.model, progress: { ...progress, settled } };
  return inTime({ compiled: { ...compiled, model }, state: asOrder(model, next) });
}
