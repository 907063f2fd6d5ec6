import type { LagData, ModeData, ProjectData } from '../instances.js';
import { Numbers } from './numbers.js';

/** Lines of a section: those after its heading and `skip` more, up to the next row of stars or the end. */
function section(lines: readonly string[], heading: string, skip: number): Numbers {
  const from = lines.findIndex((line) => line.startsWith(heading));
  if (from < 0) throw new Error(`there is no section ${heading}`);
  const rest = lines.slice(from + 1 + skip);
  const until = rest.findIndex((line) => line.startsWith('*'));
  return new Numbers((until < 0 ? rest : rest.slice(0, until)).join('\n'));
}

function countOf(text: string, label: RegExp): number {
  const found = new RegExp(`${label.source}\\s*:\\s*(\\d+)`).exec(text);
  if (found === null) throw new Error(`there is no count of ${label.source}`);
  return Number(found[1]);
}

/** PSPLIB, one mode (.sm) or several (.mm); R. Kolisch, A. Sprecher, European Journal of Operational Research 96(1), 1997. */
export function readPsplib(text: string): ProjectData {
  const lines = text.split(/\r?\n/);
  const count = countOf(text, /jobs \(incl\. supersource\/sink \)/);
  const renewable = countOf(text, /- renewable/);
  const nonrenewable = countOf(text, /- nonrenewable/);
  if (countOf(text, /- doubly constrained/) > 0) throw new Error('doubly constrained resources are not known here');

  const order = section(lines, 'PRECEDENCE RELATIONS', 1);
  const modes: number[] = [];
  const precedences = Array.from({ length: count }, (_, from) => {
    order.next();
    modes.push(order.next());
    return order.take(order.next()).map((to) => ({ from, to: to - 1 }));
  }).flat();
  order.end();

  const requests = section(lines, 'REQUESTS/DURATIONS', 2);
  const mode = (): ModeData => {
    requests.next();
    return {
      duration: requests.next(),
      uses: requests.take(renewable),
      consumes: requests.take(nonrenewable),
    };
  };
  const activities = modes.map((many) => {
    requests.next();
    return Array.from({ length: many }, mode);
  });
  requests.end();

  const capacities = section(lines, 'RESOURCEAVAILABILITIES', 1);
  const renewables = capacities.take(renewable);
  const nonrenewables = capacities.take(nonrenewable);
  return { activities, precedences, lags: [], renewables, nonrenewables };
}

/** ProGen/max (.sch): start-to-start lags of either sign; C. Schwindt, University of Karlsruhe, 1998. */
export function readProGenMax(text: string): ProjectData {
  const numbers = new Numbers(text);
  const count = numbers.next() + 2;
  const renewable = numbers.next();
  numbers.take(2);
  const lags: LagData[] = Array.from({ length: count }, () => {
    const [from] = numbers.take(2);
    const successors = numbers.take(numbers.next());
    return successors.map((to) => ({ from: from!, to, lag: numbers.next() }));
  }).flat();
  const activities = Array.from({ length: count }, (): ModeData[] => {
    numbers.take(2);
    return [{ duration: numbers.next(), uses: numbers.take(renewable), consumes: [] }];
  });
  const renewables = numbers.take(renewable);
  numbers.end();
  return { activities, precedences: [], lags, renewables, nonrenewables: [] };
}
