/** What the word of a `place` means in a kitchen. */
import { quote } from '../units/measure.js';
import type { KitchenNames } from './kitchen.js';
import type { Spot } from './message.js';
import { nearest } from './nearest.js';
import { APPLIANCE_KINDS, type Kitchen } from './problem.js';
import type { Reading } from './reading.js';

export type Meant =
  | { readonly kind: 'none' }
  | { readonly kind: 'board' }
  /** Indices of appliances with heat runs. */
  | { readonly kind: 'heated'; readonly appliances: readonly number[] }
  /** Burners, by the index of their cooktop; null: all of its burners. */
  | {
      readonly kind: 'burners';
      readonly burners: readonly { readonly appliance: number; readonly burner: number | null }[];
    }
  /** A known kind of which this kitchen has none. */
  | { readonly kind: 'absent' }
  | { readonly kind: 'unknown' };

/** First an appliance's own name, then a kind, then `burner` or `board`, then a burner's name. */
export function meaningOf(word: string, kitchen: Kitchen): Meant {
  if (word === 'none') return { kind: 'none' };
  const all = [...kitchen.appliances.keys()];
  const named = all.filter((index) => kitchen.appliances[index]!.name === word);
  if (named.length > 0) return appliancesMeant(named, kitchen);
  if ((APPLIANCE_KINDS as readonly string[]).includes(word)) {
    return appliancesMeant(
      all.filter((index) => kitchen.appliances[index]!.kind === word),
      kitchen,
    );
  }
  const cooktops = all.filter((index) => kitchen.appliances[index]!.surface.kind === 'burners');
  if (word === 'burner') return appliancesMeant(cooktops, kitchen);
  if (word === 'board') return { kind: 'board' };
  const burners = cooktops.flatMap((appliance) => {
    const { surface } = kitchen.appliances[appliance]!;
    if (surface.kind !== 'burners') return [];
    return [...surface.burners.keys()]
      .filter((index) => surface.burners[index]!.name === word)
      .map((burner) => ({ appliance, burner }));
  });
  return burners.length > 0 ? { kind: 'burners', burners } : { kind: 'unknown' };
}

function appliancesMeant(indices: readonly number[], kitchen: Kitchen): Meant {
  if (indices.length === 0) return { kind: 'absent' };
  if (kitchen.appliances[indices[0]!]!.surface.kind !== 'burners') return { kind: 'heated', appliances: indices };
  return { kind: 'burners', burners: indices.map((appliance) => ({ appliance, burner: null })) };
}

/** Says that a word means no place; `names` are those of the kitchen. True where the word is known. */
export function checkPlaceWord(reading: Reading, spot: Spot, word: string, names: KitchenNames): boolean {
  const known = ['none', ...names.appliances, ...APPLIANCE_KINDS, 'burner', 'board', ...names.burners];
  if (known.includes(word)) return true;
  const zone = names.zones.find((one) => one.zone === word);
  const say = zone
    ? `${quote(word)} is a zone of ${quote(zone.appliance)}; the plan chooses the zones itself.`
    : `${quote(word)} is no appliance, no kind of appliance and no burner here.`;
  const hint = zone
    ? `place: ${zone.appliance}`
    : (nearest(word, known) ?? names.appliances.concat('burner', 'board').join(', '));
  reading.error('unknown-place', spot, say, hint);
  return false;
}
