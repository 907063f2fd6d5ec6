/** Pages and pictures as text: what is in them, and that names are text there. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { viewOf } from '../../src/chart/view.js';
import { sharedOf } from '../../src/share/content.js';
import { rendered } from '../../src/share/formats.js';
import { tag } from '../../src/share/markup.js';
import { pageOfCards, pageOfLists } from '../../src/share/page/pages.js';
import { contrast, DAY, drawnOn, NIGHT, writtenOn } from '../../src/share/palette.js';
import { pictureFile } from '../../src/share/picture/picture.js';
import { harbourDinner, lateSupper, orchardSupper, type Sample } from '../support/sample-plan.js';
import { HOSTILE, strangeSupper } from '../support/strange-supper.js';

const SAMPLES: [string, Sample][] = [
  ['a supper', orchardSupper()],
  ['a dinner of three courses and two days', harbourDinner()],
  ['a late supper', lateSupper()],
  ['strange names', strangeSupper(HOSTILE)],
];
const shared = ({ problem, plan }: Sample) => sharedOf(viewOf(problem, plan));
const ids = (page: string) => [...page.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]!);
const unescaped = (text: string) =>
  text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('\u00a0', ' ')
    .replaceAll('&amp;', '&');

describe('colours', () => {
  it('are the contrast of black and white, and of itself (WCAG 2.2: 21 and 1), and #767676 on white is 4.54', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    expect(contrast('#4a6b8c', '#4a6b8c')).toBe(1);
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
  });

  it.each([
    ['day', DAY],
    ['night', NIGHT],
  ])('by %s: text at 4.5 or more, lines that mean something at 3 or more', (_, palette) => {
    for (const [one, other] of writtenOn(palette)) expect(contrast(one, other)).toBeGreaterThanOrEqual(4.5);
    for (const [one, other] of drawnOn(palette)) expect(contrast(one, other)).toBeGreaterThanOrEqual(3);
  });
});

describe.each(SAMPLES)('the page of %s', (_, sample) => {
  const page = pageOfLists(shared(sample));

  it('allows its own style and script and nothing else', () => {
    const policy = unescaped(/http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)![1]!);
    const hashes = [/<style>([\s\S]*?)<\/style>/, /<script>([\s\S]*?)<\/script>/].map((part) => {
      const text = part.exec(page)![1]!;
      return createHash('sha256').update(text).digest('base64');
    });
    expect(policy).toBe(
      `default-src 'none'; style-src 'sha256-${hashes[0]}'; script-src 'sha256-${hashes[1]}'; base-uri 'none'; form-action 'none'`,
    );
    expect(page.match(/<script/g)).toHaveLength(1);
    expect(page.match(/<style/g)).toHaveLength(1);
    expect(page).not.toMatch(/ style="| on[a-z]+="| src="/);
    expect(page.replace(/>[^<]*</g, '><')).not.toMatch(/https?:/);
    expect([...page.matchAll(/href="([^"]*)"/g)].every(([, to]) => to!.startsWith('#'))).toBe(true);
  });

  it('has ids that are one each, and what refers to them', () => {
    const known = ids(page);
    expect(new Set(known).size).toBe(known.length);
    const wanted = [...page.matchAll(/ (?:aria-labelledby|aria-describedby|href)="#?([^"]*)"/g)].map(([, id]) => id!);
    expect(wanted.filter((id) => !known.includes(id))).toEqual([]);
    expect([...page.matchAll(/url\(#([^)]*)\)/g)].every(([, id]) => known.includes(id!))).toBe(true);
  });

  it('has headings that skip no level', () => {
    const levels = [...page.matchAll(/<h(\d)/g)].map(([, level]) => Number(level));
    expect(levels[0]).toBe(1);
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    for (const [index, level] of levels.slice(1).entries()) expect(level).toBeLessThanOrEqual(levels[index]! + 1);
  });

  it('has a box for every call, a row for every step, every heat and every caution', () => {
    expect(page.match(/type="checkbox"/g)).toHaveLength(sample.plan.calls.length);
    const table = /<table id="chart-table">([\s\S]*?)<\/table>/.exec(page)![1]!;
    expect(table.match(/<tr>/g)).toHaveLength(sample.plan.steps.length + 1);
    expect(page.match(/<span class="degrees">/g) ?? []).toHaveLength(sample.plan.runs.length);
    expect(page.match(/<span class="source">/g) ?? []).toHaveLength(sample.plan.cautions.length);
  });

  it('holds no control characters, as do card and picture', () => {
    for (const text of [page, pageOfCards(shared(sample)), pictureFile(viewOf(sample.problem, sample.plan))]) {
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
      expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028\u2029\u202e]/);
    }
  });
});

describe('a bar of a picture', () => {
  it('has its whole label, or a beginning that says something, or the letter alone', () => {
    const labels = SAMPLES.flatMap(([, { problem, plan }]) =>
      [...pictureFile(viewOf(problem, plan)).matchAll(/<g class="bar[^>]*>.*?<\/g>/g)].map(([bar]) => ({
        step: unescaped(/<title>.*: (.*)<\/title>/.exec(bar)?.[1] ?? ''),
        label: unescaped(/<text[^>]*>(.*)<\/text>/.exec(bar)?.[1] ?? ''),
      })),
    );
    const cut = labels.filter(({ label }) => label.endsWith('…'));
    expect(cut.length).toBeGreaterThan(0);
    for (const { label } of cut) expect(label).toMatch(/^\S+ .{3,}…$/u);
    for (const { label, step } of labels)
      if (label.includes(' ') && !label.endsWith('…')) expect(label.slice(label.indexOf(' ') + 1)).toBe(step);
  });
});

describe('the page of one cook', () => {
  const { problem, plan } = harbourDinner();
  const view = viewOf(problem, plan);

  it.each(problem.cooks.map(({ name }) => name))('has what is theirs alone, as the picture has: %s', (cook) => {
    const theirs = sharedOf(view, { cooks: [cook], anyone: false });
    const page = pageOfLists(theirs);
    expect(page.match(/type="checkbox"/g)).toHaveLength(plan.calls.filter((call) => call.cook === cook).length);
    const steps = plan.steps.filter(({ hands }) => hands.some((hand) => hand.cook === cook));
    const table = /<table id="chart-table">([\s\S]*?)<\/table>/.exec(page)![1]!;
    expect(table.match(/<tr>/g)).toHaveLength(steps.length + 1);
    const bars = (text: string) => text.match(/<g class="bar/g)!.length;
    const file = rendered(theirs, 'svg', { written: 0, ahead: 5, previous: null });
    expect(bars(page)).toBe(bars(file));
    expect(bars(page)).toBeLessThan(bars(pictureFile(view)));
    expect(page).not.toContain('id="heat"');
  });

  it('has all heats where it is for anyone as well, since anyone sets them', () => {
    const page = pageOfLists(sharedOf(view, { cooks: [], anyone: true }));
    expect(page.match(/<span class="degrees">/g)).toHaveLength(plan.runs.length);
    expect(page.match(/<polygon class="hill"/g)).toHaveLength(plan.runs.length);
  });
});

describe('names with markup', () => {
  const page = pageOfLists(shared(strangeSupper(HOSTILE)));

  it('are text', () => {
    const text = unescaped(
      page.replace(/<(?:style|script)>[\s\S]*?<\/(?:style|script)>/g, '').replace(/<[^>]*>/g, '\n'),
    );
    for (const words of [
      '</script><b>"Bread" &',
      '<img src=x onerror=alert(1)>',
      '<i>Ines</i>',
      '<!-- bread -->',
      'javascript:alert(1)',
    ])
      expect(text).toContain(words);
    expect(page).not.toMatch(/<(?:img|i|b|a href="[^#])[ >]/);
    expect(page).not.toContain('<!--');
  });

  it('cannot leave an attribute', () => {
    expect(tag('p', { title: '" onclick="x' }, '<').markup).toBe('<p title="&quot; onclick=&quot;x">&lt;</p>');
    expect(tag('input', { checked: true, disabled: false, value: null }).markup).toBe('<input checked>');
  });
});

describe('the cards alone', () => {
  it('run no script and have one section for each appliance in use', () => {
    const page = pageOfCards(shared(harbourDinner()));
    expect(page).toContain('script-src &#39;none&#39;');
    expect(page).not.toContain('<script');
    expect(page.match(/<section aria-labelledby="card-/g)).toHaveLength(3);
  });
});
