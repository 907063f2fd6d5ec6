/** HTML and SVG built from parts, so that text can only ever come in as text. */
import { inMarkup } from './escape.js';

export interface Markup {
  readonly markup: string;
}
export type Child = Markup | string | null;
type Attributes = Readonly<Record<string, string | number | boolean | null>>;

/** Elements that have no end. */
const VOID = new Set(['input', 'meta', 'br']);

const numbers = (value: number): string => String(Math.round(value * 100) / 100);

/** An element. Attributes that are null or false are left out, true ones stand without a value. */
export function tag(name: string, attributes: Attributes = {}, ...children: readonly Child[]): Markup {
  const told = Object.entries(attributes).flatMap(([key, value]) => {
    if (value === null || value === false) return [];
    if (value === true) return [` ${key}`];
    return [` ${key}="${typeof value === 'number' ? numbers(value) : inMarkup(value)}"`];
  });
  const open = `<${name}${told.join('')}>`;
  return { markup: VOID.has(name) ? open : `${open}${markupOf(children)}</${name}>` };
}

/** Parts one after the other. */
export const together = (...children: readonly Child[]): Markup => ({ markup: markupOf(children) });

/** What is markup already: our own styles and scripts, never a word of the meal. */
export const asIs = (markup: string): Markup => ({ markup });

const markupOf = (children: readonly Child[]): string =>
  children.map((child) => (child === null ? '' : typeof child === 'string' ? inMarkup(child) : child.markup)).join('');
