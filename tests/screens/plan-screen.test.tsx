import { cleanup, render } from 'ink-testing-library';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { PlanScreen } from '../../cli/screens/plan-screen.js';
import { UNICODE } from '../../src/chart/glyphs.js';
import { viewOf } from '../../src/chart/view.js';
import { orchardSupper } from '../support/sample-plan.js';

const { problem, plan } = orchardSupper();
const view = viewOf(problem, plan);
const brush = { colors: 'none', weights: false } as const;
const KEY = { up: '\u001b[A', down: '\u001b[B', right: '\u001b[C', left: '\u001b[D', escape: '\u001b', tab: '\t' };

afterEach(cleanup);

async function open(columns = 100, rows = 30) {
  const screen = (size = { columns, rows }) => <PlanScreen view={view} glyphs={UNICODE} brush={brush} size={size} />;
  const app = render(screen());
  const hears = () => app.stdin.listenerCount('readable') > 0;
  await vi.waitFor(() => expect(hears()).toBe(true));
  const seen = () => app.lastFrame() ?? '';
  return {
    app,
    screen,
    hears,
    seen,
    /** Presses a key and waits until the screen is as expected; Ink hears keys on a later turn of the loop. */
    press: async (key: string, expected: string | RegExp, not?: RegExp) => {
      app.stdin.write(key);
      await vi.waitFor(
        () => {
          expect(seen()).toMatch(expected);
          if (not) expect(seen()).not.toMatch(not);
        },
        { timeout: 10_000, interval: 5 },
      );
    },
  };
}

describe('the plan’s screen', () => {
  it('moves its cursor by arrows, through lanes and by letters', async () => {
    const { seen, press } = await open();
    expect(seen()).toContain('── C warm · Herb oil');
    await press(KEY.right, '── C strain · Herb oil');
    await press(KEY.left, '── C warm · Herb oil');
    await press('B', '── B cut · Roast roots');
    await press('B', '── B roast · Roast roots');
    await press(KEY.up, '── A roast · Brined pork loin');
    await press(KEY.down, '── B roast · Roast roots');
  });

  it('switches between lanes by place, dish and cook', async () => {
    const { seen, press } = await open();
    expect(seen()).toMatch(/^. front left/m);
    await press('d', /^.C Herb oil/m);
    await press('c', /^.Ines/m, /^.board 1/m);
    await press(KEY.tab, /^.board 1/m);
  });

  it('comes closer, scrolls and goes back', async () => {
    const { seen, press } = await open();
    const first = seen();
    await press('+', /later ▸/);
    await press('+', /15:50/);
    await press(']', /◂ \d earlier/);
    await press('w', '╱╱');
    await press('f', /^/, /╱╱/);
    expect(seen()).toBe(first);
  });

  it('shows calls and help over the chart', async () => {
    const { press } = await open(90, 32);
    await press('l', 'Grill: heat to 280 °C, lid open, by 16:20.');
    await press('?', 'the next step of that letter');
    await press(KEY.escape, '── C warm · Herb oil');
  });

  it('takes several keys that come at once', async () => {
    const { press } = await open();
    await press('BBd', /^▸B Roast roots/m);
    await press('w', '── B roast · Roast roots');
  });

  it('lays itself out anew when the window changes, without losing its place', async () => {
    const { app, screen, seen, press } = await open();
    await press('B', '── B cut · Roast roots');
    app.rerender(screen({ columns: 70, rows: 20 }));
    await vi.waitFor(() => expect(seen().split('\n').length).toBeLessThanOrEqual(20));
    expect(seen()).toContain('── B cut · Roast roots');
  });

  it('leaves on q', async () => {
    const { app, hears } = await open();
    app.stdin.write('q');
    await vi.waitFor(() => expect(hears()).toBe(false));
  });
});
