import { describe, expect, it } from 'vitest';
import { chartOf, wholeChart } from '../../src/chart/chart.js';
import { ASCII, UNICODE } from '../../src/chart/glyphs.js';
import { LOOKS, lanesOf } from '../../src/chart/lanes.js';
import { textOf } from '../../src/chart/line.js';
import { evenScale } from '../../src/chart/scale.js';
import { viewOf } from '../../src/chart/view.js';
import type { PlanDocument } from '../../src/plan/document.js';
import { harbourDinner, orchardSupper } from '../support/sample-plan.js';

const supper = orchardSupper();
const view = viewOf(supper.problem, supper.plan);
const dinner = harbourDinner();
const dinnerView = viewOf(dinner.problem, dinner.plan);

describe('lanes', () => {
  it('stand by place, grouped by appliance, with cooks below', () => {
    expect(lanesOf(view, 'place').map((lane) => lane.label)).toEqual([
      'grill',
      'left',
      '',
      'middle',
      'right',
      'range',
      'front left',
      'board 1',
      'board 2',
      'rest',
      'chill',
      'finish',
      'Ines',
      'Tomas',
    ]);
  });

  it('show racks from the top and leave out appliances that are not used', () => {
    const labels = lanesOf(dinnerView, 'place').map((lane) => lane.label);
    expect(labels.slice(0, 3)).toEqual(['oven', 'rack 2', 'rack 1']);
    const cold = { ...dinner.problem.kitchen.appliances[2]!, name: 'spare oven' };
    const more = {
      ...dinner.problem,
      kitchen: { ...dinner.problem.kitchen, appliances: [...dinner.problem.kitchen.appliances, cold] },
    };
    expect(lanesOf(viewOf(more, dinner.plan), 'place').some((lane) => lane.label === 'spare oven')).toBe(false);
  });

  it('hold every step in every look that has room for it, without overlap in a lane', () => {
    for (const each of [view, dinnerView]) {
      for (const look of LOOKS) {
        const lanes = lanesOf(each, look);
        const seen = new Set(lanes.flatMap((lane) => lane.bars.map((bar) => bar.step)));
        const wanted = each.steps.filter((step) => look !== 'cook' || step.hands.length > 0);
        for (const step of wanted) expect(seen).toContain(step.index);
        for (const lane of lanes) {
          const bars = lane.bars.filter((bar) => bar.step !== null).sort((a, b) => a.from - b.from);
          for (const [index, bar] of bars.slice(1).entries()) expect(bar.from).toBeGreaterThanOrEqual(bars[index]!.to);
        }
      }
    }
  });

  it('dot the time for which a dish waits', () => {
    const pork = lanesOf(view, 'dish')[0]!;
    expect(pork.bars.filter((bar) => bar.texture === 'wait').map(({ from, to }) => [from, to])).toEqual([[332, 347]]);
    const roots = lanesOf(view, 'dish')[1]!;
    expect(roots.bars.filter((bar) => bar.texture === 'wait').map(({ from, to }) => [from, to])).toEqual([
      [310, 398],
      [446, 450],
    ]);
  });
});

describe('a drawn chart', () => {
  const chart = (cursor: number | null, from: number, to: number, glyphs = UNICODE) => {
    const drawn = chartOf(view, {
      look: 'place',
      width: 80,
      glyphs,
      cursor,
      scale: (columns) => evenScale(view.problem, { from, to }, columns),
    });
    return { axis: drawn.axis.map(textOf), lanes: drawn.lanes.map(drawn.draw).map(textOf) };
  };

  it('marks the step under the cursor by a pointer and its own texture, not by colour alone', () => {
    const { lanes } = chart(3, 300, 455, ASCII);
    expect(lanes.filter((line) => line.startsWith('>'))).toHaveLength(3);
    expect(lanes.find((line) => line.startsWith('> left'))).toContain('A roast****');
  });

  it('says what lies before and after what it shows', () => {
    const { axis, lanes } = chart(null, 345, 400);
    expect(axis.at(-1)).toContain('◂ 6 earlier');
    expect(axis.at(-1)).toContain('3 later ▸');
    expect(lanes.find((line) => line.startsWith(' board 1'))).toMatch(/◂.*▸$/);
  });

  it('starts every bar with the letter of its dish, one cell being enough', () => {
    const lines = wholeChart(view, 'place', 70, UNICODE).map(textOf);
    const tomas = lines.find((line) => line.startsWith(' Tomas'))!;
    expect([...tomas.slice(10)].filter((letter) => /[A-Z+]/.test(letter)).join('')).toMatch(/^B\+?A?B?B?B?$/);
  });

  it('shows a changeover as a ramp and a run by its temperature in the degrees of the dial', () => {
    const { lanes } = chart(null, 296, 455);
    expect(lanes[0]).toMatch(/▁.*280°C.*165°C roast/);
    expect(wholeChart(dinnerView, 'place', 120, UNICODE).map(textOf).join('\n')).toContain('374°F fan');
  });
});

it('refuses a plan of another problem', () => {
  const other: PlanDocument = { ...supper.plan, steps: [{ ...supper.plan.steps[0]!, dish: 'Someone else’s' }] };
  expect(() => viewOf(supper.problem, other)).toThrow(RangeError);
});
