/** What one piece is asked about, as it is written, and what is wrong with that. */
import type { Piece } from '../problem/problem.js';
import type { Parsed } from '../units/measure.js';

export const SHAPES: readonly Piece['shape'][] = ['cylinder', 'sphere', 'slab', 'brick'];

/** Each quantity with its unit. */
export interface Words {
  readonly food?: string;
  readonly shape?: Piece['shape'];
  readonly thickness?: string;
  readonly length?: string;
  readonly width?: string;
  readonly weight?: string;
  readonly from?: string;
  readonly bone?: boolean;
  readonly crust?: string;
  /** One temperature or more, with commas between. */
  readonly air?: string;
  readonly target?: string;
  readonly pull?: string;
  readonly fan?: boolean;
  readonly grill?: boolean;
  readonly pan?: boolean;
  /** Wrapped in it. */
  readonly foil?: boolean;
  /** `12 min 280C` */
  readonly sear?: string;
  readonly rest?: string;
  readonly room?: string;
  /** Names of cautions. */
  readonly accept?: readonly string[];
}

type Key = keyof Words;

const ORDER: readonly Key[] = [
  ...(['food', 'shape', 'thickness', 'length', 'width', 'weight', 'from', 'bone', 'crust'] as const),
  ...(['air', 'target', 'pull', 'fan', 'grill', 'pan', 'foil', 'sear', 'rest', 'room', 'accept'] as const),
];

export interface Mistake {
  /** Whose value is wrong; null: of several together. */
  readonly option: Key | null;
  readonly say: string;
  /** A spelling or a change that would do. */
  readonly hint: string | null;
}

/** Reads words and gathers what is wrong with them. */
export class WordReader {
  readonly #mistakes: Mistake[] = [];

  constructor(readonly words: Words) {}

  add(option: Key | null, say: string, hint: string | null): void {
    this.#mistakes.push({ option, say, hint });
  }

  /** The value of one word; undefined where it is not written, null where it is wrong, which is then said. */
  read<T>(option: Key, parse: (text: string) => Parsed<T>): T | null | undefined {
    const text = this.words[option];
    if (typeof text !== 'string') return undefined;
    const parsed = parse(text);
    if (parsed.ok) return parsed.value;
    this.add(option, parsed.say, parsed.hint);
    return null;
  }

  /** In the order of `Words`; what is about several sizes together stands with the weight. */
  get mistakes(): Mistake[] {
    const rank = ({ option }: Mistake): number => ORDER.indexOf(option ?? 'weight');
    return [...this.#mistakes].sort((a, b) => rank(a) - rank(b));
  }
}
