/** What is offered when the screen opens before anything has begun: room in the plan that was made beforehand. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { type Proposals, proposalsFor } from '../../cli/cooking/proposals.js';
import { type ADesk, aDesk } from './a-desk.js';

const opened: ADesk[] = [];
const planners: Proposals[] = [];

afterEach(() => {
  for (const each of planners.splice(0)) each.close();
  for (const each of opened.splice(0)) each.close();
});

const deskAt = (clock: string): ADesk => {
  const one = aDesk(clock, 'Ines');
  opened.push(one);
  return one;
};

function proposalsOf({ desk }: ADesk, atOnce = false): Proposals {
  const made = proposalsFor(desk, atOnce);
  planners.push(made);
  return made;
}

const answered = (proposals: Proposals): Promise<void> =>
  vi.waitFor(() => expect(proposals.thinking()).toBe(false), { timeout: 20_000, interval: 20 });

describe('a day that is opened before anything has begun', () => {
  it('is offered room for what may take longer, once it is taken not again', async () => {
    const one = deskAt('13:00');
    const before = one.desk.day().plan!;
    const proposals = proposalsOf(one);
    expect(proposals.thinking()).toBe(true);
    await answered(proposals);
    expect(proposals.current()!.say[0]).toBe('Some minutes are kept free for what may take longer.');
    proposals.take();
    expect(one.desk.day().plan).not.toEqual(before);
    expect(proposalsOf(one).thinking()).toBe(false);
  });

  it('has it at once where new plans are taken so', async () => {
    const one = deskAt('13:00');
    await answered(proposalsOf(one, true));
    expect(one.desk.inForce().filter(({ kind }) => kind === 'plan')).toHaveLength(2);
  });

  it('keeps its plan where that is wished', async () => {
    const one = deskAt('13:00');
    const before = one.desk.day().plan;
    const proposals = proposalsOf(one);
    await answered(proposals);
    proposals.leave();
    expect(proposals.current()).toBe(null);
    expect(one.desk.day().plan).toBe(before);
  });
});

describe('a day that has begun', () => {
  it('has room for what is left of it, where its plan was made beforehand', async () => {
    const one = deskAt('17:00');
    one.desk.note([{ kind: 'started', step: 'Roast loin/tie' }], 0);
    const proposals = proposalsOf(one);
    expect(proposals.thinking()).toBe(true);
    await answered(proposals);
    expect(proposals.current()!.say.join(' ')).toContain('minutes are kept free');
    proposals.take();
    expect(proposalsOf(one).thinking()).toBe(false);
  });
});

describe('a day that is over', () => {
  it('is not planned anew, and says so once', () => {
    const past = deskAt('2026-10-05 12:00');
    const proposals = proposalsOf(past);
    expect(proposals.thinking()).toBe(false);
    expect(proposals.current()).toMatchObject({
      plan: null,
      say: [expect.stringMatching(/^Serving was 1 d 17 h ago/), 'A rehearsal is begun by --at.'],
    });
    proposals.leave();
    proposals.look();
    expect(proposals.current()).toBe(null);
  });
});
