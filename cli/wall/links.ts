/** Links to the wall: each says who holds it, and none can be guessed. */
import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { Problem } from '../../src/problem/problem.js';
import type { Right } from '../../src/wall/rights.js';
import { UsageError } from '../exit.js';

export interface Link {
  readonly right: Right;
  /** 132 bits as 22 letters, digits, `-` and `_`. */
  readonly token: string;
}

export const TOKEN = /^[A-Za-z0-9_-]{22}$/;

/** One for whoever answers for the meal, one for each cook where there are several, one to look only. */
export function linksFor({ cooks, digest }: Problem, key: string, who: string | null): Link[] {
  const helpers = cooks.length === 1 ? [] : cooks;
  const rights: Right[] = [
    { kind: 'all', who: who ?? (cooks.length === 1 ? cooks[0]!.name : null) },
    ...helpers.map(({ name }): Right => ({ kind: 'cook', who: name })),
    { kind: 'look', who: null },
  ];
  return rights.map((right) => {
    // Who is in charge may be called otherwise tomorrow; the link stays.
    const about = JSON.stringify([digest, right.kind, right.kind === 'cook' ? right.who : null]);
    return { right, token: createHmac('sha256', key).update(about).digest('base64url').slice(0, 22) };
  });
}

/** Takes as long for a token that is nearly right as for any other. */
export function rightOf(links: readonly Link[], token: string): Right | null {
  let found: Right | null = null;
  const asked = Buffer.from(token);
  for (const { right, token: known } of links) {
    const own = Buffer.from(known);
    if (asked.length === own.length && timingSafeEqual(asked, own)) found = right;
  }
  return found;
}

const KEY = /^[0-9a-f]{64}\n?$/;

/** What the links are made from. It is kept beside the journal, for its owner only, so that links outlast a restart. */
export function keyAt(path: string, anew: boolean): string {
  try {
    if (anew) rmSync(path, { force: true });
    const key = randomBytes(32).toString('hex');
    writeFileSync(path, `${key}\n`, { flag: 'wx', mode: 0o600 });
    return key;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'EEXIST') throw new UsageError(`${path}: what the links are made from cannot be kept (${code}).`);
  }
  let text = '';
  try {
    text = readFileSync(path, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new UsageError(`${path}: what the links are made from cannot be read (${code}).`);
  }
  if (KEY.test(text)) return text.trim();
  throw new UsageError(`${path}: this is not what the links of a wall are made from.\nPerhaps: --new-links`);
}
