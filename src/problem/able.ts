/** Who can do what. */
import type { Cook, Kitchen, OptionPlace, Work } from './problem.js';

/**
 * Whether a cook can do a kind of work in a place: the work, the appliance's name or kind, or `board` stands in `can`.
 * One match is enough; without `can` a cook can do everything.
 */
export function isAble(kitchen: Kitchen, cook: Cook, work: Work, place: OptionPlace): boolean {
  if (cook.can === null) return true;
  const words: string[] = [work];
  if (place.kind === 'board') words.push('board');
  if (place.kind === 'heated' || place.kind === 'burner') {
    const appliance = kitchen.appliances[place.appliance]!;
    words.push(appliance.name, appliance.kind);
  }
  return cook.can.some((word) => words.includes(word));
}
