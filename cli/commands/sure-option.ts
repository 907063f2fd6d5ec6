/** The option of `hearthtable plan` that asks for a chance. */
import { InvalidArgumentError, Option } from 'commander';

export const sureOption = (): Option =>
  new Option(
    '--sure <chance>',
    'keep so much free that all lands within 5 min with this chance, where steps are not sure: 90%',
  ).argParser(chanceIn);

/** `90%`, `90` and `0.9` as a share. */
function chanceIn(text: string): number {
  const found = /^(\d+(?:\.\d+)?|\.\d+)\s*(%?)$/.exec(text.trim());
  const value = Number(found?.[1]);
  // 1 alone may be a hundredth or all.
  const share =
    found === null || (value === 1 && found[2] === '') ? Number.NaN : value < 1 && !found[2] ? value : value / 100;
  if (!(share > 0 && share < 1)) {
    throw new InvalidArgumentError('A chance between 0% and 100% is wanted: 90%, or 0.9. No plan is sure to 100%.');
  }
  return share;
}
