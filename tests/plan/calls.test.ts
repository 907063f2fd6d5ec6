import { describe, expect, it } from 'vitest';
import { planDocument } from '../../src/plan/document.js';
import { harbourDinner, orchardSupper } from '../support/sample-plan.js';

const supper = orchardSupper();
const dinner = harbourDinner();
const told = ({ plan }: typeof supper) =>
  plan.calls.map((call) => `${call.at.slice(11, 16)} ${call.cook ?? 'anyone'}: ${call.say}`);

describe('calls', () => {
  it('fit the plan document', () => {
    for (const { plan } of [supper, dinner]) expect(planDocument.safeParse(plan).error).toBeUndefined();
  });

  it('go by the clock, and every stretch of hands has one for its cook', () => {
    for (const { plan } of [supper, dinner]) {
      const times = plan.calls.map((call) => Date.parse(call.at));
      expect(times).toEqual([...times].sort((a, b) => a - b));
      for (const row of plan.steps) {
        for (const hand of row.hands) {
          const own = plan.calls.filter((call) => call.dish === row.dish && call.step === row.step);
          expect(own.some((call) => call.cook === hand.cook && call.at === hand.start)).toBe(true);
        }
      }
    }
  });

  it('bring each appliance to its heat in time and turn it off after its last run', () => {
    expect(told(supper)).toEqual(
      expect.arrayContaining([
        '16:01 anyone: Grill: heat to 280 °C, lid open, by 16:20.',
        '16:32 anyone: Grill: change to 165 °C, lid closed, fire under right only, by 16:47.',
        '18:23 anyone: Grill: turn it off.',
      ]),
    );
  });

  it('say where, in what, how hot and how long', () => {
    expect(told(supper)).toContain(
      '16:47 Ines: Brined pork loin: roast on the grill, left, roasting pan, 165 °C, lid closed, 1 h 15 min until 18:02.',
    );
    expect(told(dinner)).toContain(
      "13:00 Noor: Crème brûlée à l'orange: bake in the oven, rack 1 and rack 2, half sheet × 2, 302 °F, roast, 45 min until 13:45.",
    );
    expect(told(dinner)).toContain(
      '16:20 Noor: Leek soup 🥣: simmer on the range, back, stock pot, medium flame, 1 h 30 min until 17:50.',
    );
  });

  it('take food off the heat, in the next step’s call where one follows at once', () => {
    expect(told(supper)).toContain('16:32 Ines: Brined pork loin: take it off the heat (grill).');
    expect(told(supper)).toContain(
      '18:02 Ines: Brined pork loin: off the heat (grill) at 58 °C, rest, 22 min until 18:24.',
    );
    expect(told(supper).filter((call) => call.startsWith('18:02'))).toHaveLength(1);
    expect(told(supper).findIndex((call) => call.includes('take it off'))).toBeLessThan(
      told(supper).findIndex((call) => call.includes('change to')),
    );
  });

  it('tell the core temperature at which a step ends', () => {
    expect(told(supper)).toContain(
      '17:59 Ines: Brined pork loin: roast ends about 18:02 (17:53 to 18:14): pull at 58 °C (rises to 61 °C); see to it on the grill, left.',
    );
  });

  it('name the other cook where two are wanted', () => {
    expect(told(dinner).filter((call) => call.includes('ladle'))).toEqual([
      '17:55 Noor: Leek soup 🥣: ladle, 5 min until 18:00, with Bartholomew Featherstonehaugh.',
      '17:55 Bartholomew Featherstonehaugh: Leek soup 🥣: ladle, 5 min until 18:00, with Noor.',
    ]);
  });

  it('hold, and serve each course once', () => {
    expect(told(dinner)).toContain(
      '17:40 anyone: Potato rolls: hold in the drawer, rack 1, half sheet, 158 °F, warm, until 17:58.',
    );
    expect(told(dinner).filter((call) => call.includes('Serve'))).toEqual([
      '18:00 anyone: Serve first: Leek soup 🥣, Potato rolls.',
      '18:40 anyone: Serve main: 海鮮 fish pie with a very long name indeed, Greens.',
      "19:25 anyone: Serve sweet: Crème brûlée à l'orange.",
    ]);
  });
});
