/** A rehearsal at the screen: what the simulated kitchen does goes into the journal as if somebody had said it. */
import { isRefusal } from '../../src/live/journal/names.js';
import { readable } from '../../src/live/journal/reading.js';
import type { Rehearsal } from '../../src/live/rehearsal/rehearsal.js';
import { stepKey } from '../../src/problem/hours.js';
import type { Desk } from './desk.js';

export interface Practice {
  /** To be called as time goes on. */
  readonly look: () => void;
  /** Steps under way that are done by the look of them. */
  readonly looksDone: () => ReadonlySet<number>;
  /** What the thermometer shows, as it is noted: `reading "Roast loin/roast" 54C`; of the step asked for, if it has a piece on the heat. */
  readonly reading: (step: number | null) => string | null;
}

/** Things that may happen at one look; more wait for the next, so that keys are heard. */
const MOST = 20;

export function practiceFor(desk: Desk, rehearsal: Rehearsal): Practice {
  return {
    look: () => {
      for (let turn = 0; turn < MOST; turn++) {
        const next = rehearsal.next(desk.day(), desk.state());
        if (next === null || isRefusal(desk.note(next.bodies, 0, next.who))) return;
      }
    },
    looksDone: () => rehearsal.looksDone(desk.day(), desk.minute()),
    reading: (wanted) => {
      const [day, now] = [desk.day(), desk.minute()];
      const hot = readable(day, now).filter((id) => day.steps.get(id)!.end === null);
      const step = wanted !== null && hot.includes(wanted) ? wanted : hot[0];
      const celsius = step === undefined ? null : rehearsal.thermometer(day, step, now);
      return celsius === null ? null : `reading "${stepKey(day.problem, step!)}" ${celsius}C`;
    },
  };
}
