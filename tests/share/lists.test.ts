/** Lists and cards as text and as Markdown, and what they are made of. */
import { describe, expect, it } from 'vitest';
import { viewOf } from '../../src/chart/view.js';
import { sharedOf, type Who } from '../../src/share/content.js';
import { documentOf, shareDocument } from '../../src/share/document.js';
import { inMarkdown, inMarkup } from '../../src/share/escape.js';
import { markdownOfCards, markdownOfLists } from '../../src/share/markdown.js';
import { textOfCards, textOfLists } from '../../src/share/text.js';
import { harbourDinner, orchardSupper, type Sample } from '../support/sample-plan.js';
import { HOSTILE, strangeSupper } from '../support/strange-supper.js';

const shared = ({ problem, plan }: Sample, who: Who | null = null) => sharedOf(viewOf(problem, plan), who);
const only = (...cooks: string[]): Who => ({ cooks, anyone: false });
const SAMPLES = [orchardSupper(), harbourDinner(), strangeSupper(), strangeSupper(HOSTILE)];

describe('lists', () => {
  it('have every call once, each cook’s in order, and what is nobody’s under anyone', () => {
    for (const sample of SAMPLES) {
      const { lists } = shared(sample);
      const told = lists.flatMap(({ entries }) => entries.map(({ told: { call } }) => call));
      expect(told).toHaveLength(sample.plan.calls.length);
      expect(new Set(told.map((call) => JSON.stringify(call)))).toEqual(
        new Set(sample.plan.calls.map((call) => JSON.stringify(call))),
      );
      for (const { cook, entries } of lists) {
        const minutes = entries.map(({ told: { minute } }) => minute);
        expect(minutes).toEqual([...minutes].sort((a, b) => a - b));
        expect(entries.every(({ told: { call } }) => call.cook === cook)).toBe(true);
      }
    }
  });

  it('are only those that were asked for, with the cautions of what is in them', () => {
    const sample = strangeSupper();
    expect(shared(sample, only('Tomas')).lists.map(({ name }) => name)).toEqual(['Tomas']);
    expect(shared(sample, { cooks: ['Ines'], anyone: true }).lists.map(({ name }) => name)).toEqual(['Ines', 'Anyone']);
    expect(shared(sample, only('Tomas')).cautions).toHaveLength(2);
    expect(shared(sample, { cooks: [], anyone: true }).cautions.map(({ dish }) => dish)).toEqual([null, 'Rye bread']);
    expect(() => shared(sample, only('Nobody'))).toThrow(RangeError);
  });

  it('of a single cook are all there is to do', () => {
    const sample = strangeSupper();
    const alone = { ...sample.problem, cooks: sample.problem.cooks.slice(0, 1) };
    const steps = sample.plan.steps.map((row) => ({ ...row, hands: row.hands.map((h) => ({ ...h, cook: 'Ines' })) }));
    const { lists } = shared({ problem: alone, plan: { ...sample.plan, steps } });
    expect(lists.map(({ name, entries }) => [name, entries.length])).toEqual([['Ines', sample.plan.calls.length]]);
  });
});

describe('a list as text', () => {
  it('has only what is theirs, in order, with place, heat and pan', () => {
    expect(textOfLists(shared(strangeSupper(), only('Tomas')))).toBe(
      `Night bread: Tomas
Saturday 3 October 2026: served at 15:00 (Europe/Lisbon)

13:00  Rye bread: bake in the oven, rack 1, deep dish, 392 °F, roast, 1 h until 14:00.
13:30  Rye bread: see to it in the oven, rack 1 (bake). 392 °F, roast; deep dish.

CAUTIONS

- Iron from fierce heat burns long after it looks cold. (an invented source)
- Rye bread: No core target is set. (an invented source)

Planned with Hearthtable.
`,
    );
  });

  it('tells the day where calls lie on another', () => {
    const text = textOfLists(shared(harbourDinner()));
    expect(text).toContain('\nSaturday 5 December 2026\n');
  });

  it('says so where there is nothing to do', () => {
    const sample = strangeSupper();
    const steps = sample.plan.steps.map((row) => ({ ...row, hands: row.hands.map((h) => ({ ...h, cook: 'Ines' })) }));
    const text = textOfLists(shared({ ...sample, plan: { ...sample.plan, steps } }, only('Tomas')));
    expect(text).toContain('\nNothing to do.\n');
  });
});

describe('a card', () => {
  it('has each heat with when to set it and what is in it, and what stands on burners', () => {
    const text = textOfCards(shared(orchardSupper()));
    expect(text).toContain('GRILL\n\n16:20 to 16:32  280 °C, lid open (set it at 16:01)\n');
    expect(text).toContain('16:47 to 18:23  165 °C, lid closed (set it at 16:32, fire under right only)\n');
    expect(text).toMatch(/\n {2}- 16:47 to 18:02 {2}Brined pork loin, roast \(left, roasting pan\); pull at 58 °C/);
    const burners = textOfCards(shared(harbourDinner()));
    expect(burners).toMatch(/RANGE\n\n.*Leek soup 🥣, simmer \(back, stock pot, medium flame\)/s);
  });

  it('has everything that stands in an appliance', () => {
    for (const sample of SAMPLES) {
      const inside = shared(sample).cards.flatMap(({ runs, burners }) => [
        ...runs.flatMap((run) => run.inside.map(({ step }) => step.index)),
        ...burners.map(({ step }) => step.index),
      ]);
      const heated = sample.plan.steps.flatMap((row, index) => (row.appliance === null ? [] : [index]));
      expect(inside.sort((a, b) => a - b)).toEqual(heated);
    }
  });
});

describe('Markdown', () => {
  it('has a box for every call', () => {
    const text = markdownOfLists(shared(orchardSupper()));
    expect(text.match(/^- \[ \] \*\*\d\d:\d\d\*\* /gm)).toHaveLength(orchardSupper().plan.calls.length);
    expect(text).toContain('\n## Tomas\n');
  });

  it('has no markup but its own, whatever the names are', () => {
    for (const text of [markdownOfLists, markdownOfCards].map((make) => make(shared(strangeSupper(HOSTILE))))) {
      const own = text
        .replace(/\\[\\`*_[\]<>|~#&@:.]/g, '')
        .replace(/^- \[ \] \*\*[^*]+\*\* /gm, '')
        .replace(/\*\*[^*]+\*\*/g, '')
        .replace(/^#+ /gm, '')
        .replace('_Planned with Hearthtable._', '');
      expect(own).not.toMatch(/[`*_[\]<>|~#&@]|:\/\/|www\./);
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
      expect(own).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028\u202e]/);
    }
  });

  it('escapes what begins a list, and only there', () => {
    expect(['- one', '1. one', '12) one', '+', 'a - b', '3.5 cm'].map(inMarkdown)).toEqual([
      '\\- one',
      '\\1. one',
      '\\12) one',
      '\\+',
      'a - b',
      '3.5 cm',
    ]);
  });
});

describe('markup', () => {
  it('is text', () => {
    expect(inMarkup(`<a href="x" title='y'>&amp;</a>`)).toBe(
      '&lt;a href=&quot;x&quot; title=&#39;y&#39;&gt;&amp;amp;&lt;/a&gt;',
    );
  });
});

describe('text for a terminal', () => {
  it('holds no control characters, whatever the names are', () => {
    for (const text of [textOfLists, textOfCards].map((make) => make(shared(strangeSupper(HOSTILE))))) {
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
      expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028\u202e]/);
    }
  });
});

describe('the share document', () => {
  it('keeps to its schema', () => {
    for (const sample of SAMPLES) {
      const document = documentOf(shared(sample));
      expect(shareDocument.safeParse(document).error).toBeUndefined();
      expect(document.lists.flatMap(({ calls }) => calls)).toHaveLength(sample.plan.calls.length);
    }
  });
});
