/**
 * How each role looks. The dishes' colours follow the palette of Okabe and Ito ("Color Universal Design", 2008), which
 * keeps its colours apart for colour-blind eyes; yellow and blue are nearer to the middle, to be read on light and on dark.
 */
import type { Role } from '../../src/chart/line.js';
import type { Colors } from './capability.js';

interface Hue {
  readonly rgb: readonly [number, number, number];
  /** The nearest of the 256 colours, and of the sixteen (30 to 37, 90 to 97). */
  readonly many: number;
  readonly sixteen: number;
  /** Writing on it is white instead of black. */
  readonly dark?: boolean;
}

const SKY: Hue = { rgb: [86, 180, 233], many: 74, sixteen: 36 };
const DISHES: readonly Hue[] = [
  { rgb: [230, 159, 0], many: 214, sixteen: 33 },
  SKY,
  { rgb: [0, 158, 115], many: 36, sixteen: 32 },
  { rgb: [204, 121, 167], many: 175, sixteen: 35 },
  { rgb: [209, 191, 26], many: 178, sixteen: 93 },
  { rgb: [213, 94, 0], many: 166, sixteen: 31 },
  { rgb: [31, 120, 189], many: 32, sixteen: 34, dark: true },
];
const EMBER: Hue = { rgb: [224, 112, 60], many: 173, sixteen: 31 };
const LEAF: Hue = { rgb: [0, 158, 115], many: 36, sixteen: 32 };
const RUST: Hue = { rgb: [213, 94, 0], many: 166, sixteen: 31 };
const BLACK = { rgb: [0, 0, 0], many: 16, sixteen: 30 } as const;
const WHITE = { rgb: [255, 255, 255], many: 231, sixteen: 97 } as const;

interface Look {
  readonly hue?: Hue;
  readonly ground?: Hue;
  readonly bold?: boolean;
  readonly dim?: boolean;
  readonly inverse?: boolean;
}

const LOOKS: Readonly<Record<Exclude<Role, `dish ${number}` | `on dish ${number}`>, Look>> = {
  plain: {},
  strong: { bold: true },
  title: { bold: true },
  dim: { dim: true },
  axis: {},
  grid: { dim: true },
  landing: { bold: true },
  heat: { hue: EMBER },
  core: { hue: EMBER },
  surface: { hue: SKY },
  good: { hue: LEAF },
  warn: { hue: RUST, bold: true },
  cursor: { bold: true, inverse: true },
  key: { bold: true },
};

function lookOf(role: Role): Look {
  const dish = /^(on )?dish (\d+)$/.exec(role);
  if (!dish) return LOOKS[role as keyof typeof LOOKS];
  const hue = DISHES[Number(dish[2]) % DISHES.length]!;
  if (!dish[1]) return { hue };
  return { hue: hue.dark ? WHITE : BLACK, ground: hue };
}

function codes(hue: Hue, colors: Colors, ground: boolean): string {
  if (colors === 'full') return `${ground ? 48 : 38};2;${hue.rgb.join(';')}`;
  if (colors === 'many') return `${ground ? 48 : 38};5;${hue.many}`;
  return String(hue.sixteen + (ground ? 10 : 0));
}

/**
 * The codes that switch a role on (ECMA-48, select graphic rendition); empty where the role has none. Without colours the
 * weights remain where `weights` is set, as a screen needs its cursor.
 */
export function opening(role: Role, colors: Colors, weights: boolean): string {
  const look = lookOf(role);
  const parts: string[] = [];
  if (weights && look.bold) parts.push('1');
  if (weights && look.dim) parts.push('2');
  if (weights && look.inverse) parts.push('7');
  if (colors !== 'none' && look.hue) parts.push(codes(look.hue, colors, false));
  if (colors !== 'none' && look.ground) parts.push(codes(look.ground, colors, true));
  return parts.length === 0 ? '' : `\u001b[${parts.join(';')}m`;
}
