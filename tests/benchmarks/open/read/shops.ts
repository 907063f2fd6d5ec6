import type { ShopData } from '../instances.js';
import { Numbers } from './numbers.js';

/** Job shop: `n m`, then for each job m pairs of machine (from 0) and duration. */
export function readJobShop(text: string): ShopData {
  const numbers = new Numbers(text);
  const [count, machines] = [numbers.next(), numbers.next()];
  const operation = () => [{ machine: numbers.next(), duration: numbers.next() }];
  const jobs = Array.from({ length: count }, () => Array.from({ length: machines }, operation));
  numbers.end();
  return checked({ machines, jobs });
}

/** Flexible job shop: `n m [average]`, then for each job its operations, each with its alternatives (machines from 1). */
export function readFlexibleShop(text: string): ShopData {
  const [first, rest] = [text.trimStart().split('\n', 1)[0]!, text.trimStart().replace(/^.*/, '')];
  const [count, machines] = first.trim().split(/\s+/).map(Number);
  if (!Number.isInteger(count) || !Number.isInteger(machines))
    throw new Error('the first line needs two whole numbers');
  const numbers = new Numbers(rest);
  const many = <T>(one: () => T): T[] => Array.from({ length: numbers.next() }, one);
  const alternative = () => ({ machine: numbers.next() - 1, duration: numbers.next() });
  const jobs = Array.from({ length: count! }, () => many(() => many(alternative)));
  numbers.end();
  return checked({ machines: machines!, jobs });
}

function checked(shop: ShopData): ShopData {
  for (const { machine, duration } of shop.jobs.flat(2)) {
    if (!(machine >= 0 && machine < shop.machines && duration >= 0))
      throw new Error('a machine or time that cannot be');
  }
  if (shop.jobs.flat().some((alternatives) => alternatives.length === 0))
    throw new Error('an operation without machine');
  return shop;
}
