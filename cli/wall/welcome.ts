/** What is printed when the wall is up: a link for each, and a code for each phone. */
import { clean } from '../../src/chart/text.js';
import type { Right } from '../../src/wall/rights.js';
import { type CodeLook, codeLines } from './codes.js';
import type { Link } from './links.js';

export interface Welcome {
  readonly links: readonly Link[];
  /** By which other machines reach it; none: this machine alone. */
  readonly addresses: readonly string[];
  readonly port: number;
  /** Null: no codes. */
  readonly look: CodeLook | null;
}

export function welcomeLines({ links, addresses, port, look }: Welcome): string[] {
  const [main = '127.0.0.1', ...others] = addresses;
  const linkOf = ({ token }: Link): string => `http://${main}:${port}/${token}/`;
  const open = addresses.length > 0;
  const codes = open && look !== null ? links : [];
  return [
    'The wall is up. Links:',
    ...links.flatMap((link) => [`  ${nameOf(link.right)}`, `    ${linkOf(link)}`]),
    '',
    ...codes.flatMap((link) => [`${nameOf(link.right)}:`, ...codeLines(linkOf(link), look!), '']),
    ...(others.length > 0 ? [`If phones find nothing there: ${others.join(', ')} in its place.`] : []),
    open
      ? 'Whoever has a link sees the meal and may do what it says. Nothing is encrypted on its way: use a network that you trust.'
      : 'Only this machine reaches it; --open-to-network lets phones in.',
    'It ends with Ctrl+C.',
  ];
}

function nameOf({ kind, who }: Right): string {
  if (kind === 'look') return 'to look only';
  if (kind === 'cook') return `${clean(who)} (ticks off their own calls, and anyone’s)`;
  return `${who === null ? 'in charge' : clean(who)} (ticks off everything)`;
}
