/** Lines as strings for a terminal. */
import { type Line, textOf } from '../../src/chart/line.js';
import type { Colors } from './capability.js';
import { opening } from './theme.js';

export interface Brush {
  readonly colors: Colors;
  /** Bold, dim and inverse may be used without colours too. */
  readonly weights: boolean;
}

/** Each line's stretches with the codes of their roles; blanks at a line's end are left out. */
export function paint(line: Line, brush: Brush): string {
  if (brush.colors === 'none' && !brush.weights) return textOf(line);
  let rest = textOf(line).length;
  let painted = '';
  for (const part of line) {
    if (rest <= 0) break;
    const text = part.text.slice(0, rest);
    rest -= part.text.length;
    // Blanks show nothing but a ground.
    const seen = /\S/.test(text) || part.role === 'cursor' || part.role.startsWith('on ');
    const open = seen ? opening(part.role, brush.colors, brush.weights) : '';
    painted += open === '' ? text : `${open}${text}\u001b[0m`;
  }
  return painted;
}

/** Lines as text to print; with colours the weights come along, without them nothing but the text. */
export function printed(lines: readonly Line[], colors: Colors): string {
  const brush: Brush = { colors, weights: colors !== 'none' };
  return lines.map((line) => `${paint(line, brush)}\n`).join('');
}
