/**
 * Oven scheduling instances as MiniZinc data (`name = value;`), the form of M.-L. Lackner, C. Mrkvicka, N. Musliu, D. Walkiewicz,
 * F. Winter, Exact methods for the oven scheduling problem, Constraints 28(2), 2023.
 */
import type { BatchProblem } from '../../../../src/batch/problem.js';

type Value = number | number[] | number[][];

/** Every statement of a file. Sets become lists; `[| |]` a list of rows. */
function statementsOf(text: string): Map<string, Value> {
  const values = new Map<string, Value>();
  for (const statement of text.split(';')) {
    const match = /^\s*(\w+)\s*=\s*([\s\S]*?)\s*$/.exec(statement);
    if (match !== null) values.set(match[1]!, valueOf(match[1]!, match[2]!));
  }
  return values;
}

function valueOf(name: string, text: string): Value {
  const numbers = (part: string): number[] => (part.match(/-?\d+/g) ?? []).map(Number);
  if (/^-?\d+$/.test(text)) return Number(text);
  if (text.startsWith('[|')) {
    const rows = text.slice(2).split('|');
    return rows.map(numbers).filter((row) => row.length > 0);
  }
  if (text.includes('{')) return (text.match(/\{[^}]*\}/g) ?? []).map(numbers);
  if (text.startsWith('[')) return numbers(text);
  throw new Error(`${name}: a value that is no number, list, matrix or list of sets: ${text.slice(0, 40)}`);
}

/** `name` is told in errors. */
export function readOven(text: string, name: string): BatchProblem {
  const values = statementsOf(text);
  const get = (key: string): Value => {
    const value = values.get(key);
    if (value === undefined) throw new Error(`${name}: there is no ${key}`);
    return value;
  };
  const one = (key: string): number => {
    const value = get(key);
    if (typeof value !== 'number') throw new Error(`${name}: ${key} is not one number`);
    return value;
  };
  const list = (key: string, length: number): number[] => {
    const value = get(key);
    if (!Array.isArray(value) || value.length !== length || value.some(Array.isArray)) {
      throw new Error(`${name}: ${key} is not a list of ${length} numbers`);
    }
    return value as number[];
  };
  const rows = (key: string, least: number): number[][] => {
    const value = get(key);
    if (!Array.isArray(value) || value.length < least || !value.every(Array.isArray)) {
      throw new Error(`${name}: ${key} has fewer than ${least} rows`);
    }
    return value as number[][];
  };
  const [n, m, a, horizon] = [one('n'), one('m'), one('a'), one('l')];
  const [starts, ends] = [rows('m_a_s', m), rows('m_a_e', m)];
  const capacity = list('max_cap', m);
  const initial = list('initState', m);
  const eligible = rows('eligible_machine', n);
  const [attribute, size, release, due] = ['attribute', 'size', 'earliest_start', 'latest_end'].map((key) => list(key, n));
  const [shortest, longest] = [list('min_time', n), list('max_time', n)];
  return {
    attributes: a,
    // The last row is a leftover of the model in that language.
    setupTime: rows('setup_times', a).slice(0, a),
    setupCost: rows('setup_costs', a).slice(0, a),
    machines: capacity.map((room, k) => ({
      capacity: room,
      initial: initial[k]! - 1,
      intervals: starts[k]!
        .map((from, i) => ({ from, to: Math.min(ends[k]![i]!, horizon) }))
        .filter(({ from, to }) => from < to)
        .sort((x, y) => x.from - y.from),
    })),
    jobs: shortest.map((time, j) => ({
      attribute: attribute![j]! - 1,
      size: size![j]!,
      release: release![j]!,
      due: due![j]!,
      shortest: time,
      longest: longest[j]!,
      machines: eligible[j]!.map((machine) => machine - 1),
    })),
    weights: {
      run: one('mult_factor_total_runtime'),
      tardy: one('mult_factor_finished_toolate'),
      setupTime: one('mult_factor_total_setuptimes'),
      setupCost: one('mult_factor_total_setupcosts'),
    },
  };
}
