/** Names of files: letters and digits of any script with hyphens between, so that no title leads out of its folder. */

const LONGEST = 60;

/** `orchard-supper`; `meal` where nothing is left. */
export function slug(text: string): string {
  const letters = text
    .normalize('NFKD')
    .replace(/(?<=\p{Script=Latin})\p{M}+/gu, '')
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-');
  return (
    [...letters]
      .slice(0, LONGEST)
      .join('')
      .replace(/^-+|-+$/g, '') || 'meal'
  );
}

/** The same names with a number behind those that would fall together. */
export function apart(names: readonly string[]): string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    let free = name;
    for (let number = 2; taken.has(free); number += 1) free = `${name}-${number}`;
    taken.add(free);
    return free;
  });
}
