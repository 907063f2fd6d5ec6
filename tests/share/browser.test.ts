/// <reference lib="dom" />
/** Pages as a browser has them: by day and night, on a phone, a desk and paper. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { viewOf } from '../../src/chart/view.js';
import { sharedOf } from '../../src/share/content.js';
import { pageOfCards, pageOfLists } from '../../src/share/page/pages.js';
import { contrast } from '../../src/share/palette.js';
import { pictureFile } from '../../src/share/picture/picture.js';
import { hasChromium, launched, unlessChromium } from '../support/chromium.js';
import { harbourDinner, orchardSupper, type Sample } from '../support/sample-plan.js';
import { texts } from '../support/shown-texts.js';
import { HOSTILE, strangeSupper } from '../support/strange-supper.js';

const long = {
  ...HOSTILE,
  title: `${HOSTILE.title} ${'Brot'.repeat(25)}`,
  dish: `${HOSTILE.dish} ${'Kruste'.repeat(12)}`,
};
const SAMPLES = { supper: orchardSupper(), dinner: harbourDinner(), strange: strangeSupper(long) };
type Name = keyof typeof SAMPLES;
const NAMES = Object.keys(SAMPLES) as Name[];

const SIZES = { phone: { width: 360, height: 740 }, desk: { width: 1280, height: 900 } } as const;

describe.skipIf(!hasChromium)(`a page in a browser${unlessChromium}`, () => {
  const home = mkdtempSync(join(tmpdir(), 'page-'));
  const at = (name: string) => pathToFileURL(join(home, name)).href;
  let browser: Browser;

  beforeAll(async () => {
    for (const [name, { problem, plan }] of Object.entries(SAMPLES) as [Name, Sample][]) {
      const view = viewOf(problem, plan);
      writeFileSync(join(home, `${name}.html`), pageOfLists(sharedOf(view)));
      writeFileSync(join(home, `${name}-card.html`), pageOfCards(sharedOf(view)));
      writeFileSync(join(home, `${name}.svg`), pictureFile(view));
    }
    browser = await launched();
  });

  afterAll(async () => {
    await browser?.close();
    rmSync(home, { recursive: true, force: true });
  });

  /** Opens a page, does something, and fails for anything that it asked for, refused or cried out. */
  async function within<T>(
    name: string,
    size: keyof typeof SIZES,
    scheme: 'light' | 'dark',
    what: (page: Page) => Promise<T>,
  ) {
    const page = await browser.newPage({ viewport: SIZES[size], colorScheme: scheme });
    const cries: string[] = [];
    page.on('console', (message) => cries.push(message.text()));
    page.on('pageerror', (error) => cries.push(error.message));
    page.on('dialog', (dialog) => cries.push(dialog.message()));
    page.on('request', (request) => cries.push(...(request.url() === at(name) ? [] : [request.url()])));
    await page.goto(at(name));
    const result = await what(page);
    await page.close();
    expect(cries).toEqual([]);
    return result;
  }

  it.each(['supper', 'strange'] as const)('reads on a phone and a desk, by day and by night: %s', async (name) => {
    await within(`${name}.html`, 'phone', 'light', async (page) => {
      await page.evaluate('for (const one of document.querySelectorAll("details")) one.open = true');
      expect(await page.evaluate('document.querySelectorAll("img, b, i, script:not(:last-child)").length')).toBe(0);
      for (const size of Object.values(SIZES)) {
        await page.setViewportSize(size);
        for (const colorScheme of ['light', 'dark'] as const) {
          await page.emulateMedia({ colorScheme });
          const shown = await page.evaluate(texts);
          expect(shown.length).toBeGreaterThan(40);
          expect(shown.filter(({ colour, back }) => contrast(colour, back) < 4.5)).toEqual([]);
        }
        // Only what is meant to may be wider than the page.
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(size.width);
      }
    });
  });

  it('keeps ticks and counts them', async () => {
    await within('supper.html', 'phone', 'light', async (page) => {
      const boxes = page.locator('#list-1 input');
      const count = () => page.textContent('#list-1 .count');
      expect(await count()).toMatch(/^0 of \d+ done$/);
      await page.click('#list-1 li:first-child label');
      await boxes.nth(1).check();
      expect(await count()).toMatch(/^2 of/);
      await page.reload();
      expect(await count()).toMatch(/^2 of/);
      await boxes.nth(0).uncheck();
      await page.reload();
      expect(await boxes.nth(0).isChecked()).toBe(false);
      expect(await boxes.nth(1).isChecked()).toBe(true);
    });
  });

  it.each([
    ['dinner.html', 'A4', 2],
    ['dinner-card.html', 'Letter', 1],
  ] as const)('prints %s on %s, on so many sheets at most: %i', async (file, format, most) => {
    const pdf = await within(file, 'desk', 'dark', (page) => page.pdf({ format }));
    const sheets = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? [];
    expect(sheets.length).toBeGreaterThanOrEqual(1);
    expect(sheets.length).toBeLessThanOrEqual(most);
  });

  it('draws pictures that are whole, with labels that stay in their bars', async () => {
    for (const name of NAMES) {
      await within(`${name}.svg`, 'desk', 'light', async (page) => {
        expect(await page.evaluate('document.querySelector("parsererror")?.textContent ?? null')).toBeNull();
        expect(await page.evaluate('document.documentElement.nodeName')).toBe('svg');
        const over = await page.evaluate(() =>
          Array.from(document.querySelectorAll('.bar:not(.key)')).flatMap((bar) => {
            const text = bar.querySelector('text');
            if (!text?.textContent) return [];
            const [box, label] = [bar.querySelector('.body')!, text].map((one) =>
              (one as SVGGraphicsElement).getBBox(),
            );
            const inside = label!.x >= box!.x - 1 && label!.x + label!.width <= box!.x + box!.width + 1;
            return inside ? [] : [text.textContent];
          }),
        );
        expect(over).toEqual([]);
      });
    }
  });
});
