/** The wall over real HTTP: what is tapped reaches the journal, what is noted reaches the phones, and what is not asked for properly changes nothing. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { isRefusal } from '../../src/live/journal/names.js';
import { withEntry } from '../../src/live/journal/rebuild.js';
import { wallShape } from '../../src/wall/document.js';
import { type AWall, aWall, newsFrom } from './a-wall.js';

const TIE = 'call start Roast loin/tie Ines';

let kitchen: AWall;
beforeEach(async () => {
  kitchen = await aWall('17:00');
});
afterEach(() => kitchen.close());

const kinds = () => kitchen.entries().map(({ kind }) => kind);
const BEGUN = ['begin', 'plan'];

describe('a tap', () => {
  it('reaches the journal with the name of whose link it is, once however often it is sent', async () => {
    expect((await kitchen.tap('Ines', TIE)).status).toBe(200);
    expect((await kitchen.tap('Ines', TIE)).status).toBe(200);
    expect(kitchen.entries().slice(2)).toMatchObject([{ kind: 'started', step: 'Roast loin/tie', who: 'Ines' }]);
    expect(kitchen.noted).toEqual(['17:00 Ines: Roast loin/tie started']);
    kitchen.at('17:08');
    expect((await kitchen.tap('Ines', 'step Roast loin/tie')).status).toBe(200);
    expect((await kitchen.tap('Ines', 'step Roast loin/tie')).status).toBe(200);
    expect(kinds()).toEqual([...BEGUN, 'started', 'done']);
  });

  it('is taken back by who made it or who is in charge, and by nobody else', async () => {
    await kitchen.tap('Ines', TIE);
    expect((await kitchen.tap('Tomas', TIE, 'open')).status).toBe(403);
    expect((await kitchen.tap('Ines', TIE, 'open')).status).toBe(200);
    await kitchen.tap('Ines', TIE);
    expect((await kitchen.tap('all', TIE, 'open')).status).toBe(200);
    expect(kinds()).toEqual([...BEGUN, 'started', 'undo', 'started', 'undo']);
    expect((await kitchen.tap('all', TIE, 'open')).status).toBe(200);
    expect(kinds()).toHaveLength(6);
  });

  it('covers what is anyone’s for every cook, and everything for who is in charge', async () => {
    expect((await kitchen.tap('Tomas', 'call heat oven/roast')).status).toBe(200);
    expect((await kitchen.tap('all', TIE)).status).toBe(200);
    expect(kitchen.entries().slice(2)).toMatchObject([
      { kind: 'heeded', who: 'Tomas' },
      { kind: 'started', who: null },
    ]);
  });

  it('is refused for another’s call, by a link to look only, and where the journal refuses it', async () => {
    const replies = [
      await kitchen.tap('Tomas', TIE),
      await kitchen.tap('look', 'call heat oven/roast'),
      await kitchen.tap('Ines', 'call start Roast loin/roast Ines'),
      await kitchen.tap('Ines', 'call start Nothing/at all Ines'),
    ];
    expect(replies.map(({ status }) => status)).toEqual([403, 403, 409, 409]);
    expect(await replies[2]!.json()).toEqual({
      say: 'Roast loin/roast comes after Roast loin/tie, which is not done yet.',
      hint: 'first: done `Roast loin/tie`',
    });
    expect(kinds()).toEqual(BEGUN);
    expect(kitchen.refused).toHaveLength(4);
  });

  it('of several phones at once is noted once', async () => {
    const replies = await Promise.all(Array.from({ length: 12 }, (_, k) => kitchen.tap(k % 2 ? 'Ines' : 'all', TIE)));
    expect(replies.every(({ status }) => status === 200)).toBe(true);
    expect(kinds()).toEqual([...BEGUN, 'started']);
  });

  it('is not heeded more often than a hand taps', async () => {
    const replies = await Promise.all(Array.from({ length: 60 }, () => kitchen.tap('Tomas', TIE)));
    expect(replies.filter(({ status }) => status === 429)).toHaveLength(20);
    expect((await kitchen.tap('Ines', TIE)).status).toBe(200);
  });
});

describe('what is noted', () => {
  it('by whoever’s hand reaches every phone within a second, and each its own list', async () => {
    const stop = new AbortController();
    const names = ['all', 'Ines', 'Tomas', 'look'];
    const phones = Array.from({ length: 24 }, (_, k) => newsFrom(kitchen.url(names[k % 4]!, 'events'), stop.signal));
    const first = await Promise.all(phones.map((phone) => phone.next()));
    expect(first[1]!.value!.own).toContain('Ines’s list');
    expect([first[0]!.value!.own, first[3]!.value!.own]).toEqual(['', '']);
    expect(first[3]!.value!.all).not.toContain('<button');
    const entry = withEntry(
      kitchen.teller.meal,
      kitchen.entries(),
      { at: kitchen.teller.iso('17:00'), when: kitchen.teller.iso('17:00'), who: 'Tomas' },
      { kind: 'started', step: 'Roots/cut' },
    );
    if (isRefusal(entry)) throw new Error(entry.say);
    const begun = Date.now();
    kitchen.append(entry);
    const second = await Promise.all(phones.map((phone) => phone.next()));
    expect(Date.now() - begun).toBeLessThan(1000);
    for (const { value } of second) expect(value!.all).toContain('1 of 12 done');
    // Another's work is told on each phone, and its button is on theirs alone.
    expect(second[2]!.value!.now).toContain('data-item="step Roots/cut"');
    expect(second[1]!.value!.now).not.toContain('data-item="step Roots/cut"');
    expect(second[1]!.value!.now).toContain('Others: Roots, cut (Tomas).');
    stop.abort();
    await expect.poll(() => kitchen.wall.followers()).toBe(0);
  });

  it('is sent anew as the minute turns', async () => {
    const stop = new AbortController();
    const phone = newsFrom(kitchen.url('look', 'events'), stop.signal);
    expect((await phone.next()).value!.top).toContain('>17:00<');
    kitchen.at('17:01');
    expect((await phone.next()).value!.top).toContain('>17:01<');
    stop.abort();
  });

  it('is there as data that keep to their schema', async () => {
    await kitchen.tap('Ines', TIE);
    const state = await kitchen.state('Tomas');
    expect(wallShape.safeParse(state).error).toBeUndefined();
    const yours = state.items.filter((item) => item.yours).map(({ cooks }) => cooks);
    expect(yours.length).toBeGreaterThan(3);
    expect(yours.every((cooks) => cooks.length === 0 || cooks.includes('Tomas'))).toBe(true);
    expect(state.items.find(({ item }) => item === TIE)).toMatchObject({ done: true, yours: false });
  });
});

/** Sends text as it is; what comes back until the other side ends, or a while has passed. */
function raw(text: string, wait = 1500): Promise<string> {
  return new Promise((resolve) => {
    const socket = connect(kitchen.wall.port, '127.0.0.1', () => socket.write(text));
    let got = '';
    const end = () => {
      socket.destroy();
      resolve(got);
    };
    socket.setTimeout(wait, end);
    socket.on('data', (part) => {
      got += part.toString();
    });
    socket.on('close', end);
    socket.on('error', end);
  });
}

/** Whether who sends a little every now and then is let go, whatever is sent. */
function trickled(text: string): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect({ port: kitchen.wall.port, host: '127.0.0.1', allowHalfOpen: true }, () =>
      socket.write(text),
    );
    socket.resume();
    const more = setInterval(() => socket.write('X'), 40);
    const late = setTimeout(() => end(false), 3000);
    const end = (gone: boolean) => {
      clearInterval(more);
      clearTimeout(late);
      socket.destroy();
      resolve(gone);
    };
    socket.on('error', () => end(true));
    socket.on('close', () => end(true));
  });
}

describe('a request that is not in order', () => {
  const post = (headers: Record<string, string>, body: string, who = 'Ines') =>
    fetch(kitchen.url(who, 'mark'), { method: 'POST', headers, body });
  const JSON_TYPE = { 'content-type': 'application/json' };
  const fine = JSON.stringify({ item: TIE, want: 'done' });

  afterEach(() => {
    expect(kinds()).toEqual(BEGUN);
    for (const { token } of kitchen.links) expect(kitchen.refused.join('\n')).not.toContain(token);
  });

  it.each([
    ['no token', '/', 404],
    ['no token to post to', '/mark', 404],
    ['a wrong token', '/AAAAAAAAAAAAAAAAAAAAAA/', 403],
    ['a way up', '/TOKEN/../../etc/passwd', 404],
    ['a way up in disguise', '/TOKEN/%2e%2e%2f%2e%2e%2fetc%2fpasswd', 404],
    ['a file', '/TOKEN/supper.yaml', 404],
    ['a NUL', '/TOKEN/%00', 404],
    ['a long path', `/${'a'.repeat(5000)}`, 404],
    ['a query', '/TOKEN/?x=1', 404],
    ['a whole address', 'http://elsewhere.example/TOKEN/', 404],
  ])('%s', async (_, path, status) => {
    const asked = path.replace('TOKEN', kitchen.links[0]!.token);
    const reply = await raw(
      `GET ${asked} HTTP/1.1\r\nHost: 127.0.0.1:${kitchen.wall.port}\r\nConnection: close\r\n\r\n`,
    );
    expect(reply).toMatch(new RegExp(`^HTTP/1.1 ${status} `));
    expect(kitchen.refused).toHaveLength(1);
  });

  it('under another name than ours, or none', async () => {
    const { token } = kitchen.links[0]!;
    expect(await raw(`GET /${token}/ HTTP/1.1\r\nConnection: close\r\n\r\n`)).toMatch(/^HTTP\/1.1 421 /);
    for (const host of ['elsewhere.example', `elsewhere.example:${kitchen.wall.port}`, '127.0.0.1', '127.0.0.1:1']) {
      const head = `GET /${token}/ HTTP/1.1\r\nHost: ${host}\r\nConnection: close\r\n\r\n`;
      expect(await raw(head)).toMatch(/^HTTP\/1.1 421 /);
    }
  });

  it('from a page elsewhere', async () => {
    const statuses = [
      (await post({ ...JSON_TYPE, origin: 'http://elsewhere.example' }, fine)).status,
      (await post({ ...JSON_TYPE, origin: 'null' }, fine)).status,
      (
        await raw(
          `POST /${kitchen.links[0]!.token}/mark HTTP/1.1\r\nHost: 127.0.0.1:${kitchen.wall.port}\r\nSec-Fetch-Site: cross-site\r\nSec-Fetch-Mode: navigate\r\n` +
            `Content-Type: application/json\r\nContent-Length: ${fine.length}\r\nConnection: close\r\n\r\n${fine}`,
        )
      ).slice(9, 12),
      (await post({ 'content-type': 'text/plain' }, fine)).status,
      (await post({ 'content-type': 'application/x-www-form-urlencoded' }, 'item=x&want=done')).status,
    ];
    expect(statuses).toEqual([403, 403, '403', 415, 415]);
  });

  it('of another make than a tap', async () => {
    for (const body of [
      '',
      '{',
      'null',
      '[]',
      '"x"',
      '{"item":"x"}',
      '{"item":"x","want":"all"}',
      fine.replace('}', ',"who":"Tomas"}'),
    ])
      expect((await post(JSON_TYPE, body)).status).toBe(400);
    expect((await fetch(kitchen.url('Ines', 'mark'))).status).toBe(405);
    expect((await fetch(kitchen.url('Ines'), { method: 'PUT' })).status).toBe(405);
  });

  it('with a body without end', async () => {
    const head = `POST /${kitchen.links[0]!.token}/mark HTTP/1.1\r\nHost: 127.0.0.1:${kitchen.wall.port}\r\nContent-Type: application/json\r\n`;
    expect(await raw(`${head}Content-Length: 100000000\r\n\r\n{`)).toMatch(/^HTTP\/1.1 413 /);
    expect(
      await raw(`${head.replace('POST', 'GET').replace('mark', 'state')}Content-Length: 100000000\r\n\r\n{`),
    ).toMatch(/^HTTP\/1.1 413 /);
    const chunk = `1000\r\n${'x'.repeat(4096)}\r\n`;
    expect(await raw(`${head}Transfer-Encoding: chunked\r\n\r\n${chunk.repeat(4)}`)).toMatch(/^HTTP\/1.1 413 /);
  });

  it('that never comes to its end, or is no HTTP', async () => {
    const begun = Date.now();
    expect(await raw('GET / HTTP/1.1\r\nHost: 127')).toMatch(/^HTTP\/1.1 408 /);
    expect(Date.now() - begun).toBeLessThan(1400);
    expect(
      await trickled(`POST /${kitchen.links[0]!.token}/mark HTTP/1.1\r\nHost: 127.0.0.1:${kitchen.wall.port}\r\n`),
    ).toBe(true);
    expect(await raw('\u0016\u0003\u0001\u0002\u0000\u0001')).toMatch(/^HTTP\/1.1 400 /);
    expect(await raw(`GET / HTTP/1.1\r\nX: ${'y'.repeat(20_000)}\r\n\r\n`)).toMatch(/^HTTP\/1.1 4/);
    expect((await fetch(kitchen.url('look'))).status).toBe(200);
  });
});

describe('a journal', () => {
  it('that is gone or damaged is only told of, on every page', async () => {
    const stop = new AbortController();
    const phone = newsFrom(kitchen.url('Ines', 'events'), stop.signal);
    expect((await phone.next()).value!.trouble).toBe('');
    const text = readFileSync(kitchen.journal, 'utf8');
    writeFileSync(kitchen.journal, `${text}no entry\n${text.split('\n')[0]}\n`);
    const { value } = await phone.next();
    expect(value!.trouble).toContain('the journal is damaged');
    expect(value!.now).not.toContain('<button');
    const refused = await kitchen.tap('Ines', TIE);
    expect(refused.status).toBe(409);
    rmSync(kitchen.journal);
    expect((await phone.next()).value!.trouble).toContain('The journal has no plan any more.');
    expect((await kitchen.tap('Ines', TIE)).status).toBe(409);
    // Put back, all goes on.
    writeFileSync(kitchen.journal, text);
    expect((await phone.next()).value!.trouble).toBe('');
    expect((await kitchen.tap('Ines', TIE)).status).toBe(200);
    stop.abort();
  });
});

describe('a page', () => {
  it('forbids whatever is not its own', async () => {
    const { headers } = await fetch(kitchen.url('Ines'));
    const policy = headers.get('content-security-policy')!;
    expect(policy).toMatch(
      /^default-src 'none'; style-src 'sha256-[^']+'; script-src 'sha256-[^']+'; connect-src 'self';/,
    );
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toContain('unsafe');
    expect(headers.get('referrer-policy')).toBe('no-referrer');
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('access-control-allow-origin')).toBeNull();
  });
});
