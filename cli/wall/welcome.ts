/** What is printed when the wall is up: a code for each phone, and below them, where they are seen first, the links. */
import { clean, pad, wrap } from '../../src/chart/text.js';
import type { Right } from '../../src/wall/rights.js';
import { type CodeLook, codeLines, widthOfCode } from './codes.js';
import type { Link } from './links.js';

export interface Welcome {
  readonly links: readonly Link[];
  /** By which other machines reach it; none: this machine alone. */
  readonly addresses: readonly string[];
  readonly port: number;
  /** Columns and rows of what it is printed on; no rows: it is no terminal. */
  readonly width: number;
  readonly rows: number | null;
  /** Null: no codes. */
  readonly look: CodeLook | null;
}

/** Columns between two codes. */
const BETWEEN = 2;

export function welcomeLines({ links, addresses, port, width, rows, look }: Welcome): string[] {
  const [main = '127.0.0.1', ...others] = addresses;
  const linkOf = ({ token }: Link): string => `http://${main}:${port}/${token}/`;
  const open = addresses.length > 0;
  const codes = open && look !== null ? codesBeside(links, linkOf, width, look) : [];
  const sentences = [
    ...(others.length > 0 ? [`If phones find nothing there: ${others.join(', ')} in its place.`] : []),
    open
      ? 'Whoever has a link sees the meal and may do what it says. Nothing is encrypted on its way: use a network that you trust.'
      : 'Only this machine reaches it; --open-to-network lets phones in.',
    'It ends with Ctrl+C.',
  ].flatMap((sentence) => wrap(sentence, width));
  const told = [
    'The wall is up. Links:',
    ...links.flatMap((link) => [`  ${nameOf(link.right)} (${mayOf(link.right)})`, `    ${linkOf(link)}`]),
    '',
  ];
  const all = codes.length + told.length + sentences.length;
  const above = codes.length > 1 && rows !== null && all >= rows ? ['The QR codes stand above: scroll up.'] : [];
  return [...codes, ...told, ...above, ...sentences];
}

/** As many beside each other as there is room for, each below the name of whose it is. */
function codesBeside(
  links: readonly Link[],
  linkOf: (link: Link) => string,
  width: number,
  look: CodeLook,
): readonly string[] {
  const each = Math.max(...links.map((link) => widthOfCode(linkOf(link), look)));
  const perRow = Math.floor((width + BETWEEN) / (each + BETWEEN));
  if (perRow === 0)
    return [...wrap(`QR codes want ${each} columns, and there are ${width}: the links must do.`, width), ''];
  const gap = ' '.repeat(BETWEEN);
  const lines: string[] = [];
  for (let at = 0; at < links.length; at += perRow) {
    const row = links.slice(at, at + perRow);
    const drawn = row.map((link) => codeLines(linkOf(link), look));
    const names = row.map(({ right }) => pad(labelOf(right), each, look.unicode ? '…' : '~'));
    lines.push(names.join(gap).trimEnd(), ...drawn[0]!.map((_, line) => drawn.map((code) => code[line]).join(gap)), '');
  }
  return lines;
}

function nameOf({ kind, who }: Right): string {
  if (kind === 'look') return 'to look only';
  return who === null ? 'in charge' : clean(who);
}

/** A cook may have two. */
const labelOf = (right: Right): string => `${nameOf(right)}${right.kind === 'all' ? ': everything' : ''}`;

const MAY: Readonly<Record<Right['kind'], string>> = {
  all: 'ticks off everything',
  cook: 'ticks off their own calls, and anyone’s',
  look: 'ticks off nothing',
};
const mayOf = ({ kind }: Right): string => MAY[kind];
