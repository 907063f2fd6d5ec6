/**
 * What more of each thing would be worth. Where a row has flow, a minute more of what it is about saves points; how many ten minutes save is
 * found by timing everything anew with that row loosened, in the same order.
 */
import type { Worth } from '../../plan/why-document.js';
import { showMinutes } from '../../units/show.js';
import { clockWords, nextOne, showPoints } from '../explain/words.js';
import type { Teller } from './links.js';
import type { Moves } from './move.js';
import type { ReasonNetwork, RuleRow } from './reason-network.js';

const MORE = 10;
/** Minutes that take a row away. */
const AWAY = 20_000;
/** Points below which nothing is told. */
const LEAST = 0.05;

export function worthsOf(network: ReasonNetwork, teller: Teller, moves: Moves): Worth[] {
  const groups = new Map<number, RuleRow[]>();
  for (const row of network.rows) groups.set(row.group, [...(groups.get(row.group) ?? []), row]);
  const best = new Map<string, Worth>();
  const offer = (worth: Worth | null): void => {
    if (worth === null || !Number.isFinite(worth.points) || worth.points < LEAST) return;
    const key = `${worth.kind} ${worth.of} ${worth.unit}`;
    const known = best.get(key);
    if (known === undefined || known.points < worth.points) best.set(key, worth);
  };
  for (const rows of groups.values()) {
    if (rows.some(({ arc }) => network.network.flow(arc) > 0.5)) {
      for (const worth of betweenTwo(network, teller, moves, rows)) offer(worth);
    }
  }
  for (const worth of hoursWorth(network, moves)) offer(worth);
  offer(serveWorth(network, moves));
  offer(startWorth(network, moves));
  return [...best.values()].sort((a, b) => b.points - a.points);
}

const rounded = (points: number): number => Math.round(points * 100) / 100;

function worthIn(kind: Worth['kind'], of: string, points: number, minutes: number, what: string): Worth {
  const say = `${what} are worth ${showPoints(rounded(points))}.`;
  return { kind, of, more: minutes, unit: 'minutes', points: rounded(points), say };
}

/** Of what goes from one step to the next: more time between the two, or one more of it. */
function betweenTwo(network: ReasonNetwork, teller: Teller, moves: Moves, rows: readonly RuleRow[]): Worth[] {
  const { cause } = rows[0]!;
  const { problem, kit } = network.compiled;
  const [one, two] = [teller.subject(rows[0]!.from).name, teller.subject(rows[0]!.to).name];
  const ten = showMinutes(MORE);
  if (cause.kind === 'change') {
    if (cause.before < 0) return [];
    const [before, run] = [network.runOf(cause.before), network.runOf(cause.run)];
    const of = teller.applianceOf(run.machine);
    const heats = `${teller.heat(run.machine, before.state)} until ${clockWords(problem, before.to)} and ${teller.heat(run.machine, run.state)} from ${clockWords(problem, run.from)}`;
    return [worthIn('appliance', of, moves.worthOf(rows, MORE), MORE, `${ten} more of the ${of} between ${heats}`)];
  }
  if (one === '' || two === '') return [];
  const between = `between ${one} and ${two}`;
  switch (cause.kind) {
    case 'turn': {
      const of = teller.applianceAt(rows[0]!.from)!;
      return [worthIn('appliance', of, moves.worthOf(rows, MORE), MORE, `${ten} more room in the ${of} ${between}`)];
    }
    case 'worker': {
      const of = problem.cooks[cause.index]!.name;
      return [worthIn('cook', of, moves.worthOf(rows, MORE), MORE, `${ten} more of ${of}'s hands ${between}`)];
    }
    case 'unit':
    case 'stock': {
      const board = cause.kind === 'stock' && cause.index === kit.boards;
      const of = cause.kind === 'unit' ? teller.burner(cause.index) : teller.stock(cause.index);
      const kind = cause.kind === 'unit' ? 'burner' : board ? 'board' : 'pan';
      const have = board ? problem.kitchen.boards : (problem.kitchen.pans[cause.index - 1 - kit.boards]?.count ?? 2);
      const what = kind === 'burner' ? `Another burner like the ${of}` : `${capital(nextOne(have))} ${of}`;
      const points = rounded(moves.worthOf(rows, AWAY));
      const say = `${what} is worth ${showPoints(points)} at least (${two} need not wait for ${one}).`;
      return [{ kind, of, more: 1, unit: 'pieces', points, say }];
    }
    default:
      return [];
  }
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A cook who comes sooner, or stays longer. */
function hoursWorth(network: ReasonNetwork, moves: Moves): Worth[] {
  const { cooks } = network.compiled.problem;
  return cooks.flatMap(({ name }, c) =>
    [true, false].flatMap((comes) => {
      const rows = network.rows.filter(
        ({ cause, from }) => cause.kind === 'stay' && cause.index === c && (from === 0) === comes,
      );
      if (!rows.some(({ arc }) => network.network.flow(arc) > 0.5)) return [];
      const what = `${name} there ${showMinutes(MORE)} ${comes ? 'sooner' : 'longer'}`;
      const points = rounded(moves.worthOf(rows, MORE));
      return [
        {
          kind: 'hours' as const,
          of: `${name} ${comes ? 'sooner' : 'longer'}`,
          more: MORE,
          unit: 'minutes' as const,
          points,
          say: `${what} saves ${showPoints(points)}.`,
        },
      ];
    }),
  );
}

/** Everything asked for later. Lateness is counted from the asked time, and so is the day. */
function serveWorth(network: ReasonNetwork, moves: Moves): Worth | null {
  const { model } = network.compiled;
  const due = network.rows.filter(
    ({ from, to, cause }) => from === 0 && cause.kind === 'landing' && network.whats[to]!.kind === 'landing',
  );
  const { late, day } = model.rates;
  const points = rounded(moves.worthOf(due, -MORE) + MORE * (late * model.groups.length - day));
  const say = `Serving ${showMinutes(MORE)} later saves ${showPoints(points)}.`;
  return { kind: 'serve', of: 'serve', more: MORE, unit: 'minutes', points, say };
}

/** Beginning sooner by the clock, with the cooks' hours as they are. */
function startWorth(network: ReasonNetwork, moves: Moves): Worth | null {
  const rows = network.rows.filter(
    ({ from, cause }) => from === 0 && (cause.kind === 'bound' || cause.kind === 'change' || cause.kind === 'day'),
  );
  const points = rounded(moves.worthOf(rows, MORE));
  const say = `Beginning ${showMinutes(MORE)} sooner saves ${showPoints(points)}.`;
  return { kind: 'start', of: 'start', more: MORE, unit: 'minutes', points, say };
}
