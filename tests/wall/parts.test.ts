/** The parts of the wall that need no network. */

import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import type { ServerResponse } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { Followers } from '../../cli/wall/followers.js';
import { keyAt, linksFor, rightOf, TOKEN } from '../../cli/wall/links.js';
import { sparing } from '../../cli/wall/sparing.js';
import { welcomeLines } from '../../cli/wall/welcome.js';
import type { Entry } from '../../src/live/journal/entries.js';
import { rebuilt } from '../../src/live/journal/rebuild.js';
import { stateAt } from '../../src/live/state/state.js';
import { minuteAt } from '../../src/problem/hours.js';
import { readProblem } from '../../src/problem/read.js';
import { itemsOf } from '../../src/wall/items.js';
import { wallNews, wallPage } from '../../src/wall/page.js';
import type { Right } from '../../src/wall/rights.js';
import type { Seen } from '../../src/wall/sections.js';
import { SUPPER, supper, supperPlan, Teller } from '../live/day-of.js';
import { movedPlan } from '../support/moved-plan.js';
import { settled } from '../support/read-meal.js';

const LOOK: Right = { kind: 'look', who: null };
const ALL: Right = { kind: 'all', who: null };

function seenAt(teller: Teller, clock: string, closed: string | null = null): Seen {
  const { day, inForce } = rebuilt(teller.meal, teller.entries);
  const state = stateAt(day, minuteAt(day.problem, teller.iso(clock)));
  return { day, state, inForce, items: itemsOf(day, state, inForce), closed, rehearsal: false };
}

describe('the page', () => {
  it('tells of a new plan what it changed, and which calls were to come at another time', () => {
    const teller = new Teller().did('Roast loin/tie', '17:00', '17:08');
    const plan = movedPlan(supperPlan(teller.meal), 'Roots/cut', -20);
    teller.must('17:10', { kind: 'plan', plan, say: ['Roots, cut: 20 min sooner, since Tomas is free.'] });
    const news = wallNews(seenAt(teller, '17:11'), LOOK);
    expect(news.changed).toContain('New plan at 17:10');
    expect(news.changed).toContain('since Tomas is free');
    expect(news.changed).toContain('1 call comes at another time');
    expect(news.next).toMatch(/<time>17:42<\/time>.*in 31 min; was 18:02/);
    const later = wallNews(seenAt(teller, '17:50'), LOOK);
    expect(later.changed).toBe('');
    expect(later.now).toMatch(/class="late"><time>17:42<\/time>.*8 min late/);
  });

  it('tells how things stand: heats, cores, what is lost, who is gone, remarks', () => {
    const teller = new Teller()
      .did('Roast loin/tie', '17:00', '17:08')
      .did('Roast loin/roast', '17:08')
      .must('17:50', { kind: 'reading', step: 'Roast loin/roast', celsius: 30 })
      .must('17:51', { kind: 'lost', what: { kind: 'pan', pan: 'half sheet', count: 1 } })
      .must('17:52', { kind: 'gone', cook: 'Tomas' })
      .must('17:53', { kind: 'note', text: 'the door <b>sticks</b>' });
    const { heat } = wallNews(seenAt(teller, '17:55'), LOOK);
    for (const words of [
      '>oven<',
      'by 1 reading',
      'lost since 17:51',
      'gone since 17:52',
      '175 °C, roast',
      'the door &lt;b&gt;sticks',
    ])
      expect(heat!.replaceAll('\u00a0', ' ')).toContain(words);
  });

  it('has what is due first, then what ends first, and keeps the rest behind a line', () => {
    const seen = seenAt(new Teller().did('Roast loin/tie', '17:00'), '17:05');
    const step = seen.items.underWay[0]!;
    const underWay = Array.from({ length: 7 }, (_, k) => ({
      ...step,
      key: `step ${k}`,
      at: step.at + 7 - k,
      words: `w${k}`,
    }));
    const { now, own } = wallNews({ ...seen, items: { ...seen.items, underWay } }, { kind: 'cook', who: 'Ines' });
    expect([...now!.matchAll(/>(w\d)</g)].map(([, words]) => words)).toEqual([
      'w6',
      'w5',
      'w4',
      'w3',
      'w2',
      'w1',
      'w0',
    ]);
    expect(now!.indexOf('heat to')).toBeGreaterThan(0);
    expect(now!.indexOf('heat to')).toBeLessThan(now!.indexOf('w6'));
    expect(now!.slice(now!.indexOf('2 more under way')).match(/>w\d</g)).toEqual(['>w1<', '>w0<']);
    // What is done stands behind a line of its own, before what is left.
    expect(own).toMatch(/<summary>1 of \d+ done<\/summary>.*tie.*<\/details>.*carve/);
  });

  it('has no buttons where nothing can be noted, and says why', () => {
    const page = wallPage(seenAt(new Teller(), '17:00', 'the journal is damaged'), ALL);
    expect(page).not.toContain('<button');
    expect(page).toContain('Nothing can be ticked off: the journal is damaged');
  });

  it('shows names with markup in them as text', () => {
    const [dish, cook, title] = ['<img src=x onerror=alert(1)>', '"><script>alert(2)</script>', '</title><b>'];
    const text = SUPPER.replace('- dish: Roots', () => `- dish: ${JSON.stringify(dish)}`)
      .replace('[Ines, Tomas]', () => `[Ines, ${JSON.stringify(cook)}]`)
      .replace('title: Small supper', () => `title: ${JSON.stringify(title)}`);
    const problem = settled(readProblem(text, { name: 'supper.yaml' }));
    const meal = { problem, withDishes: supper().withDishes };
    const renamed = (name: unknown): unknown => (name === 'Roots' ? dish : name === 'Tomas' ? cook : name);
    const first = supperPlan(supper());
    const plan = JSON.parse(JSON.stringify(first), (_, value) => renamed(value)) as typeof first;
    const head = { v: 1, at: first.serve, when: first.serve, who: null } as const;
    const entries: Entry[] = [
      { ...head, seq: 1, kind: 'begin', title: problem.title, digest: problem.digest },
      { ...head, seq: 2, kind: 'plan', plan, say: ['<u>'] },
      { ...head, seq: 3, kind: 'plan', plan, say: ['<u>'] },
    ];
    const { day, inForce, passedOver } = rebuilt(meal, entries);
    expect(passedOver).toEqual([]);
    const state = stateAt(day, minuteAt(problem, first.serve));
    const seen = { day, state, inForce, items: itemsOf(day, state, inForce), closed: '<s>', rehearsal: false };
    for (const right of [ALL, LOOK, { kind: 'cook', who: cook } as const]) {
      const page = wallPage(seen, right);
      for (const raw of ['<img', '<script>alert', '<b>', '<u>', '<s>', '\u001b']) expect(page).not.toContain(raw);
      expect(page).toContain('&lt;img src=x onerror=alert(1)&gt;');
      expect(JSON.stringify(wallNews(seen, right))).not.toMatch(/<img|<script|<u>|<s>/);
    }
    const lines = welcomeLines({
      links: linksFor(problem, 'k', null),
      addresses: [],
      port: 1,
      width: 80,
      rows: null,
      look: null,
    });
    expect(lines.join('\n')).not.toContain('\u001b');
  });
});

describe('links', () => {
  const { problem } = supper();

  it('are one for each and as hard to guess, the same from the same key, others from another', () => {
    const links = linksFor(problem, 'a', 'Ines');
    expect(links.map(({ right }) => right)).toEqual([
      { kind: 'all', who: 'Ines' },
      { kind: 'cook', who: 'Ines' },
      { kind: 'cook', who: 'Tomas' },
      LOOK,
    ]);
    const tokens = links.map(({ token }) => token);
    expect(new Set(tokens).size).toBe(4);
    expect(tokens.every((token) => TOKEN.test(token))).toBe(true);
    expect(linksFor(problem, 'a', null).map(({ token }) => token)).toEqual(tokens);
    const others = linksFor(problem, 'b', null);
    expect(others.some(({ token }) => tokens.includes(token))).toBe(false);
    expect(rightOf(links, tokens[2]!)).toEqual({ kind: 'cook', who: 'Tomas' });
    for (const wrong of ['', tokens[0]!.slice(1), `${tokens[0]}A`, others[0]!.token, 'é'.repeat(22)])
      expect(rightOf(links, wrong)).toBeNull();
  });

  it('come from a key that only its owner reads, kept until new links are asked for', () => {
    const home = mkdtempSync(join(tmpdir(), 'links-'));
    const path = join(home, 'supper.wall.key');
    const key = keyAt(path, false);
    expect(statSync(path).mode & 0o777).toBe(0o600);
    expect(readFileSync(path, 'utf8')).toBe(`${key}\n`);
    expect(keyAt(path, false)).toBe(key);
    expect(keyAt(path, true)).not.toBe(key);
    writeFileSync(path, '');
    expect(() => keyAt(path, false)).toThrow('--new-links');
    expect(() => keyAt(join(home, 'no', 'key'), false)).toThrow('cannot be kept');
    rmSync(home, { recursive: true });
  });
});

describe('a phone that does not keep up', () => {
  /** One that takes nothing until it is told to. */
  function slow() {
    const [written, on] = [[] as string[], new Map<string, () => void>()];
    const phone = { full: false, destroyed: false };
    const reply = {
      write: (text: string) => written.push(text) > 0 && !phone.full,
      on: (name: string, act: () => void) => void on.set(name, act),
      destroy: () => {
        phone.destroyed = true;
        on.get('close')!();
      },
    } as unknown as ServerResponse;
    return { phone, reply, written, drain: () => on.get('drain')!() };
  }

  it('gets the newest when it does, and nothing in between', () => {
    let news = 0;
    const followers = new Followers(() => ({ now: String(news), next: 'same' }));
    const { phone, reply, written, drain } = slow();
    followers.add(reply, LOOK);
    phone.full = true;
    for (news = 1; news <= 50; news++) followers.tellAll();
    expect(written.slice(1)).toEqual([
      'event: news\ndata: {"now":"0","next":"same"}\n\n',
      'event: news\ndata: {"now":"1"}\n\n',
    ]);
    phone.full = false;
    drain();
    expect(written.at(-1)).toBe('event: news\ndata: {"now":"51"}\n\n');
    expect(written).toHaveLength(4);
  });

  it('is let go in the end', () => {
    const followers = new Followers(() => ({ now: 'x' }));
    const { phone, reply } = slow();
    followers.add(reply, LOOK);
    phone.full = true;
    const now = Date.now();
    followers.beat(now);
    followers.beat(now + 10_000);
    expect([phone.destroyed, followers.count]).toEqual([false, 1]);
    followers.beat(now + 30_000);
    expect([phone.destroyed, followers.count]).toEqual([true, 0]);
  });
});

describe('refusals', () => {
  it('are written sparingly, and counted', () => {
    let now = 0;
    const lines: string[] = [];
    const say = sparing(
      (line) => lines.push(line),
      () => now,
    );
    for (let k = 0; k < 100; k++) say(`no ${k}`);
    expect(lines).toHaveLength(20);
    now = 3000;
    say('again');
    expect(lines.at(-1)).toBe('again (and 80 more)');
  });
});
