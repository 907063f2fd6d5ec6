/** Names: what they may be, and that each stands for one thing. */
import { quote, shown } from '../units/measure.js';
import type { Reading } from './reading.js';

const LONGEST = 120;

/** Says what is wrong with the name under a key. */
export function checkName<K extends string>(
  reading: Reading,
  thing: Record<K, string>,
  key: K,
  reserved: readonly string[] = [],
): void {
  const name: string = thing[key];
  const spot = reading.at(thing, key);
  if (name.trim() === '') reading.error('name', spot, `The \`${key}\` has no name.`);
  else if (name !== name.trim())
    reading.error('name', spot, `The name ${quote(name)} begins or ends with a space.`, name.trim());
  else if (name.length > LONGEST) reading.error('name', spot, `The name is longer than ${LONGEST} characters.`);
  else if (shown(name) !== name) reading.error('name', spot, 'The name holds signs that cannot be shown.');
  else if (reserved.includes(name))
    reading.error('name', spot, `The name ${quote(name)} has a meaning of its own here.`, 'choose another name');
}

/** Says which names of a list stand there twice. */
export function checkNames<K extends string>(
  reading: Reading,
  things: readonly Record<K, string>[],
  key: K,
  what: string,
): void {
  const seen = new Set<string>();
  for (const thing of things) {
    if (seen.has(thing[key]))
      reading.error(
        'twice',
        reading.at(thing, key),
        `Two ${what} have the name ${quote(thing[key])}.`,
        'give each a name of its own',
      );
    seen.add(thing[key]);
  }
}
