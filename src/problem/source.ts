/** From the text of a file to a plain tree of objects, lists and scalars that knows where everything stands. */
import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  parseDocument,
  type Scalar,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { quote } from '../units/measure.js';
import type { Spot } from './message.js';
import type { Place, Reading } from './reading.js';
import { syntaxWords } from './syntax.js';

const LONGEST = 1_000_000;
const DEEPEST = 32;
const MOST_SYNTAX = 20;
/** Nodes after every alias is written out. */
const MOST = 200_000;

/** Thrown inside this file only, to stop at the first mistake that leaves nothing to go on with. */
class Hopeless extends Error {}

/** The root of the file's tree, or undefined where the text cannot be read at all (which is then said). */
export function readTree(reading: Reading, file: string, text: string): object | undefined {
  const top: Spot = { file, line: 1, column: 1 };
  reading.texts.set(file, text);
  if (text.length > LONGEST) {
    reading.error('too-large', top, 'The file has more than a million characters; no meal needs so many.');
    return undefined;
  }
  const deep = tooDeep(text);
  if (deep) {
    reading.error('too-deep', { file, ...deep }, TOO_DEEP);
    return undefined;
  }
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false, version: '1.2', uniqueKeys: false });
  const spotOf = (offset: number): Spot => {
    const { line, col } = lines.linePos(Math.max(0, Math.min(offset, text.length)));
    return line === 0 ? top : { file, line, column: col };
  };
  if (saySyntax(reading, document, text, spotOf)) return undefined;
  try {
    return new Tree(reading, document, spotOf, top).root();
  } catch (problem) {
    if (problem instanceof Hopeless) return undefined;
    throw problem;
  }
}

/** Says the mistakes of syntax; true where the tree cannot be trusted. */
function saySyntax(reading: Reading, document: Document, text: string, spotOf: (offset: number) => Spot): boolean {
  if (document.directives?.yaml.version !== '1.2') {
    const say = 'The file asks for another version of YAML.';
    reading.error('syntax', spotOf(0), say, 'leave out the line that begins with %');
    return true;
  }
  let echo = false;
  const lines = new Set<number>();
  for (const error of [...document.errors, ...document.warnings].sort((a, b) => a.pos[0] - b.pos[0])) {
    const { say, hint, alone, offset } = syntaxWords(error.code, error.message, text, error.pos[0]);
    const spot = spotOf(offset);
    // After a mistake of structure the parser has lost its way: what else it finds amiss is mostly an echo.
    if ((echo && !alone) || lines.has(spot.line) || lines.size >= MOST_SYNTAX) continue;
    echo = true;
    lines.add(spot.line);
    reading.error('syntax', spot, say, hint);
  }
  return document.errors.length > 0;
}

const TOO_DEEP = `Lists and maps lie more than ${DEEPEST} deep in each other here.`;

/**
 * Where brackets open in each other beyond all sense: the parser would need long to find that out. Brackets in text
 * count as well; it takes hundreds of them that are never closed.
 */
function tooDeep(text: string): { line: number; column: number } | null {
  let depth = 0;
  for (let at = 0; at < text.length; at++) {
    const sign = text[at]!;
    if (sign === '[' || sign === '{') depth++;
    else if ((sign === ']' || sign === '}') && depth > 0) depth--;
    if (depth <= DEEPEST * 16) continue;
    const before = text.slice(0, at).split('\n');
    return { line: before.length, column: before.at(-1)!.length + 1 };
  }
  return null;
}

class Tree {
  readonly #open = new Set<Node>();
  /** By name, as far as the tree has grown: an alias means the last one before it. */
  readonly #anchors = new Map<string, Node>();
  #copying = 0;
  #count = 0;

  constructor(
    readonly reading: Reading,
    readonly document: Document,
    readonly spotOf: (offset: number) => Spot,
    readonly top: Spot,
  ) {}

  root(): object | undefined {
    const { contents } = this.document;
    if (contents === null || (isScalar(contents) && contents.value === null)) {
      this.reading.error('empty', this.top, 'The file is empty.', 'begin with format: hearthtable/1');
      return undefined;
    }
    if (!isMap(contents)) {
      const what = isSeq(contents) ? 'a list' : 'one piece of text';
      this.reading.error(
        'shape',
        this.spot(contents),
        `The file is ${what}; it is a map of keys and values.`,
        'title: Sunday lunch',
      );
      return undefined;
    }
    return this.grow(contents, 0) as object;
  }

  spot(node: Node | null | undefined): Spot {
    return node?.range ? this.spotOf(node.range[0]) : this.top;
  }

  stop(node: Node, code: string, say: string, hint?: string): never {
    this.reading.error(code, this.spot(node), say, hint);
    throw new Hopeless();
  }

  grow(node: Node, depth: number): unknown {
    if (depth > DEEPEST) this.stop(node, 'too-deep', TOO_DEEP);
    if (++this.#count > MOST)
      this.stop(node, 'too-large', 'The file grows beyond all measure here (aliases of aliases?).');
    if (isAlias(node)) return this.alias(node, depth);
    if (node.anchor && this.#copying === 0) this.#anchors.set(node.anchor, node);
    if (isMap(node)) return this.inside(node, () => this.map(node, depth));
    if (isSeq(node)) return this.inside(node, () => this.list(node, depth));
    if (isScalar(node)) return this.scalar(node);
    return null;
  }

  inside<T>(node: Node, build: () => T): T {
    this.#open.add(node);
    const built = build();
    this.#open.delete(node);
    return built;
  }

  alias(node: Node & { source: string }, depth: number): unknown {
    const target = this.#anchors.get(node.source);
    if (!target)
      this.stop(node, 'alias', `\`*${node.source}\` names nothing: no \`&${node.source}\` stands before it.`);
    if (this.#open.has(target))
      this.stop(node, 'alias', `\`*${node.source}\` stands inside of what it names, without end.`);
    this.#copying++;
    const copy = this.grow(target, depth + 1);
    this.#copying--;
    return copy;
  }

  map(node: YAMLMap, depth: number): object {
    const built: Record<string, unknown> = Object.create(null);
    const place: Place = { start: this.spot(node), keys: new Map() };
    this.reading.place(built, place);
    for (const pair of node.items) {
      const keyNode = pair.key as Node | null;
      if (!isScalar(keyNode)) {
        this.reading.error('key', this.spot(keyNode), 'A key is one word or a few, not a list, a map or an alias.');
        continue;
      }
      const key = keyNode.source ?? String(keyNode.value ?? '');
      const value = pair.value as Node | null;
      const keySpot = this.spot(keyNode);
      if (key === '__proto__') {
        this.reading.error('unknown-key', keySpot, '`__proto__` is not known here.');
        continue;
      }
      if (place.keys.has(key)) {
        const { line } = place.keys.get(key)!.key;
        this.reading.error('twice', keySpot, `${quote(key)} stands in line ${line} already.`, 'leave one of the two');
        continue;
      }
      place.keys.set(key, { key: keySpot, value: isBlank(value) ? keySpot : this.spot(value) });
      built[key] = value === null ? null : this.grow(value, depth + 1);
    }
    return built;
  }

  list(node: YAMLSeq, depth: number): unknown[] {
    const built: unknown[] = [];
    const place: Place = { start: this.spot(node), keys: new Map() };
    this.reading.place(built, place);
    for (const [index, item] of node.items.entries()) {
      const spot = this.spot(item as Node);
      place.keys.set(String(index), { key: spot, value: spot });
      built.push(item === null ? null : this.grow(item as Node, depth + 1));
    }
    return built;
  }

  scalar(node: Scalar): unknown {
    const { value } = node;
    if (value === null || ['string', 'number', 'boolean'].includes(typeof value)) return value;
    this.stop(node, 'shape', `${quote(node.source ?? 'This')} is neither text nor a number.`, 'leave out the tag');
  }
}

/** True for `key:` with nothing after it, whose own place would be the next line. */
const isBlank = (node: Node | null): boolean =>
  node === null || (isScalar(node) && node.value === null && !node.source);
