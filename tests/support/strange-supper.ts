/** A supper of a few calls with names and times of one's own choosing, for what names and clocks do to what is shared. */
import { harbourDinner, type Sample, sampleFrom } from './sample-plan.js';

export interface Strange {
  readonly title: string;
  readonly dish: string;
  readonly step: string;
  readonly cooks: readonly [string, string];
  readonly course: string;
  readonly zone: string;
  /** ISO 8601 with offset. */
  readonly origin: string;
  /** Minutes by which all of it comes later. */
  readonly later: number;
  readonly source: string;
}

const USUAL: Strange = {
  title: 'Night bread',
  dish: 'Rye bread',
  step: 'bake',
  cooks: ['Ines', 'Tomas'],
  course: 'bread',
  zone: 'Europe/Lisbon',
  origin: '2026-10-03T11:00:00+01:00',
  later: 0,
  source: 'an invented source',
};

/** Kneaded by the first cook, put into the oven and looked at by the second, served by anyone. */
export function strangeSupper(strange: Partial<Strange> = {}): Sample {
  const { title, dish, step, cooks, course, zone, origin, later, source } = { ...USUAL, ...strange };
  const { kitchen } = harbourDinner().problem;
  const oven = kitchen.appliances.findIndex(({ kind }) => kind === 'oven');
  const at = (from: number, to: number): [number, number] => [from + later, to + later];
  return sampleFrom({
    title,
    zone,
    origin,
    serve: 240 + later,
    kitchen,
    cooks: [...cooks],
    courses: [{ name: course, at: 0 }],
    dishes: [
      {
        dish,
        course: 0,
        steps: [
          { step: 'knead', work: 'prep', at: at(60, 70), place: 'board 1', hands: [[0, ...at(60, 70)]] },
          {
            step,
            work: 'bake',
            at: at(120, 180),
            appliance: oven,
            mode: 0,
            place: 'rack 1',
            celsius: 200,
            pan: 0,
            spot: { x: 0, y: 0, turned: false },
            hands: [
              [1, ...at(120, 122)],
              [1, ...at(150, 151)],
            ],
          },
          { step: 'cool', work: 'rest', at: at(180, 240) },
        ],
      },
    ],
    runs: [{ appliance: oven, mode: 0, celsius: 200, at: at(110, 180), changeover: 15 }],
    cautions: [
      { rule: 'heat', source, dish: null, say: 'Iron from fierce heat burns long after it looks cold.' },
      { rule: 'core', source, dish, say: 'No core target is set.' },
    ],
    parts: { day: 3 },
    bound: 3,
  });
}

/** Names that mean something to a terminal, a page, a calendar or Markdown. */
export const HOSTILE: Partial<Strange> = {
  title: '</script><b>"Bread" & \u001b[31mbutter\u0007',
  dish: 'Rye]](x) *bold* `code`;\\n\r\nEND:VEVENT\r\nBEGIN:VEVENT',
  step: 'bake\u2028<img src=x onerror=alert(1)>',
  cooks: ['<i>Ines</i>, "the" \\; cook', "To'mas\u202e &amp; http://example.org www.example.org"],
  course: '<!-- bread -->',
  source: '<a href="javascript:alert(1)">a source</a>\u009b2J',
};
