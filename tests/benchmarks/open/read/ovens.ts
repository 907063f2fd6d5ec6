import type { OvenData } from '../instances.js';

/** MiniZinc data: what is set to what. Of one number, a list, rows `[| , |, |]` or a list of sets, as rows of numbers. */
function statementsOf(text: string): Map<string, number[][]> {
  const values = new Map<string, number[][]>();
  for (const statement of text.split(';')) {
    const match = /^\s*(\w+)\s*=\s*([\s\S]*?)\s*$/.exec(statement);
    if (match !== null) values.set(match[1]!, rowsOf(match[1]!, match[2]!));
    else if (statement.trim() !== '') throw new Error(`"${statement.trim().slice(0, 30)}" sets nothing`);
  }
  return values;
}

function rowsOf(name: string, text: string): number[][] {
  if (/[^-\d\s,;[\]{}|]/.test(text)) throw new Error(`${name} has something that is no whole number`);
  const numbers = (part: string): number[] => (part.match(/-?\d+/g) ?? []).map(Number);
  if (text.includes('{')) return (text.match(/\{[^}]*\}/g) ?? []).map(numbers);
  return text
    .split('|')
    .map(numbers)
    .filter((row) => row.length > 0);
}

/** Oven scheduling (form of M.-L. Lackner and others, Constraints 28(2), 2023). Machines, jobs and attributes count from 1 in the file. */
export function readOvens(text: string): OvenData {
  const values = statementsOf(text);
  const rows = (name: string, count: number): number[][] => {
    const value = values.get(name);
    if (value === undefined) throw new Error(`there is no ${name}`);
    if (value.length < count) throw new Error(`${name} has ${value.length} rows instead of ${count}`);
    return value;
  };
  const list = (name: string, count: number): number[] => {
    const [row] = rows(name, count === 0 ? 0 : 1);
    if ((row?.length ?? 0) !== count) throw new Error(`${name} has ${row?.length ?? 0} numbers instead of ${count}`);
    return row ?? [];
  };
  const one = (name: string): number => list(name, 1)[0]!;
  const from1 = (name: string, value: number, last: number): number => {
    if (value < 1 || value > last) throw new Error(`${name}: ${value} is not within 1 to ${last}`);
    return value - 1;
  };
  const matrix = (name: string, height: number, width: number): number[][] => {
    const value = rows(name, height).slice(0, height);
    const wrong = value.find((row) => row.length !== width);
    if (wrong !== undefined) throw new Error(`${name} has a row of ${wrong.length} numbers instead of ${width}`);
    return value;
  };

  const [attributes, machines, jobs, spans] = [one('a'), one('m'), one('n'), one('s')];
  const [initial, capacity] = [list('initState', machines), list('max_cap', machines)];
  const [froms, tos] = [matrix('m_a_s', machines, spans), matrix('m_a_e', machines, spans)];
  const least = list('min_cap', machines);
  if (least.some((size) => size > 0)) throw new Error('a batch of a least size is not known here (min_cap)');
  const [attribute, size] = [list('attribute', jobs), list('size', jobs)];
  const [release, due] = [list('earliest_start', jobs), list('latest_end', jobs)];
  const [shortest, longest] = [list('min_time', jobs), list('max_time', jobs)];
  const eligible = rows('eligible_machine', jobs);
  return {
    horizon: one('l'),
    ovens: capacity.map((room, k) => ({
      capacity: room,
      initial: from1('initState', initial[k]!, attributes),
      intervals: froms[k]!.map((from, i) => ({ from, to: tos[k]![i]! })),
    })),
    jobs: size.map((room, j) => ({
      attribute: from1('attribute', attribute[j]!, attributes),
      size: room,
      release: release[j]!,
      due: due[j]!,
      shortest: shortest[j]!,
      longest: longest[j]!,
      ovens: eligible[j]!.map((machine) => from1('eligible_machine', machine, machines)),
    })),
    // One row more, of zeros, is a leftover of the model that the files were made for.
    setupTimes: matrix('setup_times', attributes, attributes),
    setupCosts: matrix('setup_costs', attributes, attributes),
    weights: {
      run: one('mult_factor_total_runtime'),
      tardy: one('mult_factor_finished_toolate'),
      setupTime: one('mult_factor_total_setuptimes'),
      setupCost: one('mult_factor_total_setupcosts'),
    },
  };
}
