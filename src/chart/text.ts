/**
 * Text on a grid of character cells: measured, cut and padded by display width, never by the number of code units.
 */
import stringWidth from 'string-width';

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });
// Characters that are one column each and join with nothing: ASCII, Latin letters, dashes, arrows, lines and blocks.
const simple = /^[\x20-\x7e\u00a0-\u00ac\u00ae-\u024f\u2010-\u2027\u2190-\u21ff\u2500-\u25fc]*$/;
// C0 and C1 controls, ends of lines and paragraphs, and the marks that turn the direction of writing: a name must not move the cursor or mirror a row.
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const controls = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]+/g;

/** Columns that the text takes: 2 for a wide character or an emoji, 0 for a combining mark. */
export function widthOf(text: string): number {
  return simple.test(text) ? text.length : stringWidth(text);
}

/** What a reader sees as single characters, each with its columns. Those without any are joined to the one before. */
export function glyphsOf(text: string): { glyph: string; width: number }[] {
  if (simple.test(text)) return [...text].map((glyph) => ({ glyph, width: 1 }));
  const glyphs: { glyph: string; width: number }[] = [];
  for (const { segment } of graphemes.segment(text)) {
    const width = stringWidth(segment);
    const before = glyphs.at(-1);
    if (width > 0) glyphs.push({ glyph: segment, width });
    else if (before) before.glyph += segment;
  }
  return glyphs;
}

/** A name from a file, on one line: runs of control characters become one blank. */
export function clean(name: string): string {
  return name.replace(controls, ' ').trim();
}

/**
 * The text within so many columns; what is too long ends in `ellipsis` (left out when there is no room for more than it).
 * A wide character is never halved: the result may be a column short.
 */
export function cut(text: string, columns: number, ellipsis: string): string {
  if (columns <= 0) return '';
  if (widthOf(text) <= columns) return text;
  const mark = columns > 2 ? ellipsis : '';
  const room = columns - widthOf(mark);
  let kept = '';
  let used = 0;
  for (const { glyph, width } of glyphsOf(text)) {
    if (used + width > room) break;
    kept += glyph;
    used += width;
  }
  return kept.trimEnd() + mark;
}

/** Each name within so many columns; those that would look alike show where they begin to differ. */
export function cutApart(names: readonly string[], columns: number, ellipsis: string): string[] {
  const short = names.map((name) => cut(name, columns, ellipsis));
  const groups = new Map<string, string[]>();
  for (const [index, name] of names.entries()) groups.set(short[index]!, [...(groups.get(short[index]!) ?? []), name]);
  return names.map((name, index) => {
    const others = groups.get(short[index]!)!.filter((other) => other !== name);
    return others.length === 0 ? short[index]! : cutFrom(name, commonStart([name, ...others]), columns, ellipsis);
  });
}

/** A little of the name's beginning, then what follows its first so many characters. */
function cutFrom(name: string, start: number, columns: number, ellipsis: string): string {
  const gap = widthOf(ellipsis);
  const rest = glyphsOf(name)
    .slice(start)
    .map(({ glyph }) => glyph)
    .join('');
  const room = Math.min(widthOf(rest), columns - gap - 3);
  if (room < 2) return cut(name, columns, ellipsis);
  const head = cut(name, columns - gap - room, '');
  return head + ellipsis + cut(rest, columns - widthOf(head) - gap, ellipsis);
}

/** How many characters all of them share at their beginning. */
function commonStart(names: readonly string[]): number {
  const [first, ...others] = names.map((name) => glyphsOf(name).map(({ glyph }) => glyph));
  const end = first!.findIndex((glyph, index) => others.some((other) => other[index] !== glyph));
  return end < 0 ? first!.length : end;
}

/** Cut, then filled up with blanks to exactly so many columns. */
export function pad(text: string, columns: number, ellipsis: string): string {
  const short = cut(text, columns, ellipsis);
  return short + ' '.repeat(Math.max(0, columns - widthOf(short)));
}

// A number stays with its unit, and a time with the word before: `280 °C`, `1 h 15 min`, `main 18:40`, `6:30 pm`.
const quantity =
  /(?<=\d) (?=(?:°?[CF]|min|h|d|cm|in|kg|g|lb)\b|%)|(?<=\d [hd]) (?=\d)|(?<=\p{L}) (?=\d\d?:\d\d)|(?<=:\d\d) (?=[ap]m\b)/gu;
const TIE = '\u00a0';

/** The text with what belongs together held together: no line ends between a number and its unit. */
export const tied = (text: string): string => text.replace(quantity, TIE);

/** The words of a sentence on lines of at most so many columns; a word longer than a line is broken. */
export function wrap(text: string, columns: number): string[] {
  return wrapWords(tied(text), columns).map((line) => line.replaceAll(TIE, ' '));
}

function wrapWords(text: string, columns: number): string[] {
  const room = Math.max(1, columns);
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOf(longer) <= room) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const { glyph } of glyphsOf(word)) {
      if (widthOf(line + glyph) > room && line !== '') {
        lines.push(line);
        line = '';
      }
      line += glyph;
    }
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}

/** To 0.01, without zeros at the end. */
export const points = (value: number): string => value.toFixed(2).replace(/\.?0+$/, '');
