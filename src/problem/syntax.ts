/** Mistakes of YAML itself, in a cook's words. */

const WORDS: Readonly<Record<string, readonly [say: string, hint?: string]>> = {
  TAB_AS_INDENT: ['A tab stands where spaces indent the line.', 'two spaces for each level'],
  BAD_INDENT: [
    'The line is indented differently from its neighbours, or a bracket is not closed.',
    'keys of one thing begin in the same column',
  ],
  BLOCK_AS_IMPLICIT_KEY: [
    'A second `key:` stands in one line, or the line is indented too far.',
    'one key a line, or { a: 1, b: 2 }',
  ],
  BLOCK_IN_FLOW: ['A comma is missing before this key.', '{ place: oven, heat: 165C }'],
  MULTILINE_IMPLICIT_KEY: ['The key does not end in its line.', 'key: value'],
  MISSING_CHAR: ['A sign is missing here: a closing quote, a bracket, a comma or a colon.'],
  BAD_SCALAR_START: ['Text cannot begin with this sign.', 'put the text in quotes'],
  UNEXPECTED_TOKEN: ['This does not belong here: a sign too many, or lines that do not go together.'],
  MULTIPLE_DOCS: ['A second document begins here; a file holds one.', 'leave out the line with ---'],
  TAG_RESOLVE_FAILED: [
    'A tag (a word that begins with !) has no meaning here.',
    'leave it out, or put the text in quotes',
  ],
  BAD_ALIAS: ['An alias (a word that begins with *) is not written rightly.', 'put the text in quotes'],
  KEY_OVER_1024_CHARS: ['The key is longer than 1024 characters.'],
  RESOURCE_EXHAUSTION: ['Lists and maps lie too deep in each other here.'],
};

/** Mistakes that stand for themselves, whatever comes before them. */
const ALONE: ReadonlySet<string> = new Set([
  'TAB_AS_INDENT',
  'BAD_SCALAR_START',
  'TAG_RESOLVE_FAILED',
  'MULTIPLE_DOCS',
]);

export interface SyntaxWords {
  readonly say: string;
  readonly hint?: string | undefined;
  /** Whether it is no echo of a mistake before it. */
  readonly alone: boolean;
  /** Where it is. */
  readonly offset: number;
}

/** What is wrong, where, and what would do. `code`, `message` and `offset` are those of the parser. */
export function syntaxWords(code: string, message: string, text: string, offset: number): SyntaxWords {
  const alone = ALONE.has(code);
  if (code === 'MISSING_CHAR' && /quote/i.test(message)) {
    const sign = message.includes("'") ? "'" : '"';
    return { say: 'The quote that opens here is not closed.', alone, offset: openingQuote(text, sign, offset) };
  }
  if (code === 'MISSING_CHAR' && /map values/i.test(message)) {
    return { say: 'A colon is missing after this key.', hint: 'key: value', alone, offset };
  }
  if (/end with (?:a )?[\]}]/.test(message)) {
    return { say: 'A bracket that was opened before is not closed here.', alone, offset };
  }
  const [say, hint] = WORDS[code] ?? ['This is not written as YAML or JSON is.'];
  return { say, hint, alone, offset };
}

/** The parser tells where it gave up; the quote opens at the last such sign before, as an unclosed text holds no other. */
function openingQuote(text: string, sign: string, end: number): number {
  for (let at = text.lastIndexOf(sign, end); at >= 0; at = text.lastIndexOf(sign, at - 1)) {
    if (sign === '"' && text[at - 1] === '\\') continue;
    if (sign === "'" && text[at - 1] === "'") at--;
    else return at;
    if (at === 0) break;
  }
  return end;
}
