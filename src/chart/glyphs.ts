/**
 * The marks of the chart in two sets. The fills follow one idea, the darker the hotter: work on the heat is solid, a hold
 * nearly so, a rest half, a chill light; work of the hands alone is a line. The second set is 7-bit throughout, so with it
 * only names can bring other characters.
 */
import type { Work } from '../problem/problem.js';
import { HEAT_WORKS } from '../problem/problem.js';

/** How a stretch of a step is filled. */
export type Texture = 'heat' | 'hold' | 'rest' | 'chill' | 'hands' | 'wait' | 'cursor';

export interface Glyphs {
  readonly fill: Readonly<Record<Texture, string>>;
  /** From cold to hot: the height of an appliance's temperature. */
  readonly levels: readonly string[];
  /** A changeover that rises and one that falls; null: drawn by `levels`. */
  readonly rises: string | null;
  readonly falls: string | null;
  /** A zone whose fire is lit, which holds no pan. */
  readonly lit: string;
  /** Several short things in one cell. */
  readonly several: string;
  readonly grid: string;
  readonly landing: string;
  readonly landed: string;
  /** The present minute, over everything. */
  readonly now: string;
  readonly rule: string;
  readonly tick: string;
  readonly fold: string;
  readonly before: string;
  readonly after: string;
  readonly above: string;
  readonly below: string;
  readonly pointer: string;
  readonly ellipsis: string;
  readonly range: string;
  readonly degree: string;
  readonly dot: string;
  readonly times: string;
  readonly tight: string;
  readonly loose: string;
  readonly caution: string;
  readonly left: string;
  readonly right: string;
  readonly up: string;
  readonly down: string;
}

export const UNICODE: Glyphs = {
  fill: { heat: '█', hold: '▓', rest: '▒', chill: '░', hands: '━', wait: '┄', cursor: '▞' },
  levels: ['▁', '▂', '▃', '▄', '▅', '▆', '▇'],
  rises: null,
  falls: null,
  lit: '^',
  several: '+',
  grid: '·',
  landing: '│',
  landed: '◆',
  now: '┃',
  rule: '─',
  tick: '┬',
  fold: '╱',
  before: '◂',
  after: '▸',
  above: '▴',
  below: '▾',
  pointer: '▸',
  ellipsis: '…',
  range: '–',
  degree: '°',
  dot: '·',
  times: '×',
  tight: '●',
  loose: '○',
  caution: '▲',
  left: '←',
  right: '→',
  up: '↑',
  down: '↓',
};

export const ASCII: Glyphs = {
  fill: { heat: '#', hold: '%', rest: '-', chill: '~', hands: '=', wait: '_', cursor: '*' },
  levels: ['_', '_', '-', '-', '=', '=', '='],
  rises: '/',
  falls: '\\',
  lit: '^',
  several: '+',
  grid: '.',
  landing: '|',
  landed: 'V',
  now: ':',
  rule: '-',
  tick: '+',
  fold: '/',
  before: '<',
  after: '>',
  above: '^',
  below: 'v',
  pointer: '>',
  ellipsis: '..',
  range: '-',
  degree: '',
  dot: '-',
  times: 'x',
  tight: '*',
  loose: 'o',
  caution: '!',
  left: '<',
  right: '>',
  up: '^',
  down: 'v',
};

export function textureOf(work: Work | 'hold'): Texture {
  if (work === 'hold') return 'hold';
  if (HEAT_WORKS.has(work)) return 'heat';
  return work === 'rest' || work === 'chill' ? work : 'hands';
}

/** Our own sentences in the set's characters; a name that uses one of these few marks changes with them. */
export function inGlyphs(text: string, glyphs: Glyphs): string {
  if (glyphs !== ASCII) return text;
  return text.replaceAll('°', '').replaceAll('–', '-').replaceAll('×', 'x').replaceAll('·', '-').replaceAll('…', '..');
}
