/** A QR code (ISO/IEC 18004) as lines for a terminal, dark on light whatever the terminal's colours are, where it has any. */
import qrcode from 'qrcode-generator';

export interface CodeLook {
  readonly unicode: boolean;
  readonly colors: boolean;
}

/** Modules of light around it, which the standard asks for. */
const QUIET = 4;

/** Whether each module is dark, with the light around it. */
export function modulesOf(text: string): boolean[][] {
  const code = qrcode(0, 'L');
  code.addData(text, 'Byte');
  code.make();
  const size = code.getModuleCount();
  const at = (row: number, column: number): boolean =>
    row >= 0 && column >= 0 && row < size && column < size && code.isDark(row, column);
  const all = Array.from({ length: size + 2 * QUIET }, (_, index) => index - QUIET);
  return all.map((row) => all.map((column) => at(row, column)));
}

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
