/** The colours of pictures and pages, by day and by night. Whatever a colour says is said by a letter or a texture as well. */

export const DISH_COLOURS = 8;

export interface Palette {
  /** Behind everything, and behind what stands out from it. */
  readonly paper: string;
  readonly panel: string;
  readonly ink: string;
  /** Of what matters less. */
  readonly dim: string;
  readonly rule: string;
  /** Serving times and links. */
  readonly accent: string;
  /** An appliance's temperature. */
  readonly heat: string;
  readonly 'heat-line': string;
  readonly caution: string;
  /** By dish: what its bars are filled with, and what they are framed with. */
  readonly dishes: readonly { readonly fill: string; readonly line: string }[];
}

const dishes = (colours: string) =>
  colours.split(' ').map((pair) => {
    const [fill, line] = pair.split('/') as [string, string];
    return { fill, line };
  });

export const DAY: Palette = {
  paper: '#ffffff',
  panel: '#f4f2ee',
  ink: '#1b1a18',
  dim: '#57534c',
  rule: '#d5d0c7',
  accent: '#9a2f0a',
  heat: '#fbe6d5',
  'heat-line': '#b4460f',
  caution: '#fff3cf',
  dishes: dishes(
    '#ffd9c2/#b4460f #cfe8c9/#2f7d32 #cfe0fb/#2456b8 #fbe3a2/#8a6500 #ead3f5/#7b3aa8 #c8ecec/#0b7378 #f9cfdc/#b02456 #e1dfd6/#5d5a4b',
  ),
};

export const NIGHT: Palette = {
  paper: '#15161a',
  panel: '#202227',
  ink: '#efece6',
  dim: '#b7b2a8',
  rule: '#3d4047',
  accent: '#ffab85',
  heat: '#432a1c',
  'heat-line': '#ff9d66',
  caution: '#3d3411',
  dishes: dishes(
    '#6b3416/#ff9d66 #24502a/#7fce86 #253f73/#8db4ff #574305/#e5bd4d #4d2d66/#cf9bf0 #0e4a4e/#62cfd4 #692540/#ff8fb3 #45433a/#c2bfae',
  ),
};

/** What is written on what: pairs that have to be told apart by whoever sees little. */
export const writtenOn = ({ paper, panel, ink, dim, accent, heat, caution, ...rest }: Palette): [string, string][] => [
  ...[paper, panel, heat, caution, ...rest.dishes.map(({ fill }) => fill)].map((back): [string, string] => [ink, back]),
  ...[paper, panel, caution].map((back): [string, string] => [dim, back]),
  ...[paper, panel].map((back): [string, string] => [accent, back]),
];

/** Frames and lines that carry meaning, on what they stand on. */
export const drawnOn = ({ paper, ...rest }: Palette): [string, string][] =>
  [rest['heat-line'], rest.accent, ...rest.dishes.map(({ line }) => line)].map((line) => [line, paper]);

/** As CSS variables: `--ink`, `--fill-0`. */
export function variables({ dishes: colours, ...plain }: Palette): string {
  const own = Object.entries(plain).map(([name, colour]) => `--${name}:${colour}`);
  const each = colours.flatMap(({ fill, line }, index) => [`--fill-${index}:${fill}`, `--line-${index}:${line}`]);
  return [...own, ...each].join(';');
}

/** The contrast of two colours, 1 to 21 (WCAG 2.2, "contrast ratio" and "relative luminance"). */
export function contrast(one: string, other: string): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
