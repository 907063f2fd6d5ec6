/** What entries make of a day, and which are refused. */
import { describe, expect, it } from 'vitest';
import { happenedOf } from '../../src/live/journal/day.js';
import type { Body } from '../../src/live/journal/entries.js';
import { isRefusal } from '../../src/live/journal/names.js';
import { rebuilt, strange } from '../../src/live/journal/rebuild.js';
import { stepKey } from '../../src/problem/hours.js';
import { SUPPER, supper, Teller } from './day-of.js';

const begun = (teller: Teller): Teller =>
  teller.did('Roast loin/tie', '16:30', '16:38').did('Roast loin/roast', '16:45');

function idOf(teller: Teller, key: string): number {
  const { problem } = teller.day;
  return problem.steps.find(({ id }) => stepKey(problem, id) === key)!.id;
}

describe('a journal', () => {
  it('makes a Happened of what was said', () => {
    const teller = begun(new Teller())
      .must('17:00', { kind: 'reading', step: 'Roast loin/roast', celsius: 21 })
      .must('17:01', { kind: 'serve', serve: '2026-10-03T19:20:00+01:00' })
      .must('17:02', { kind: 'lost', what: { kind: 'pan', pan: 'half sheet', count: 1 } })
      .must('17:03', { kind: 'lost', what: { kind: 'burner', appliance: 'range', burner: 'front' } })
      .must('17:04', { kind: 'gone', cook: 'Tomas' })
      .must('17:05', { kind: 'dropped', dish: 'Roots' })
      .must('17:06', { kind: 'note', text: 'the oven smokes' });
    const { day } = teller;
    const at = (clock: string): number => (Date.parse(teller.iso(clock)) - day.problem.origin) / 60_000;
    expect(happenedOf(day, at('17:10'))).toEqual({
      now: at('17:10'),
      steps: new Map([
        [idOf(teller, 'Roast loin/tie'), { start: at('16:30'), end: at('16:38') }],
        [idOf(teller, 'Roast loin/roast'), { start: at('16:45'), end: null }],
      ]),
      readings: [{ step: idOf(teller, 'Roast loin/roast'), at: at('17:00'), celsius: 21 }],
      serve: at('19:20'),
      losses: [
        { at: at('17:02'), what: { kind: 'pan', pan: 0, count: 1 } },
        { at: at('17:03'), what: { kind: 'burner', appliance: 1, burner: 0 } },
      ],
      gone: new Map([[1, at('17:04')]]),
      dropped: new Set([1]),
    });
    expect(day.remarks).toEqual([{ at: at('17:06'), who: null, text: 'the oven smokes' }]);
    expect(day.plan?.format).toBe('hearthtable-plan/1');
  });

  it('takes names in any case and a step by its own name, and writes them in full', () => {
    const teller = new Teller();
    expect(teller.say('16:30', { kind: 'started', step: 'TIE' })).toMatchObject({ step: 'Roast loin/tie' });
    expect(teller.say('16:31', { kind: 'gone', cook: 'ines' })).toMatchObject({ cook: 'Ines' });
    expect(teller.say('16:32', { kind: 'dropped', dish: ' roots' })).toMatchObject({ dish: 'Roots' });
  });

  it('finds again what was lost, the last first', () => {
    const teller = new Teller();
    const sheet = (count: number) => ({ kind: 'pan' as const, pan: 'half sheet', count });
    teller.must('16:00', { kind: 'lost', what: sheet(1) }).must('16:10', { kind: 'lost', what: sheet(1) });
    expect(isRefusal(teller.say('16:11', { kind: 'lost', what: sheet(1) }))).toBe(true);
    teller.must('16:20', { kind: 'found', what: sheet(1) });
    expect(teller.day.losses.map(({ at }) => at)).toEqual([240]);
    expect(isRefusal(teller.say('16:21', { kind: 'found', what: sheet(2) }))).toBe(true);
  });

  it('says when what nobody started began: as planned, never before what came before it', () => {
    const teller = new Teller().did('Roast loin/tie', '16:30', '16:58');
    teller.must('16:59', { kind: 'done', step: 'Roots/cut' });
    const row = teller.day.plan!.steps.find(({ dish, step }) => dish === 'Roots' && step === 'cut')!;
    const planned = (Date.parse(row.start) - teller.meal.problem.origin) / 60_000;
    const { start, end } = teller.day.steps.get(idOf(teller, 'Roots/cut'))!;
    expect(end).toBe(299);
    expect(start).toBe(planned < 299 ? planned : 299 - 15);
    teller.must('18:50', { kind: 'done', step: 'Roast loin/roast' });
    expect(teller.day.steps.get(idOf(teller, 'Roast loin/roast'))!.start).toBeGreaterThanOrEqual(298);
  });

  it('adds a dish at the end of the meal, and does not know it any more when that is taken back', () => {
    const teller = new Teller();
    const dish =
      'dish: Olives\nsteps:\n  - { step: warm, work: warm, takes: 5 min, on: [{ place: burner, heat: low, pan: small pot }] }\n';
    const added = teller.say('17:00', { kind: 'added', dish });
    expect(isRefusal(added)).toBe(false);
    expect(teller.day.problem.dishes.map(({ name }) => name)).toEqual(['Roast loin', 'Roots', 'Oil', 'Olives']);
    expect(teller.day.problem.digest).toBe(teller.meal.problem.digest);
    teller.did('Olives/warm', '17:10');
    const undo = teller.say('17:11', { kind: 'undo', of: 3 });
    expect(undo).toEqual({ say: 'Entry 4 (Olives/warm started) rests on it.', hint: 'first: undo 4' });
    teller.must('17:12', { kind: 'undo', of: 4 }).must('17:12', { kind: 'undo', of: 3 });
    expect(teller.day.problem.dishes).toHaveLength(3);
  });

  it('says what is wrong with a dish that cannot be read', () => {
    const wrong = new Teller().say('17:00', { kind: 'added', dish: 'dish: Olives\nstep: []\n' });
    expect(wrong).toMatchObject({ say: expect.stringContaining('`step` is not a key'), hint: 'steps' });
  });

  it('makes more of a dish that is not begun: pans and the work of hands', () => {
    const teller = new Teller();
    teller.must('15:00', { kind: 'guests', dish: 'Roots', now: 8, before: 6 });
    const option = (key: string) => teller.day.problem.steps[idOf(teller, key)]!.options[0]!;
    expect(option('Roots/roast').pans).toBe(2);
    expect(option('Roots/roast').duration).toMatchObject({ minutes: 40 });
    expect(option('Roots/cut').duration).toMatchObject({ minutes: 20 });
    expect(teller.say('15:01', { kind: 'guests', dish: 'Roots', now: 20, before: 8 })).toMatchObject({
      say: expect.stringContaining('wants 4 of the pan `half sheet`, and there are 2'),
    });
    teller.did('Roots/cut', '15:30');
    expect(teller.say('15:31', { kind: 'guests', dish: 'Roots', now: 6, before: 8 })).toMatchObject({
      say: expect.stringContaining('is begun (cut)'),
    });
  });

  it('takes back entries, whose undo stays an entry', () => {
    const teller = begun(new Teller());
    teller.must('16:50', { kind: 'undo', of: teller.entries.at(-1)!.seq });
    expect(teller.day.steps.has(idOf(teller, 'Roast loin/roast'))).toBe(false);
    expect(teller.entries).toHaveLength(6);
    teller.did('Roast loin/roast', '16:48');
    expect(teller.day.steps.get(idOf(teller, 'Roast loin/roast'))).toEqual({ start: 288, end: null });
  });

  it('belongs to one text of a meal', () => {
    const { entries, meal } = new Teller();
    expect(strange(meal, entries)).toBeNull();
    const other = { ...meal, problem: { ...meal.problem, digest: 'f'.repeat(64) } };
    expect(strange(other, entries)?.say).toContain('has been changed since this journal was begun');
    expect(SUPPER).toContain(meal.problem.title);
  });
});

describe('refused, with what would be right:', () => {
  const rows: readonly [string, string, Body, string, string | null, string?][] = [
    [
      'a step that is not there',
      '17:00',
      { kind: 'started', step: 'Roots/roost' },
      'no step `Roots/roost`',
      'Roots/roast',
    ],
    [
      'a name of several',
      '17:00',
      { kind: 'started', step: 'roast' },
      'several steps',
      'Roast loin/roast or Roots/roast',
    ],
    [
      'what is under way',
      '17:00',
      { kind: 'started', step: 'Roast loin/roast' },
      'under way already, since 16:45',
      'done `Roast loin/roast`',
    ],
    [
      'what is done',
      '17:00',
      { kind: 'done', step: 'tie' },
      'done already, since 16:38',
      'undo that entry if it was wrong',
    ],
    ['what is started when it is done', '17:00', { kind: 'started', step: 'tie' }, 'done already', null],
    [
      'what comes after what is not begun',
      '17:00',
      { kind: 'started', step: 'carve' },
      'after Roast loin/rest, which is not done',
      'first: done `Roast loin/rest`',
    ],
    [
      'what comes after what is under way',
      '17:00',
      { kind: 'done', step: 'rest' },
      'which is under way since 16:45',
      'first: done `Roast loin/roast`',
    ],
    [
      'the future',
      '17:00',
      { kind: 'started', step: 'Roots/cut' },
      '17:30 is still to come: it is 17:00',
      'note it when it has happened',
      '17:30',
    ],
    [
      'an end before its beginning',
      '17:00',
      { kind: 'done', step: 'Roast loin/roast' },
      'cannot have been done at 16:40',
      null,
      '16:40',
    ],
    [
      'a reading of what is not on the heat',
      '17:00',
      { kind: 'reading', step: 'tie', celsius: 20 },
      'not on the heat',
      'Roast loin/roast',
    ],
    [
      'a reading of what is not begun',
      '17:00',
      { kind: 'reading', step: 'rest', celsius: 20 },
      'not begun',
      'Roast loin/roast',
    ],
    [
      'a reading of what has no piece',
      '17:00',
      { kind: 'reading', step: 'Roots/roast', celsius: 20 },
      'no piece',
      '`piece: { ... }` in the file',
    ],
    [
      'a reading before the beginning',
      '17:00',
      { kind: 'reading', step: 'Roast loin/roast', celsius: 20 },
      'started at 16:45',
      null,
      '16:40',
    ],
    [
      'a core that cannot be',
      '17:00',
      { kind: 'reading', step: 'Roast loin/roast', celsius: 180 },
      '180 °C cannot be a core',
      '-25-105 °C',
    ],
    [
      'a serving time that is past',
      '17:00',
      { kind: 'serve', serve: '2026-10-03T16:00:00+01:00' },
      '16:00 is past',
      'a serving time that is still to come',
    ],
    ['a cook who is not there', '17:00', { kind: 'gone', cook: 'Inez' }, 'no cook `Inez`', 'Ines'],
    ['a cook back who was not gone', '17:00', { kind: 'back', cook: 'Ines' }, 'was not gone', null],
    [
      'a place that is not there',
      '17:00',
      { kind: 'started', step: 'Roots/cut', place: 'bord' },
      'no place `bord`',
      'board',
    ],
    [
      'more pans than there are',
      '17:00',
      { kind: 'lost', what: { kind: 'pan', pan: 'half sheet', count: 3 } },
      'only 2',
      '2',
    ],
    [
      'a burner that is not there',
      '17:00',
      { kind: 'lost', what: { kind: 'burner', appliance: 'range', burner: 'side' } },
      'no burner',
      'front and back',
    ],
    [
      'an undo of what is not there',
      '17:00',
      { kind: 'undo', of: 77 },
      'no entry 77',
      'undo 5: Roast loin/roast started',
    ],
    ['an undo of the beginning', '17:00', { kind: 'undo', of: 1 }, 'cannot be taken back', null],
    ['an undo of the only plan', '17:00', { kind: 'undo', of: 2 }, 'only plan', null],
    ['an undo of what others rest on', '17:00', { kind: 'undo', of: 4 }, 'rests on it', 'first: undo 5'],
  ];
  it.each(rows)('%s', (_, at, body, say, hint, when) => {
    const teller = begun(new Teller());
    const answer = teller.say(at, body, when);
    if (!isRefusal(answer)) throw new Error('it was taken');
    expect(answer.say).toContain(say);
    if (hint !== null) expect(answer.hint).toContain(hint);
    expect(teller.entries).toHaveLength(5);
  });

  it('an undo of an undo, and a second one', () => {
    const teller = begun(new Teller()).must('16:50', { kind: 'undo', of: 5 });
    expect(teller.say('16:51', { kind: 'undo', of: 6 })).toMatchObject({
      say: expect.stringContaining('is an undo itself'),
    });
    expect(teller.say('16:51', { kind: 'undo', of: 5 })).toMatchObject({
      say: expect.stringContaining('taken back already'),
    });
  });

  it('nothing that is rebuilt from its own entries', () => {
    const teller = begun(new Teller()).must('17:00', { kind: 'done', step: 'Roast loin/roast' });
    expect(rebuilt(supper(), teller.entries).passedOver).toEqual([]);
  });
});
