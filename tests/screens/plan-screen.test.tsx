import { cleanup, render } from 'ink-testing-library';
import { afterEach, describe, expect, it } from 'vitest';
import { PlanScreen } from '../../cli/screens/plan-screen.js';
import { UNICODE } from '../../src/chart/glyphs.js';
import { viewOf } from '../../src/chart/view.js';
import { orchardSupper } from '../support/sample-plan.js';

const { problem, plan } = orchardSupper();
const view = viewOf(problem, plan);
const brush = { colors: 'none', weights: false } as const;
const KEY = { up: '\u001b[A', down: '\u001b[B', right: '\u001b[C', left: '\u001b[D', escape: '\u001b', tab: '\t' };

afterEach(cleanup);

/** Ink hears keys on the next turn of the loop, and a lone escape one turn later. */
const turn = () => new Promise((resolve) => setTimeout(resolve, 20));

async function open(columns = 100, rows = 30) {
  const screen = (size = { columns, rows }) => <PlanScreen view={view} glyphs={UNICODE} brush={brush} size={size} />;
  const app = render(screen());
  await turn();
  return {
    app,
    screen,
    shown: () => app.lastFrame() ?? '',
    press: async (...keys: string[]) => {
      for (const key of keys) {
        app.stdin.write(key);
        await turn();
      }
    },
  };
}

describe('the plan’s screen', () => {
  it('moves its cursor by arrows, through lanes and by letters', async () => {
    const { shown, press } = await open();
    expect(shown()).toContain('── C warm · Herb oil');
    await press(KEY.right);
    expect(shown()).toContain('── C strain · Herb oil');
    await press(KEY.left, 'B', 'B');
    expect(shown()).toContain('── B roast · Roast roots');
    await press(KEY.up);
    expect(shown()).toContain('── A roast · Brined pork loin');
    await press(KEY.down);
    expect(shown()).toContain('── B roast · Roast roots');
  });

  it('switches between lanes by place, dish and cook', async () => {
    const { shown, press } = await open();
    expect(shown()).toMatch(/^. front left/m);
    await press('d');
    expect(shown()).toMatch(/^.C Herb oil/m);
    await press('c');
    expect(shown()).toMatch(/^.Ines/m);
    expect(shown()).not.toMatch(/^.board 1/m);
    await press(KEY.tab);
    expect(shown()).toMatch(/^.board 1/m);
  });

  it('comes closer, scrolls and goes back', async () => {
    const { shown, press } = await open();
    const first = shown();
    await press('+', '+', '+');
    expect(shown()).toMatch(/later ▸/);
    await press(']', ']');
    expect(shown()).toMatch(/◂ \d+ earlier/);
    await press('w');
    expect(shown()).toContain('╱╱');
    await press('f');
    expect(shown()).toBe(first);
  });

  it('shows calls and help over the chart', async () => {
    const { shown, press } = await open(90, 32);
    await press('l');
    expect(shown()).toContain('Grill: heat to 280 °C, lid open, by 16:20.');
    await press('?');
    expect(shown()).toContain('the next step of that letter');
    await press(KEY.escape);
    expect(shown()).toContain('── C warm · Herb oil');
  });

  it('takes several keys that come at once', async () => {
    const { shown, press } = await open();
    await press('BBd');
    expect(shown()).toContain('── B roast · Roast roots');
    expect(shown()).toMatch(/^▸B Roast roots/m);
  });

  it('lays itself out anew when the window changes, without losing its place', async () => {
    const { app, screen, shown, press } = await open();
    await press('B');
    app.rerender(screen({ columns: 70, rows: 20 }));
    await turn();
    expect(shown()).toContain('── B cut · Roast roots');
    expect(shown().split('\n').length).toBeLessThanOrEqual(20);
  });

  it('leaves on q', async () => {
    const { app, press } = await open();
    await press('q');
    const frames = app.frames.length;
    await press(KEY.right);
    expect(app.frames.length).toBe(frames);
  });
});
