/** What the letters, textures and lines of a picture mean. */
import { type Texture, textureOf } from '../../chart/glyphs.js';
import type { View } from '../../chart/view.js';
import { type Markup, tag, together } from '../markup.js';
import { DISH_COLOURS } from '../palette.js';
import { WIDTH } from './frame.js';
import { lengthOf } from './letters.js';

const LINE = 20;

const TEXTURES: readonly [Texture, string][] = [
  ['heat', 'on the heat'],
  ['hold', 'held warm'],
  ['rest', 'rest'],
  ['chill', 'chill'],
  ['hands', 'hands'],
];

interface Entry {
  readonly width: number;
  readonly draw: (x: number, y: number) => Markup;
}

/** Entries from left to right on as many lines as they take, from `top` down. */
export function keyOf(view: View, top: number): { readonly drawn: Markup; readonly bottom: number } {
  const used = new Set<Texture>(view.steps.map((step) => textureOf(step.work)));
  const dishes = new Set(view.steps.map(({ dish }) => dish));
  const entries = [
    ...view.dishes
      .filter(({ index }) => dishes.has(index))
      .map(({ letter, name, index }) => {
        const served = view.problem.dishes[index]!.served ? '' : ' (component)';
        return swatch(`key bar d${index % DISH_COLOURS}`, letter, `${name}${served}`, null);
      }),
    ...TEXTURES.filter(([texture]) => used.has(texture)).map(([texture, words]) =>
      swatch('key bar', '', words, texture),
    ),
  ];
  let x = 0;
  let y = top;
  const drawn = entries.map(({ width, draw }) => {
    if (x > 0 && x + width > WIDTH) {
      x = 0;
      y += LINE;
    }
    const markup = draw(x, y);
    x += width;
    return markup;
  });
  return { drawn: together(...drawn), bottom: y + LINE };
}

function swatch(className: string, letter: string, words: string, texture: Texture | null): Entry {
  const box = Math.max(20, lengthOf(letter) + 8);
  return {
    width: box + lengthOf(words) + 20,
    draw: (x, y) =>
      tag(
        'g',
        { class: className },
        tag('rect', { class: 'body', x: x + 0.5, y: y + 0.5, width: box, height: 15, rx: 2 }),
        texture === null || texture === 'hands'
          ? null
          : tag('rect', { class: `strip ${texture}`, x: x + 0.5, y: y + 9.5, width: box, height: 6 }),
        tag('text', { x: x + 5, y: y + 12 }, letter),
        tag('text', { x: x + box + 6, y: y + 12 }, words),
      ),
  };
}
