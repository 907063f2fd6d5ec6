/** A timeline in each of the formats, as text. */
import { calendarOf, PRODUCT } from './calendar.js';
import type { Shared } from './content.js';
import { markdownOfCards, markdownOfLists } from './markdown.js';
import { chartedView } from './own-view.js';
import { pageOfCards, pageOfLists } from './page/pages.js';
import { pictureFile } from './picture/picture.js';
import { textOfCards, textOfLists } from './text.js';
import { SIGNATURE, titleWords } from './words.js';

export const FORMATS = ['ics', 'html', 'svg', 'md', 'text'] as const;
export type Format = (typeof FORMATS)[number];

/** Those in which the cards of the appliances come. */
export const CARD_FORMATS: readonly Format[] = ['html', 'md', 'text'];

export interface RenderOptions {
  /** Milliseconds since the epoch. */
  readonly written: number;
  /** Minutes by which the alarm comes before each event of a calendar. */
  readonly ahead: number;
  /** What stands in the file that is to be replaced. */
  readonly previous: string | null;
}

export function rendered(shared: Shared, format: Format, options: RenderOptions): string {
  return RENDER[format](shared, options);
}

const RENDER: Readonly<Record<Format, (shared: Shared, options: RenderOptions) => string>> = {
  ics: calendarOf,
  html: pageOfLists,
  svg: (shared) => pictureFile(chartedView(shared), titleWords(shared)),
  md: markdownOfLists,
  text: textOfLists,
};

/** In one of `CARD_FORMATS`. */
export function renderedCards(shared: Shared, format: Format): string {
  if (format === 'html') return pageOfCards(shared);
  return format === 'md' ? markdownOfCards(shared) : textOfCards(shared);
}

/** Whether a file with this text was written by this program, or is empty. */
export const isOurs = (text: string): boolean =>
  text.trim() === '' || text.includes(SIGNATURE) || text.includes(`PRODID:${PRODUCT}`);
