/** What the parts of the reader share: where things stand in the file, what is broken already, and the messages. */
import type { Parsed, Written } from '../units/measure.js';
import { Notes, type Spot } from './message.js';
import { nearest } from './nearest.js';

/** Where an object of the tree stands: itself, and each key (or index, as text) with its value. */
export interface Place {
  readonly start: Spot;
  readonly keys: Map<string, { readonly key: Spot; readonly value: Spot }>;
}

export class Reading {
  readonly notes = new Notes();
  /** What was read, by the name of its file. */
  readonly texts = new Map<string, string>();
  readonly #places = new WeakMap<object, Place>();
  readonly #broken = new WeakMap<object, Set<string>>();

  constructor(
    /** Where anything without a place of its own is reported. */
    readonly top: Spot,
  ) {}

  place(thing: object, place: Place): void {
    this.#places.set(thing, place);
  }

  placeOf(thing: object): Place | undefined {
    return this.#places.get(thing);
  }

  /** The keys of a map in the order of the file (which an object does not keep where they look like numbers). */
  keysOf(thing: object): string[] {
    const order = [...(this.#places.get(thing)?.keys.keys() ?? [])];
    return order.filter((key) => key in thing);
  }

  /** Of a value; of the key where the value is empty; of the whole where the key is absent. */
  at(thing: object, key?: string | number): Spot {
    const place = this.#places.get(thing);
    if (!place) return this.top;
    return (key === undefined ? undefined : place.keys.get(String(key))?.value) ?? place.start;
  }

  keyAt(thing: object, key: string): Spot {
    return this.#places.get(thing)?.keys.get(key)?.key ?? this.at(thing);
  }

  error(code: string, spot: Spot, say: string, hint?: string | null): void {
    this.notes.add('error', code, spot, say, hint);
  }

  warn(code: string, spot: Spot, say: string, hint?: string | null): void {
    this.notes.add('warning', code, spot, say, hint);
  }

  /** Notes that something under this key was refused and taken out, so that its absence is no second mistake. */
  breakAt(thing: object, key: string | number): void {
    const keys = this.#broken.get(thing) ?? new Set();
    this.#broken.set(thing, keys.add(String(key)));
  }

  /** Whether what stands under the key was refused. */
  isBroken(thing: object, key: string): boolean {
    return this.#broken.get(thing)?.has(key) ?? false;
  }

  /** Whether anything of a map or a list was refused, so that what it lacks is no mistake of its own. */
  isHurt(thing: object): boolean {
    return this.#broken.has(thing);
  }

  /** The same, for everything within. */
  isHurtWithin(thing: unknown): boolean {
    if (typeof thing !== 'object' || thing === null) return false;
    return this.isHurt(thing) || Object.values(thing).some((part) => this.isHurtWithin(part));
  }

  /** Reads the quantity under a key; undefined where it is absent or wrong, which is then said. */
  quantity<T>(thing: object, key: string | number, parse: (text: Written) => Parsed<T>): T | undefined {
    const written = (thing as Record<string | number, unknown>)[key];
    if (typeof written !== 'string' && typeof written !== 'number') return undefined;
    const parsed = parse(written);
    if (parsed.ok) return parsed.value;
    this.error('quantity', this.at(thing, key), parsed.say, parsed.hint);
    this.breakAt(thing, key);
    return undefined;
  }

  /** The word as known, or undefined after saying that it is not. */
  known(code: string, spot: Spot, word: string, words: readonly string[], say: string): string | undefined {
    if (words.includes(word)) return word;
    this.error(code, spot, say, nearest(word, words) ?? listed(words));
    return undefined;
  }
}

/** A few words as a list; null where there are none or too many. */
export function listed(words: readonly string[]): string | null {
  const each = [...new Set(words)];
  return each.length === 0 || each.length > 20 ? null : each.join(', ');
}
