/** A QR code (ISO/IEC 18004) as lines for a terminal, dark on light whatever the terminal's colours are, where it has any. */
import encoded from 'qr';

export interface CodeLook {
  readonly unicode: boolean;
  readonly colors: boolean;
}

/** Modules of light around it, which the standard asks for. */
const QUIET = 4;

/** Whether each module is dark, with the light around it. */
export function modulesOf(text: string): boolean[][] {
  return encoded(text, 'raw', { ecc: 'low', border: QUIET });
}

/** Columns that its lines take. */
export const widthOfCode = (text: string, { unicode }: CodeLook): number => modulesOf(text).length * (unicode ? 1 : 2);

export function codeLines(text: string, { unicode, colors }: CodeLook): string[] {
  const modules = modulesOf(text);
  // Without colours the signs are taken to be lighter than what they stand on.
  const inked = (row: number, column: number): boolean => (modules[row]?.[column] ?? false) === colors;
  const lines: string[] = [];
  for (let row = 0; row < modules.length; row += unicode ? 2 : 1) {
    const signs = modules[row]!.map((_, column) => {
      if (!unicode) return inked(row, column) ? '##' : '  ';
      const [upper, lower] = [inked(row, column), inked(row + 1, column)];
      return upper ? (lower ? '█' : '▀') : lower ? '▄' : ' ';
    }).join('');
    lines.push(colors ? `\u001b[30;107m${signs}\u001b[0m` : signs);
  }
  return lines;
}
