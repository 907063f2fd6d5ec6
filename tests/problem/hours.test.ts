/** Minutes and clock times, also where the clocks change. */
import { describe, expect, it } from 'vitest';
import { clockAt, dateAt, isoAt, minuteAt, stays, stepKey } from '../../src/problem/hours.js';
import type { ProblemAsRead as Problem } from '../../src/problem/problem.js';
import { changed, messagesOf, problemOf, SMALL_SUPPER } from './support/small-supper.js';

const TIMES = 'serve: 2026-10-03 18:30\nzone: Europe/Lisbon\nstart: 2026-10-03 12:00\n';
const served = (serve: string, zone: string, start?: string) =>
  changed([TIMES, `serve: ${serve}\nzone: ${zone}\n${start ? `start: ${start}\n` : ''}`]);

/** When a second cook of these hours is there, as clock times. */
function hours(problemText: string, from: string | null, to: string | null, horizon: number): string[] {
  const said = `${from ? `, from: ${from}` : ''}${to ? `, to: ${to}` : ''}`;
  const problem = problemOf(problemText.replace(', from: 15:00, to: 22:00', said));
  return stays(problem, 1, horizon).map(({ start, end }) => `${label(problem, start)} - ${label(problem, end)}`);
}
const label = (problem: Problem, minute: number) => `${dateAt(problem, minute).slice(8)} ${clockAt(problem, minute)}`;

describe('serve and start', () => {
  it('are instants of the zone; without a start it is 24 h before', () => {
    const problem = problemOf(SMALL_SUPPER);
    expect([problem.origin, problem.serve]).toEqual([Date.UTC(2026, 9, 3, 11), 390]);
    const day = problemOf(served('2026-10-03 18:30', 'Europe/Lisbon'));
    expect([day.origin, day.serve]).toEqual([Date.UTC(2026, 9, 2, 17, 30), 1440]);
  });

  it('may be a clock time alone for the start: that of the day of the meal', () => {
    expect(problemOf(served('2026-10-03 18:30', 'Europe/Lisbon', '9:30')).serve).toBe(540);
  });

  it('count real minutes over a change of the clocks', () => {
    // The clocks go back in the night: 24 h before 18:30 is 19:30, and 25 h lie between equal times.
    const autumn = problemOf(served('2026-10-25 18:30', 'Europe/Lisbon'));
    expect([clockAt(autumn, 0), clockAt(autumn, autumn.serve)]).toEqual(['19:30', '18:30']);
    expect(problemOf(served('2026-10-25 18:30', 'Europe/Lisbon', '2026-10-24 18:30')).serve).toBe(25 * 60);
    const spring = problemOf(served('2026-03-29 18:30', 'Europe/Lisbon', '2026-03-28 18:30'));
    expect(spring.serve).toBe(23 * 60);
    expect(clockAt(problemOf(served('2026-03-29 18:30', 'Europe/Lisbon')), 0)).toBe('17:30');
  });

  it('take the first of a time that comes twice, and refuse one that does not exist', () => {
    const twice = problemOf(served('2026-10-25 01:30', 'Europe/Lisbon', '2026-10-24 20:00'));
    expect(isoAt(twice, twice.serve)).toBe('2026-10-25T01:30:00+01:00');
    expect(isoAt(twice, twice.serve + 60)).toBe('2026-10-25T01:30:00+00:00');
    expect(messagesOf(served('2026-03-29 01:30', 'Europe/Lisbon'))).toMatchObject([
      {
        line: 3,
        column: 8,
        say: '`2026-03-29 01:30` does not exist: the clocks of Europe/Lisbon jump to 02:00 there.',
        hint: '2026-03-29 02:00',
      },
    ]);
    expect(messagesOf(served('2026-03-08 18:30', 'America/New_York', '2026-03-08 02:30'))).toMatchObject([
      { line: 5, column: 8, hint: '2026-03-08 03:00' },
    ]);
  });
});

describe('minutes and times', () => {
  it('go into each other', () => {
    const problem = problemOf(served('2026-10-25 18:30', 'Europe/Lisbon', '2026-10-24 18:30'));
    for (let minute = 0; minute <= problem.serve; minute += 7)
      expect(minuteAt(problem, isoAt(problem, minute))).toBe(minute);
    expect(minuteAt(problem, '2026-10-25T18:30:00Z')).toBe(1500);
    expect(minuteAt(problem, 'never')).toBeNaN();
    expect(stepKey(problem, 2)).toBe('Pork loin/roast');
  });
});

describe('the hours of a cook', () => {
  const summer = served('2026-07-04 18:30', 'Europe/Lisbon', '2026-07-03 12:00');

  it("hold on every day by the zone's clock, from minute 0 to the horizon", () => {
    expect(hours(summer, '15:00', '22:00', 30 * 60)).toEqual(['03 15:00 - 03 22:00', '04 15:00 - 04 18:00']);
    expect(hours(summer, '08:00', '12:30', 30 * 60)).toEqual(['03 12:00 - 03 12:30', '04 08:00 - 04 12:30']);
    expect(hours(summer, '08:00', '12:00', 20 * 60)).toEqual([]);
  });

  it('are open on a side that is not said: to midnight, where it joins the next day', () => {
    expect(hours(summer, null, null, 30 * 60)).toEqual(['03 12:00 - 04 18:00']);
    expect(hours(summer, '15:00', null, 30 * 60)).toEqual(['03 15:00 - 04 00:00', '04 15:00 - 04 18:00']);
    expect(hours(summer, null, '14:00', 30 * 60)).toEqual(['03 12:00 - 03 14:00', '04 00:00 - 04 14:00']);
    expect(hours(summer, '00:00', '24:00', 30 * 60)).toEqual(['03 12:00 - 04 18:00']);
  });

  it('may go over midnight, also into the first day', () => {
    expect(hours(summer, '22:00', '06:00', 30 * 60)).toEqual(['03 22:00 - 04 06:00']);
    const early = served('2026-07-04 18:30', 'Europe/Lisbon', '2026-07-04 02:00');
    expect(hours(early, '22:00', '06:00', 10 * 60)).toEqual(['04 02:00 - 04 06:00']);
  });

  it('follow the clocks when they change', () => {
    const back = served('2026-10-25 18:30', 'Europe/Lisbon', '2026-10-24 20:00');
    const forth = served('2026-03-29 18:30', 'Europe/Lisbon', '2026-03-28 20:00');
    expect(hours(back, '22:00', '06:00', 24 * 60)).toEqual(['24 22:00 - 25 06:00']);
    const lengths = [back, forth].map((text) =>
      stays(problemOf(text.replace('from: 15:00, to: 22:00', 'from: 22:00, to: 06:00')), 1, 1440).map(
        (one) => one.end - one.start,
      ),
    );
    expect(lengths).toEqual([[9 * 60], [7 * 60]]);
    // A time that comes twice is the first; one that the clocks jump past is the jump.
    expect(stays(problemOf(back.replace('from: 15:00, to: 22:00', 'from: 01:30, to: 03:00')), 1, 1440)).toEqual([
      { start: 330, end: 480 },
    ]);
    expect(hours(forth, '01:30', '03:00', 24 * 60)).toEqual(['29 02:00 - 29 03:00']);
  });

  it('are nothing before minute 0', () => {
    expect(stays(problemOf(SMALL_SUPPER), 1, 0)).toEqual([]);
  });
});
