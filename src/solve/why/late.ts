/** What makes a course late in a plan: the things that its longest chain waits for one after the other. */

import { stepKey } from '../../problem/hours.js';
import { showList, showMinutes } from '../../units/show.js';
import { clockWords } from '../explain/words.js';
import type { Teller } from './links.js';
import type { ReasonNetwork } from './reason-network.js';
import type { Hold, Tie } from './tight.js';

export function lateSentences(network: ReasonNetwork, teller: Teller, sooner: Hold): string[] {
  const { model, problem } = network.compiled;
  const out: string[] = [];
  model.groups.forEach(({ due }, group) => {
    const late = network.state.landing(group) - due;
    if (late <= 0) return;
    const { node } = network.landing(group);
    const chain = sooner.free[node] === 0 ? sooner.chain(node) : [];
    const course = teller.course(group);
    out.push(`${capital(course)} lands ${showMinutes(late)} late, at ${clockWords(problem, due + late)}.`);
    for (const say of chain.map((tie) => contention(network, teller, tie))) {
      if (say !== null && !out.includes(say)) out.push(say);
    }
    const links = teller.linksOf(chain).map(({ say }) => say);
    if (links.length > 0) out.push(`Seen back from there: ${links.join('; ')}.`);
  });
  return out;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Two things that want the same, of which one has to wait; null for a tie of another kind. */
function contention(network: ReasonNetwork, teller: Teller, { row, node, other }: Tie): string | null {
  const { problem } = network.compiled;
  const clock = (minute: number): string => clockWords(problem, minute);
  const { cause } = row;
  if (cause.kind === 'change') {
    if (cause.before < 0) return null;
    const [one, two] = [network.runOf(cause.before), network.runOf(cause.run)];
    const at = (run: typeof one): string => {
      const names = run.members.map((a) => stepKey(problem, a));
      return `${showList(names.slice(0, 3))} at ${teller.heat(run.machine, run.state)}`;
    };
    return `${at(one)} and ${at(two)} need the ${onlyOne(network, teller.applianceOf(one.machine))} one after the other between ${clock(one.from)} and ${clock(two.to)}.`;
  }
  if (!['turn', 'worker', 'unit', 'stock'].includes(cause.kind)) return null;
  const [first, second] = [teller.subject(row.from).name, teller.subject(row.to).name];
  if (first === '' || second === '') return null;
  const thing =
    cause.kind === 'turn'
      ? `room in the ${teller.applianceAt(node) ?? teller.applianceAt(other)}`
      : cause.kind === 'worker'
        ? problem.cooks[cause.index]!.name
        : cause.kind === 'unit'
          ? `the ${teller.burner(cause.index)}`
          : cause.kind === 'stock'
            ? `the ${teller.stock(cause.index)}`
            : '';
  return `${first} and ${second} both need ${thing}, one after the other around ${clock(turnTime(network, teller, row))}.`;
}

/** When the thing goes from the one to the other. */
function turnTime(network: ReasonNetwork, teller: Teller, row: Tie['row']): number {
  const [one, two] = [row.from, row.to].map((node) => network.whats[node]!);
  const a = one!.kind === 'start' || one!.kind === 'end' ? one!.a : 0;
  const b = two!.kind === 'start' || two!.kind === 'end' ? two!.a : 0;
  return row.cause.kind === 'worker' ? teller.handover(a, b) : network.state.start[b]!;
}

/** `only oven` where there is no other of its kind. */
function onlyOne(network: ReasonNetwork, name: string): string {
  const { appliances } = network.compiled.problem.kitchen;
  const { kind } = appliances.find((one) => one.name === name)!;
  return appliances.filter((one) => one.kind === kind).length === 1 ? `only ${kind === name ? kind : name}` : name;
}
