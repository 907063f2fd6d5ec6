/** The frame of a page: one file that needs nothing else, and may load and run nothing but what is in it. */
import { createHash } from 'node:crypto';
import { asIs, type Markup, tag } from '../markup.js';
import { SIGNATURE } from '../words.js';

export interface Page {
  readonly title: string;
  readonly style: string;
  readonly script: string;
  /** Marks the page as a whole, for its style. */
  readonly kind: 'lists' | 'cards' | 'wall';
  readonly body: readonly Markup[];
  /** Besides those that every page has, in its head. */
  readonly head?: readonly Markup[];
}

/** What it may load, run and ask for: its own style and script; a page of the wall asks where it came from for news. */
export function policyOf({ style, script, kind }: Pick<Page, 'style' | 'script' | 'kind'>): string {
  return [
    "default-src 'none'",
    `style-src '${hashOf(style)}'`,
    script === '' ? "script-src 'none'" : `script-src '${hashOf(script)}'`,
    ...(kind === 'wall' ? ["connect-src 'self'"] : []),
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

export function pageOf(page: Page): string {
  const { title, style, script, kind, body } = page;
  const head = tag(
    'head',
    {},
    tag('meta', { charset: 'utf-8' }),
    tag('meta', { 'http-equiv': 'Content-Security-Policy', content: policyOf(page) }),
    tag('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    tag('meta', { name: 'color-scheme', content: 'light dark' }),
    tag('meta', { name: 'referrer', content: 'no-referrer' }),
    tag('title', {}, title),
    tag('style', {}, asIs(style)),
    ...(page.head ?? []),
  );
  const foot = tag('footer', {}, tag('p', {}, SIGNATURE));
  const scripts = script === '' ? null : tag('script', {}, asIs(script));
  return `<!doctype html>\n${tag('html', { lang: 'en' }, head, tag('body', { class: kind }, ...body, foot, scripts)).markup}\n`;
}

/** As a Content-Security-Policy names a text that it allows. */
const hashOf = (text: string): string => `sha256-${createHash('sha256').update(text).digest('base64')}`;
