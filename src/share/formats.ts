/** A timeline in each of the formats, as text. */
import { calendarOf, PRODUCT } from './calendar.js';
import type { Shared } from './content.js';
import { markdownOfCards, markdownOfLists } from './markdown.js';
import { textOfCards, textOfLists } from './text.js';
import { SIGNATURE } from './words.js';

export const FORMATS = ['ics', 'md', 'text'] as const;
export type Format = (typeof FORMATS)[number];

/** Those in which the cards of the appliances come. */
export const CARD_FORMATS: readonly Format[] = ['md', 'text'];

export interface RenderOptions {
  /** Milliseconds since the epoch. */
  readonly written: number;
  /** Minutes by which the alarm comes before each event of a calendar. */
  readonly ahead: number;
  /** What stands in the file that is to be replaced. */
  readonly previous: string | null;
}

export function rendered(shared: Shared, format: Format, options: RenderOptions): string {
  if (format === 'ics') return calendarOf(shared, options);
  return format === 'md' ? markdownOfLists(shared) : textOfLists(shared);
}

export const renderedCards = (shared: Shared, format: Format): string =>
  format === 'md' ? markdownOfCards(shared) : textOfCards(shared);

/** Whether a file with this text was written by this program, or is empty. */
export const isOurs = (text: string): boolean =>
  text.trim() === '' || text.includes(SIGNATURE) || text.includes(`PRODID:${PRODUCT}`);
