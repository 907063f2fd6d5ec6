import { describe, expect, it } from 'vitest';
import { printed } from '../../cli/terminal/paint.js';
import { ASCII, type Glyphs, UNICODE } from '../../src/chart/glyphs.js';
import { type Line, textOf } from '../../src/chart/line.js';
import { landingWords, reportLines, statusWords } from '../../src/chart/report.js';
import { viewOf } from '../../src/chart/view.js';
import { text, widest } from '../support/frames.js';
import { harbourDinner, lateSupper, orchardSupper, type Sample } from '../support/sample-plan.js';

const report = ({ problem, plan }: Sample, width: number, glyphs: Glyphs): Line[] =>
  reportLines(viewOf(problem, plan), width, glyphs);
const golden = (name: string) => `golden/${name}.txt`;

describe('the report, as read', () => {
  for (const width of [40, 80, 120, 200]) {
    it(`of the supper at ${width} columns`, async () => {
      await expect(text(report(orchardSupper(), width, UNICODE))).toMatchFileSnapshot(golden(`supper-${width}`));
    });
  }

  it('of the supper in 7-bit characters', async () => {
    await expect(text(report(orchardSupper(), 80, ASCII))).toMatchFileSnapshot(golden('supper-80-ascii'));
    await expect(text(report(orchardSupper(), 40, ASCII))).toMatchFileSnapshot(golden('supper-40-ascii'));
  });

  it('of the supper in colour', async () => {
    const shown = printed(report(orchardSupper(), 100, UNICODE), 'full').replaceAll('\u001b', '\\e');
    await expect(shown).toMatchFileSnapshot(golden('supper-100-colour'));
  });

  it('of three courses over two days', async () => {
    await expect(text(report(harbourDinner(), 80, UNICODE))).toMatchFileSnapshot(golden('dinner-80'));
    await expect(text(report(harbourDinner(), 120, ASCII))).toMatchFileSnapshot(golden('dinner-120-ascii'));
  });
});

describe('the report', () => {
  const samples: [string, Sample][] = [
    ['supper', orchardSupper()],
    ['dinner', harbourDinner()],
    ['late supper', lateSupper()],
  ];

  it('is never wider than it may be', () => {
    for (const [, sample] of samples) {
      for (const glyphs of [UNICODE, ASCII]) {
        for (let width = 40; width <= 220; width += 7) {
          expect(widest(report(sample, width, glyphs))).toBeLessThanOrEqual(width);
        }
      }
    }
  });

  it('is 7-bit but for names, when asked', () => {
    for (const width of [40, 80, 160]) {
      expect(text(report(orchardSupper(), width, ASCII))).toMatch(/^[\n\x20-\x7e]*$/);
      const names = text(report(harbourDinner(), width, ASCII)).replace(/[🥣èûéà海鮮]/gu, '');
      expect(names).toMatch(/^[\n\x20-\x7e]*$/);
    }
  });

  it('says the same with colours as without', () => {
    for (const [, sample] of samples) {
      const lines = report(sample, 90, UNICODE);
      // biome-ignore lint/suspicious/noControlCharactersInRegex: the codes begin with one
      expect(printed(lines, 'full').replace(/\u001b\[[0-9;]*m/g, '')).toBe(printed(lines, 'none'));
    }
  });

  it('names cautions with their source, always', () => {
    for (const width of [40, 80]) {
      const told = text(report(orchardSupper(), width, UNICODE)).replace(/\s+/g, ' ');
      expect(told).toContain('Whole cuts of pork: a core of 63 °C');
      expect(told).toContain('(an invented source for the sample)');
    }
  });
});

describe('words of a status', () => {
  it('say how good the plan is and how much better one could be', () => {
    const view = viewOf(orchardSupper().problem, orchardSupper().plan);
    expect(statusWords(view).say).toBe('good: 17.5 points, no plan has fewer than 12.6 (gap 4.9)');
    const best = viewOf(harbourDinner().problem, harbourDinner().plan);
    expect(statusWords(best).say).toBe('proven best: 81.46 points');
  });

  it('say by how much a course is late', () => {
    const { problem, plan } = lateSupper();
    const view = viewOf(problem, plan);
    expect(statusWords(view).say).toMatch(/^15 min late, the least that was found: /);
    expect(landingWords(view)).toBe('main 18:30 (15 min late)');
  });
});

it('draws the pan that straddles two zones on both', () => {
  const lines = report(orchardSupper(), 120, UNICODE).map(textOf);
  expect(lines.filter((line) => line.includes('B roast█'))).toHaveLength(2);
});
