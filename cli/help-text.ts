/** What stands below a command's options in its help, as wide as the terminal. */
import { wrap } from '../src/chart/text.js';
import type { Io } from './io.js';
import { USUAL_WIDTH } from './terminal/capability.js';

/** Longer lines of prose are hard to read. */
const MOST_COLUMNS = 100;

/** Paragraphs are parted by empty lines; lines that begin with a space, and those that end in a colon, stay lines of their own. */
export const helpText = (io: Io, text: string) => (): string => {
  const columns = Math.min(MOST_COLUMNS, io.stdout.columns ?? USUAL_WIDTH);
  const lines: string[] = [];
  let prose = '';
  const end = (): void => {
    if (prose !== '') lines.push(...wrap(prose, columns));
    prose = '';
  };
  for (const line of text.split('\n')) {
    if (line === '' || line.startsWith(' ') || line.endsWith(':')) {
      end();
      lines.push(line);
    } else prose = prose === '' ? line : `${prose} ${line}`;
  }
  end();
  return lines.join('\n');
};
