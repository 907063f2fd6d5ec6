/** How hot each appliance is at a minute: by the runs of the plan in force, what was said of its dial, and how fast it heats and cools. °C. */
import { minuteAt } from '../../problem/hours.js';
import type { Day } from '../journal/day.js';
import { plannedSteps } from '../journal/day.js';

export interface ApplianceHeat {
  /** Index. */
  readonly appliance: number;
  /** As it is reckoned to be. */
  readonly celsius: number;
  /** What the dial says; null while it is off. */
  readonly set: number | null;
  readonly mode: string | null;
  /** When it is as hot as the dial says; null where it is, or is off. */
  readonly there: number | null;
  readonly lost: boolean;
}

/** From a minute on the dial says this; null: off. */
interface Turn {
  readonly at: number;
  readonly set: number | null;
  readonly mode: string | null;
}

/** One for each appliance with heat runs. A dial is turned when its changeover begins; the last run over, it is off. */
export function heatsAt(day: Day, now: number): ApplianceHeat[] {
  const { problem, losses } = day;
  return problem.kitchen.appliances.flatMap(({ modes, heats, cools }, appliance): ApplianceHeat[] => {
    if (modes.length === 0) return [];
    const loss = losses.find(({ what }) => what.kind === 'appliance' && what.appliance === appliance);
    const end: readonly Turn[] = loss ? [{ at: loss.at, set: null, mode: null }] : [];
    const turns = [...turnsOf(day, appliance).filter(({ at }) => !loss || at < loss.at), ...end];
    const { room } = problem.kitchen;
    let [celsius, since, last] = [room, 0, null as Turn | null];
    const towards = (minute: number): void => {
      const goal = last?.set ?? room;
      const rate = goal > celsius ? heats : cools;
      const most = rate * Math.max(0, minute - since);
      // An appliance without a rate is there at once.
      celsius =
        Math.abs(goal - celsius) <= most || !Number.isFinite(rate) ? goal : celsius + Math.sign(goal - celsius) * most;
      since = minute;
    };
    for (const turn of turns.filter(({ at }) => at <= now)) {
      towards(turn.at);
      last = turn;
    }
    towards(now);
    const set = last?.set ?? null;
    const rate = set !== null && set > celsius ? heats : cools;
    const there = set === null || set === celsius ? null : now + Math.ceil(Math.abs(set - celsius) / rate);
    return [{ appliance, celsius, set, mode: last?.mode ?? null, there, lost: loss !== undefined }];
  });
}

function turnsOf(day: Day, appliance: number): Turn[] {
  const { problem, plan, steps } = day;
  const { name } = problem.kitchen.appliances[appliance]!;
  const runs = (plan?.runs ?? [])
    .filter((run) => run.appliance === name)
    .map((run) => {
      const start = minuteAt(problem, run.start);
      return {
        begin: start - run.changeover,
        start,
        end: minuteAt(problem, run.end),
        celsius: run.celsius,
        mode: run.mode,
      };
    })
    .sort((a, b) => a.begin - b.begin);
  const turns: Turn[] = runs.map(({ begin, celsius, mode }) => ({ at: begin, set: celsius, mode }));
  const rows = plannedSteps(day);
  for (const [id, { start, celsius, end }] of steps) {
    const row = rows.get(id);
    if (row?.appliance !== name) continue;
    if (celsius !== undefined) turns.push({ at: start, set: celsius, mode: row.mode });
    // While something is in it, it is on, however late that is.
    const run = runs.findLast((one) => one.start <= minuteAt(problem, row.start));
    if (run && (end === null || end > run.end)) run.end = Math.max(run.end, end ?? Number.POSITIVE_INFINITY);
  }
  const off = Math.max(...runs.map(({ end }) => end), Number.NEGATIVE_INFINITY);
  if (Number.isFinite(off)) turns.push({ at: off, set: null, mode: null });
  return turns.sort((a, b) => a.at - b.at);
}
