/** Calendars, read back by two parsers that share no code with what writes them: node-ical and ts-ics. */
import fc from 'fast-check';
import ical from 'node-ical';
import { convertIcsCalendar, type IcsEvent } from 'ts-ics';
import { describe, expect, it } from 'vitest';
import { viewOf } from '../../src/chart/view.js';
import { callsOf } from '../../src/plan/calls.js';
import { calendarOf } from '../../src/share/calendar.js';
import { sharedOf, type Who } from '../../src/share/content.js';
import { harbourDinner, orchardSupper, type Sample } from '../support/sample-plan.js';
import { HOSTILE, type Strange, strangeSupper } from '../support/strange-supper.js';

const WRITTEN = Date.UTC(2026, 8, 1, 12);
const DAY = 86_400_000;

interface Options {
  readonly who?: Who;
  readonly written?: number;
  readonly previous?: string;
}

const written = ({ problem, plan }: Sample, { who, written = WRITTEN, previous }: Options = {}): string =>
  calendarOf(sharedOf(viewOf(problem, plan), who ?? null), { written, ahead: 5, previous: previous ?? null });

interface Read {
  readonly uid: string;
  readonly sequence: number;
  readonly start: string;
  readonly end: string;
  readonly summary: string;
  readonly description: string;
  readonly location: string | undefined;
  readonly cancelled: boolean;
  readonly alarms: number;
}

function byNodeIcal(text: string): Read[] {
  return Object.values(ical.sync.parseICS(text)).flatMap((component): Read[] => {
    if (component?.type !== 'VEVENT') return [];
    const { uid, sequence, start, end, summary, description, location, status } = component;
    const plain = (value: unknown) => (typeof value === 'string' ? value : undefined);
    return [
      {
        uid,
        sequence: Number(sequence),
        start: start.toISOString(),
        end: end!.toISOString(),
        summary: plain(summary) ?? '',
        description: plain(description) ?? '',
        location: plain(location),
        cancelled: status === 'CANCELLED',
        alarms: ((component as { alarms?: unknown[] }).alarms ?? []).length,
      },
    ];
  });
}

function byTsIcs(text: string): Read[] {
  const calendar = convertIcsCalendar(undefined, text);
  return (calendar.events ?? []).map(
    (event: IcsEvent): Read => ({
      uid: event.uid,
      sequence: event.sequence ?? 0,
      start: event.start.date.toISOString(),
      end: event.end!.date.toISOString(),
      summary: event.summary ?? '',
      description: event.description ?? '',
      location: event.location,
      cancelled: event.status === 'CANCELLED',
      alarms: event.alarms?.length ?? 0,
    }),
  );
}

const PARSERS = { 'node-ical': byNodeIcal, 'ts-ics': byTsIcs } as const;
const both = (text: string): Read[] => {
  const [one, other] = Object.values(PARSERS).map((parse) => parse(text).sort((a, b) => (a.uid < b.uid ? -1 : 1)));
  expect(one).toEqual(other);
  return one!;
};

describe.each(Object.entries(PARSERS))('a calendar, as %s reads it', (_, parse) => {
  it('has one event for each call, at its instant, with its sentence and an alarm', () => {
    for (const sample of [orchardSupper(), harbourDinner()]) {
      const events = parse(written(sample));
      const named = ({ cook, say }: Sample['plan']['calls'][number]) => `${cook ?? 'Anyone'}: ${say}`;
      const told = (at: string, say: string) => `${new Date(at).toISOString()} ${say}`;
      expect(events.map(({ start, summary }) => told(start, summary)).sort()).toEqual(
        sample.plan.calls.map((call) => told(call.at, named(call))).sort(),
      );
      expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
      expect(events.every(({ alarms, cancelled, start, end }) => alarms === 1 && !cancelled && start < end)).toBe(true);
    }
  });

  it('has the same instants on both sides of a change of the clocks', () => {
    // Lisbon: back from 02:00 to 01:00 on 25 October 2026, on from 01:00 to 02:00 on 29 March 2026 (IANA zone data).
    const back = parse(written(strangeSupper({ origin: '2026-10-25T00:00:00+01:00' })));
    const on = parse(written(strangeSupper({ origin: '2026-03-28T23:30:00+00:00' })));
    const starts = (events: Read[]) => events.map(({ start }) => start.slice(0, 16)).sort();
    expect(starts(back)).toEqual([
      '2026-10-25T00:00',
      '2026-10-25T00:35',
      '2026-10-25T01:00',
      '2026-10-25T01:30',
      '2026-10-25T02:00',
      '2026-10-25T02:00',
      '2026-10-25T03:00',
    ]);
    expect(starts(on)).toEqual([
      '2026-03-29T00:30',
      '2026-03-29T01:05',
      '2026-03-29T01:30',
      '2026-03-29T02:00',
      '2026-03-29T02:30',
      '2026-03-29T02:30',
      '2026-03-29T03:30',
    ]);
    const words = (events: Read[], word: string) => events.find(({ summary }) => summary.includes(word))!.summary;
    expect(words(back, 'knead')).toContain('10 min until 01:10');
    expect(words(back, 'bake in')).toContain('1 h until 02:00');
    expect(words(on, 'knead')).toContain('10 min until 00:40');
    expect(words(on, 'bake in')).toContain('1 h until 03:30');
  });

  it('reads long names of any script as they were, whatever marks are in them', () => {
    const names = {
      title: 'Schäfchen; Brot, und "mehr" \\ — 夜のパン, ночной хлеб',
      dish: `Żółty chleb żytni z kminkiem, orzechami; i śliwkami ${'🥖🍞'.repeat(9)} ${'測試'.repeat(12)}`,
      // node-ical takes a backslash before an n for the end of a line, so none stands there.
      step: 'piec; „na złoto”, \\ bez pary',
    };
    const sample = strangeSupper(names);
    const events = parse(written(sample));
    expect(events.map(({ summary }) => summary.replace(/^[^:]+: /, '')).sort()).toEqual(
      sample.plan.calls.map(({ say }) => say).sort(),
    );
    expect(events.every(({ description }) => description.includes(names.title))).toBe(true);
  });
});

describe('the lines of a calendar', () => {
  it('are at most 75 octets long, end in CRLF and hold no control character (RFC 5545, 3.1)', () => {
    const name = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 120 });
    const strange = fc.record({ title: name, dish: name, step: name, source: name });
    fc.assert(
      fc.property(strange, (names) => {
        const text = written(strangeSupper(names as Partial<Strange>));
        expect(text.endsWith('\r\n')).toBe(true);
        for (const line of text.slice(0, -2).split('\r\n')) {
          expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
          // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
          expect(line).not.toMatch(/[\u0000-\u0008\u000a-\u001f\u007f-\u009f\ufffd]/);
        }
        expect(text.match(/^BEGIN:VEVENT/gm)).toHaveLength(7);
      }),
      { numRuns: 60, seed: 11, examples: [[HOSTILE as never]] },
    );
  });

  it('begin no event within a name', () => {
    // ts-ics looks for the marks of an event within lines, too, where they are mere text.
    const dish = HOSTILE.dish!.replace('\\n', '');
    const events = byNodeIcal(written(strangeSupper({ ...HOSTILE, dish })));
    expect(events).toHaveLength(7);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
    for (const { summary } of events) expect(summary).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u2028\u202e]/);
  });
});

describe('a calendar that takes the place of another', () => {
  const sample = strangeSupper();
  const first = written(sample);
  const before = new Map(both(first).map((event) => [event.uid, event]));

  it('leaves the numbers of events that have not changed', () => {
    const again = both(written(sample, { written: WRITTEN + DAY, previous: first }));
    expect(again).toEqual([...before.values()]);
  });

  it('has the same ids for other times, other kitchens and other texts of the same meal, with higher numbers', () => {
    const later = strangeSupper({ later: 25, source: 'another source' });
    for (const previous of [first, undefined]) {
      const text = written(later, { written: WRITTEN + DAY, ...(previous && { previous }) });
      const events = both(text);
      expect(events.map(({ uid }) => uid)).toEqual([...before.keys()]);
      for (const { uid, sequence } of events) expect(sequence).toBeGreaterThan(before.get(uid)!.sequence);
    }
  });

  it('counts up even within one minute, or when the clock went back', () => {
    const later = strangeSupper({ later: 25 });
    for (const moment of [WRITTEN, WRITTEN - DAY, 0]) {
      for (const { uid, sequence } of both(written(later, { written: moment, previous: first })))
        expect(sequence).toBe(before.get(uid)!.sequence + 1);
    }
  });

  it('cancels what is gone, once, and forgets it when it is over', () => {
    const ines: Who = { cooks: ['Ines'], anyone: false };
    const own = written(sample, { who: ines });
    // What was the first cook's is the second's now.
    const { problem, plan } = sample;
    const steps = plan.steps.map((row) => ({ ...row, hands: row.hands.map((hand) => ({ ...hand, cook: 'Tomas' })) }));
    const swapped = { problem, plan: { ...plan, steps, calls: callsOf(problem, { ...plan, steps }) } };
    const second = written(swapped, { who: ines, previous: own, written: WRITTEN + DAY });
    expect(both(own).map(({ cancelled }) => cancelled)).toEqual([false]);
    const [gone, ...more] = both(second);
    expect(more).toEqual([]);
    expect(gone).toMatchObject({ cancelled: true, alarms: 0, summary: both(own)[0]!.summary });
    expect(gone!.sequence).toBeGreaterThan(both(own)[0]!.sequence);
    expect(both(written(swapped, { who: ines, previous: second, written: WRITTEN + 2 * DAY }))).toEqual([gone]);
    expect(both(written(swapped, { who: ines, previous: second, written: WRITTEN + 90 * DAY }))).toEqual([]);
    const [back] = both(written(sample, { who: ines, previous: second, written: WRITTEN + DAY }));
    expect(back).toMatchObject({ cancelled: false, alarms: 1 });
    expect(back!.sequence).toBeGreaterThan(gone!.sequence);
  });

  it('takes a damaged one for none, and what is whole of one that is damaged in part', () => {
    for (const previous of ['', 'no calendar', first.slice(0, 400), first.replace('DTSTART', 'DTSTRAT')]) {
      expect(both(written(sample, { previous })).map(({ uid }) => uid)).toEqual([...before.keys()]);
    }
    const broken = first.replace(/^SEQUENCE:\d+/m, 'SEQUENCE:many');
    expect(both(written(sample, { previous: broken }))).toHaveLength(7);
  });
});

describe('what an event tells', () => {
  it('is where, how hot and in what, and the cautions that go with it', () => {
    const events = both(written(strangeSupper()));
    const bake = events.find(({ summary }) => summary.includes('bake in'));
    expect(bake?.location).toBe('oven, rack 1');
    expect(bake?.description.split('\n')).toEqual([
      'oven, rack 1; 392 °F, roast; deep dish',
      'Caution: Rye bread: No core target is set. (an invented source)',
      'Night bread. Saturday 3 October 2026: served at 15:00 (Europe/Lisbon)',
    ]);
    const heat = events.find(({ summary }) => summary.includes('heat to'));
    expect(heat?.description).toContain('Caution: Iron from fierce heat');
    const all = events.map(({ description }) => description).join('\n');
    for (const { say } of strangeSupper().plan.cautions) expect(all).toContain(say);
  });
});
