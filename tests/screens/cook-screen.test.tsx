import { appendFileSync } from 'node:fs';
import { cleanup, render } from 'ink-testing-library';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { practiceFor } from '../../cli/cooking/practice.js';
import { type Proposals, proposalsFor } from '../../cli/cooking/proposals.js';
import { alarmFor } from '../../cli/screens/cook/alarm.js';
import { CookScreen } from '../../cli/screens/cook/cook-screen.js';
import { ASCII, UNICODE } from '../../src/chart/glyphs.js';
import { widthOf } from '../../src/chart/text.js';
import { Rehearsal } from '../../src/live/rehearsal/rehearsal.js';
import { type ADesk, aDesk } from './a-desk.js';

const brush = { colors: 'none', weights: false } as const;
const opened: ADesk[] = [];
const planners: Proposals[] = [];

afterEach(() => {
  cleanup();
  for (const each of planners.splice(0)) each.close();
  for (const each of opened.splice(0)) each.close();
});

async function open(clock: string, columns = 80, rows = 24, glyphs = UNICODE, atOnce = false) {
  const one = aDesk(clock, 'Ines');
  opened.push(one);
  const proposals = proposalsFor(one.desk, atOnce);
  planners.push(proposals);
  const rings: (string | null)[] = [];
  const ring = (due: string | null, bell: boolean) => {
    if (bell) rings.push(due);
  };
  const screen = (size = { columns, rows }) => (
    <CookScreen
      desk={one.desk}
      proposals={proposals}
      practice={null}
      glyphs={glyphs}
      brush={brush}
      size={size}
      ring={ring}
    />
  );
  const app = render(screen());
  const hears = () => app.stdin.listenerCount('readable') > 0;
  await vi.waitFor(() => expect(hears()).toBe(true));
  const seen = () => app.lastFrame() ?? '';
  return {
    ...one,
    app,
    screen,
    seen,
    hears,
    rings,
    press: async (key: string, expected: string | RegExp) => {
      app.stdin.write(key);
      await vi.waitFor(() => expect(seen()).toMatch(expected), { timeout: 10_000, interval: 5 });
    },
  };
}

/** After heating the oven, the first call of the supper is tying the loin. */
const FIRST = /Roast loin: tie/;

describe('the cook’s screen', () => {
  it('shows the present minute, the chart with a line at now, and what comes next', async () => {
    const { seen } = await open('17:20');
    expect(seen()).toMatch(/^ Small supper +Sat 3 Oct, 17:20/);
    expect(seen()).toContain('serve 19:00, in 1 h 40 min');
    expect(seen()).toContain('┃');
    expect(seen()).toMatch(/── Next ─/);
    expect(seen()).toMatch(FIRST);
    for (const line of seen().split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(80);
    expect(seen().split('\n').length).toBeLessThanOrEqual(24);
  });

  it('ticks a call off with one key, three minutes ago if so asked, and takes it back', async () => {
    const { desk, press, seen } = await open('17:20');
    await press(' ', 'Heeded: Oven: heat to 175 °C, roast, by 17:08.');
    await press('3', '3 min ago: Space ticks it off');
    await press(' ', /17:17 Ines: Roast loin\/tie started/);
    expect(seen()).toMatch(/── Under way ─+\n.*Roast loin\/tie/);
    const [begun] = [...desk.day().steps.values()];
    expect(begun!.start).toBe(desk.minute() - 3);
    await press('u', /Taken back: 17:17 Ines: Roast loin\/tie started/);
    expect(desk.day().steps.size).toBe(0);
  });

  it('takes keys that come all at once', async () => {
    const { press, desk } = await open('17:20');
    await press('2 3 :text smoke\r', /“smoke”/);
    expect(desk.day().remarks.map(({ text }) => text)).toEqual(['smoke']);
    expect(desk.day().steps.size).toBe(1);
  });

  it('takes readings, and refuses with the reason', async () => {
    const { press, desk, seen, set } = await open('17:20');
    await press('r54C\r', /No piece whose core can be read is on the heat/);
    await press(':started "Roast loin/tie"\r', /tie started/);
    set('17:28');
    await press(':done "Roast loin/tie"\r', /tie done/);
    await press(':started "Roast loin/roast"\r', /roast started/);
    set('18:00');
    await press('r30C\r', /Roast loin\/roast reads 30 °C/);
    expect(desk.day().readings).toHaveLength(1);
    expect(seen()).toMatch(/Roast loin\/roast; about 30 °C now; pull at 60 °C/);
    await press('s17:00\r', /17:00 is past/);
    await press(':rodast\r', /There is no entry `rodast`/);
  });

  it('hears of what others note, and goes on where it was', async () => {
    const { desk, again, seen, press } = await open('17:20');
    const other = again();
    other.note([{ kind: 'note', text: 'from the other room' }], 0);
    await press('j', 'from the other room');
    await press('j', FIRST);
    desk.note([{ kind: 'started', step: 'Roast loin/tie' }], 0);
    await vi.waitFor(() => expect(seen()).toContain('Under way'));
    expect([...again().day().steps.keys()]).toEqual([...desk.day().steps.keys()]);
  });

  it('rings once for each call that becomes due', async () => {
    const { desk, set } = await open('12:00');
    const alarm = alarmFor(desk);
    expect(alarm(desk)).toEqual({ due: null, bell: false });
    const [first] = desk.state().calls;
    set(first!.row.at.slice(11, 16));
    expect(alarm(desk)).toEqual({ due: expect.stringContaining(': '), bell: true });
    expect(alarm(desk).bell).toBe(false);
  });

  it('only shows a damaged journal, and says why', async () => {
    const { path, desk, press, seen } = await open('17:20');
    desk.note([{ kind: 'note', text: 'whole' }], 0);
    appendFileSync(path, 'not an entry\n');
    desk.note([], 0);
    await press('jj', /the journal is damaged/);
    await press(' ', /the journal is damaged/);
    expect(seen()).toMatch(FIRST);
  });

  it('fits small and large windows, in plain characters too', async () => {
    const { app, screen, seen } = await open('17:20', 120, 40, ASCII);
    for (const [columns, rows] of [
      [120, 40],
      [60, 18],
      [44, 12],
      [200, 60],
    ] as const) {
      app.rerender(screen({ columns, rows }));
      await vi.waitFor(() => expect(seen()).toMatch(FIRST));
      const lines = seen().split('\n');
      expect(lines.length).toBeLessThanOrEqual(rows);
      for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(columns);
      expect(seen()).toMatch(/^[\n\x20-\x7e]*$/);
    }
  });

  it('offers a new plan when something has happened, and takes it when it is told to', async () => {
    const { press, desk, seen } = await open('17:20', 100, 30);
    const first = desk.day().plan!;
    await press('s19:30\r', /New plan: Serving is at 19:30 now/);
    expect(desk.day().plan).toEqual(first);
    await press('v', /Roots\/roast +begins 18:39, was 18:17: 22 min later/);
    await press('y', 'The new plan is taken');
    const { plan, planSay } = desk.day();
    expect(plan!.dishes.find(({ dish }) => dish === 'Roots')!.serve).toContain('19:30');
    expect(planSay.join(' ')).toContain('Serving is at 19:30 now');
    expect(seen()).not.toContain('New plan');
  });

  it('keeps the old plan when it is told to, and takes new ones at once when it is told that', async () => {
    const { press, desk, seen } = await open('17:20', 100, 30);
    const first = desk.day().plan!;
    await press('s19:30\r', /New plan: Serving/);
    await press('n', 'The plan stays as it was');
    expect(seen()).not.toContain('New plan:');
    expect(desk.day().plan).toEqual(first);
    await press('o', 'New plans are taken at once');
    await press('s19:40\r', /serve at 19:40/);
    await vi.waitFor(() => expect(desk.day().planSay.join()).toContain('19:40'), { timeout: 10_000 });
  });

  it('asks before a dish is left out, even where new plans are taken at once', async () => {
    const { desk, seen, press } = await open('18:40', 100, 30, UNICODE, true);
    desk.note([{ kind: 'lost', what: { kind: 'appliance', appliance: 'oven' } }], 0);
    await vi.waitFor(() => expect(seen()).toMatch(/New plan without .*Roast loin/), { timeout: 10_000 });
    expect(desk.inForce().filter(({ kind }) => kind === 'plan')).toHaveLength(1);
    await press('y', 'The new plan is taken');
    expect(desk.day().plan!.steps.filter(({ dish }) => dish === 'Roast loin')).toEqual([]);
  });

  it('does not offer what was worked out before something else happened', async () => {
    const { desk } = await open('17:20', 100, 30, UNICODE, true);
    desk.note([{ kind: 'serve', serve: '2026-10-03T19:30:00+01:00' }], 0);
    desk.note([{ kind: 'serve', serve: '2026-10-03T20:00:00+01:00' }], 0);
    await vi.waitFor(() => expect(desk.day().planSay.join()).toContain('20:00'), { timeout: 10_000 });
    expect(desk.inForce().filter(({ kind }) => kind === 'plan')).toHaveLength(2);
  });

  it('rehearses: helpers do their own work, r reads the simulated thermometer, and what is done by the look of it is told', async () => {
    const one = aDesk('17:20', 'Ines');
    opened.push(one);
    const { desk, set } = one;
    const proposals = proposalsFor(desk, false);
    planners.push(proposals);
    const practice = practiceFor(desk, new Rehearsal(1, 'Ines'));
    for (const [clock, step] of [
      ['17:00', 'Roast loin/tie'],
      ['17:08', 'Roast loin/roast'],
    ] as const) {
      set(clock);
      desk.note([...(clock === '17:08' ? [{ kind: 'done', step: 'Roast loin/tie' } as const] : [])], 0);
      desk.note([{ kind: 'started', step }], 0);
    }
    const size = { columns: 100, rows: 30 };
    const screen = () => (
      <CookScreen {...{ desk, proposals, practice, size, brush }} glyphs={UNICODE} ring={() => undefined} />
    );
    set('18:10');
    const app = render(screen());
    await vi.waitFor(() => expect(app.stdin.listenerCount('readable')).toBeGreaterThan(0));
    await vi.waitFor(() => expect(app.lastFrame()).toContain('Roots/cut'), { timeout: 10_000 });
    expect(desk.inForce().findLast(({ kind }) => kind === 'started')).toMatchObject({
      who: 'Tomas',
      step: 'Roots/cut',
    });
    app.stdin.write('r');
    await vi.waitFor(() => expect(app.lastFrame()).toMatch(/: reading "Roast loin\/roast" \d\dC/));
    app.stdin.write('\r');
    await vi.waitFor(() => expect(desk.day().readings).toHaveLength(1));
    set('19:20');
    app.rerender(screen());
    await vi.waitFor(() => expect(app.lastFrame()).toMatch(/Roast loin\/roast; done, by the look of it/));
  });

  it('shows help and leaves on q', async () => {
    const { press, app, hears } = await open('17:20');
    await press('?', 'take the last entry back');
    await press('?', FIRST);
    app.stdin.write('q');
    await vi.waitFor(() => expect(hears()).toBe(false));
  });
});
