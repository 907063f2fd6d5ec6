/// <reference lib="dom" />
/** The wall as phones have it: two at once, taps, what others note, and a wall that is gone. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Entry } from '../../src/live/journal/entries.js';
import { withEntry } from '../../src/live/journal/rebuild.js';
import { contrast } from '../../src/share/palette.js';
import { hasChromium, launched, unlessChromium } from '../support/chromium.js';
import { texts } from '../support/shown-texts.js';
import { type AWall, aWall } from './a-wall.js';

describe.skipIf(!hasChromium)(`the wall in a browser${unlessChromium}`, () => {
  let browser: Browser;
  let kitchen: AWall;
  const contexts: BrowserContext[] = [];
  const cries: string[] = [];

  async function phone(who: string, width = 360): Promise<Page> {
    const context = await browser.newContext({ viewport: { width, height: 740 }, colorScheme: 'light' });
    contexts.push(context);
    const page = await context.newPage();
    page.on('console', (message) => cries.push(message.text()));
    page.on('pageerror', (error) => cries.push(error.message));
    await page.clock.install();
    await page.goto(kitchen.url(who));
    return page;
  }

  beforeAll(async () => {
    kitchen = await aWall('17:00');
    browser = await launched();
  });
  afterAll(async () => {
    await browser?.close();
    await kitchen?.close();
  });

  it('is ticked off on one phone and seen on the other, and tells when it is stale', async () => {
    const [ines, tomas] = [await phone('Ines'), await phone('Tomas', 390)];
    const row = (page: Page, part: string, words: string) => page.locator(`[data-part=${part}] li`, { hasText: words });
    // Only what is theirs, or anyone's, has a button.
    expect(await tomas.locator('button', { hasText: 'Begun' }).count()).toBeGreaterThan(0);
    await tomas.locator('[data-part=all] summary').click();
    expect(await row(tomas, 'all', 'tie').locator('button').count()).toBe(0);
    await row(ines, 'now', 'tie').getByRole('button').click();
    await row(ines, 'now', 'under way').waitFor({ timeout: 1000 });
    await tomas.locator('[data-part=now]', { hasText: 'Others: Roast loin, tie (Ines).' }).waitFor({ timeout: 1000 });
    // A list that was opened stays open as it is renewed.
    expect(await tomas.locator('[data-part=all] details').getAttribute('open')).not.toBeNull();
    expect(kitchen.entries().at(-1)).toMatchObject({ kind: 'started', step: 'Roast loin/tie', who: 'Ines' });

    // By another program.
    const stamp = { at: kitchen.teller.iso('17:00'), when: kitchen.teller.iso('17:00'), who: null };
    const heeded = { kind: 'heeded', call: 'heat oven/roast' } as const;
    kitchen.append(withEntry(kitchen.teller.meal, kitchen.entries(), stamp, heeded) as Entry);
    for (const page of [ines, tomas]) await row(page, 'now', 'heat to').waitFor({ state: 'detached', timeout: 1000 });

    // What the journal refuses is told, and nothing has changed.
    const early = row(ines, 'own', 'carve').getByRole('button');
    await early.click();
    await expect.poll(() => ines.textContent('#answer')).toContain('comes after Roast loin/rest');
    // What is done stands behind what is to be done.
    await ines.locator('[data-part=own] summary', { hasText: /^1 of \d+ done$/ }).click();
    await row(ines, 'own', 'tie').getByRole('button', { name: 'Take back' }).click();
    await row(ines, 'now', 'under way').waitFor({ state: 'detached', timeout: 1000 });
    expect(kitchen.entries().at(-1)).toMatchObject({ kind: 'undo', who: 'Ines' });

    for (const page of [ines, tomas])
      for (const [width, colorScheme] of [
        [360, 'light'],
        [360, 'dark'],
        [1280, 'light'],
      ] as const) {
        await page.setViewportSize({ width, height: 740 });
        await page.emulateMedia({ colorScheme });
        const shown = await page.evaluate(texts);
        expect(shown.length).toBeGreaterThan(40);
        expect(shown.filter(({ colour, back }) => contrast(colour, back) < 4.5)).toEqual([]);
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
      }
    // A refused tap is the one thing that a browser tells of by itself.
    expect(cries.filter((cry) => !cry.includes('409'))).toEqual([]);

    await kitchen.wall.close();
    await ines.clock.fastForward(15_000);
    await expect
      .poll(() => ines.textContent('#stale'))
      .toMatch(/^Not up to date: nothing heard for \d\d s\. Trying again\.$/);
    await row(ines, 'now', 'tie').getByRole('button').click();
    await expect.poll(() => ines.textContent('#answer')).toContain('Not noted: there is no connection');
  });
});
