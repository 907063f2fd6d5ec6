import { beforeAll, describe, expect, test } from 'vitest';
import { stepNamed } from '../../src/live/journal/names.js';
import { type CoreNow, coresNow, expectedEnds } from '../../src/live/readings/core-now.js';
import { documentOf, stateDocument } from '../../src/live/state/document.js';
import { stateAt } from '../../src/live/state/state.js';
import { coreWords } from '../../src/live/state/words.js';
import { clockAt, minuteAt } from '../../src/problem/hours.js';
import { Teller } from './day-of.js';

/** The loin in the oven as planned, read so many degrees off what is expected 40 minutes later. */
function roasting(off: number | null): { teller: Teller; begun: number; cores: (minute: number) => CoreNow[] } {
  const teller = new Teller();
  const { problem, plan } = teller.day;
  const row = plan!.steps.find(({ dish, step }) => dish === 'Roast loin' && step === 'roast')!;
  const begun = minuteAt(problem, row.start);
  const clock = (minute: number): string => clockAt(problem, minute);
  teller.did('Roast loin/tie', clock(begun - 10), clock(begun - 2)).did('Roast loin/roast', clock(begun));
  const cores = (minute: number): CoreNow[] => coresNow(teller.day, minute);
  if (off !== null) {
    const [expected] = cores(begun + 40);
    const celsius = Math.round(expected!.now.likely + off);
    teller.must(clock(begun + 40), { kind: 'reading', step: 'Roast loin/roast', celsius });
  }
  return { teller, begun, cores };
}

describe('cores on the day', () => {
  let same: ReturnType<typeof roasting>;
  beforeAll(() => {
    same = roasting(null);
  });

  test('before anything is read the pull is when the plan has it', () => {
    const { begun, cores, teller } = same;
    const [core, ...others] = cores(begun + 40);
    expect(others).toEqual([]);
    const row = teller.day.plan!.steps.find(({ dish, step }) => dish === 'Roast loin' && step === 'roast')!;
    expect(core!.pull!.celsius).toBe(60);
    expect(Math.abs(core!.pull!.at.likely - minuteAt(teller.day.problem, row.end))).toBeLessThan(4);
    expect(core!.pull!.peak).toBeGreaterThan(60);
    expect(core!.readings).toBe(0);
  });

  test('a reading ahead of the curve brings it forward, one behind it back', () => {
    const [fast, slow] = [roasting(6), roasting(-6)];
    const at = ({ begun, cores }: typeof same): number => cores(begun + 45)[0]!.pull!.at.likely;
    expect(at(fast)).toBeLessThan(at(same) - 4);
    expect(at(slow)).toBeGreaterThan(at(same) + 4);
    const roast = stepNamed(same.teller.day.problem, 'Roast loin/roast') as number;
    const ends = expectedEnds(fast.cores(fast.begun + 45), fast.begun + 45);
    expect(ends.get(roast)).toBe(Math.ceil(at(fast)));
  });

  test('a piece that is past its core is expected out now', () => {
    const { begun, cores } = same;
    const late = begun + 200;
    expect([...expectedEnds(cores(late), late).values()]).toEqual([late]);
  });

  test('at rest nothing is to be pulled, and it is told how hot it will be cut', () => {
    const { teller, begun } = roasting(0);
    const clock = (minute: number): string => clockAt(teller.day.problem, minute);
    const end = begun + 70;
    teller.must(clock(end), { kind: 'done', step: 'Roast loin/roast' }).did('Roast loin/rest', clock(end));
    const [core] = coresNow(teller.day, end + 5);
    expect(core!.pull).toBeNull();
    expect(core!.atServe!.likely).toBeGreaterThan(45);
    expect(coreWords(teller.day, core!, clock)).toMatch(/when it is cut; by 1 reading$/);
  });

  test('before it is on the heat and once it is carved there is nothing to tell', () => {
    const { teller, begun } = roasting(null);
    const clock = (minute: number): string => clockAt(teller.day.problem, minute);
    expect(coresNow(teller.day, begun - 5)).toEqual([]);
    teller.must(clock(begun + 70), { kind: 'done', step: 'Roast loin/roast' });
    teller.did('Roast loin/rest', clock(begun + 70), clock(begun + 85)).did('Roast loin/carve', clock(begun + 85));
    expect(coresNow(teller.day, begun + 86)).toEqual([]);
  });

  test('words and document', () => {
    const { teller, begun, cores } = roasting(-6);
    const clock = (minute: number): string => clockAt(teller.day.problem, Math.round(minute));
    expect(coreWords(teller.day, cores(begun + 45)[0]!, clock)).toMatch(
      /^about \d+ °C now; pull at 60 °C about \d\d:\d\d \(\d\d:\d\d to \d\d:\d\d\), rises to \d+ °C; by 1 reading very likely it heats more slowly: 0\.\d\d times as fast as was thought \(/,
    );
    const document = documentOf(teller.day, stateAt(teller.day, begun + 45));
    expect(stateDocument.parse(document)).toEqual(document);
    expect(document.cores).toMatchObject([{ dish: 'Roast loin', step: 'roast', readings: 1 }]);
  });
});
