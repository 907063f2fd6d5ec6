/** The kitchen of a meal: found by path or by name or written inside, then read. */
import { parseDuration } from '../units/duration.js';
import { parseLength, parseSize } from '../units/length.js';
import { quote } from '../units/measure.js';
import { parseTemperature } from '../units/temperature.js';
import { applianceOf } from './appliances.js';
import { builtInKitchens, decode, type FileReader, joined, readBuiltIn } from './files.js';
import type { Spot } from './message.js';
import { nearest } from './nearest.js';
import { APPLIANCE_KINDS, type Appliance, type Footprint, type Kitchen, type Pan } from './problem.js';
import { listed, type Reading } from './reading.js';
import type { MealFile } from './schema.js';
import { type KitchenFile, kitchenShape, type PanEntry } from './schema-kitchen.js';
import { fitted } from './shape.js';
import { readTree } from './source.js';
import { checkName, checkNames } from './words.js';

/** The names of a kitchen, known even where the rest of it is wrong; null where a part of them is lost. */
export interface KitchenNames {
  readonly appliances: readonly string[];
  readonly burners: readonly string[];
  readonly zones: readonly { readonly zone: string; readonly appliance: string }[];
  readonly pans: readonly string[];
}

export interface ReadKitchen {
  /** Null where something in it is wrong. */
  readonly kitchen: Kitchen | null;
  readonly names: KitchenNames | null;
}

const UNKNOWN: ReadKitchen = { kitchen: null, names: null };

export function readKitchen(
  reading: Reading,
  meal: MealFile,
  file: string,
  readFile: FileReader | undefined,
): ReadKitchen {
  if (meal.kitchen === undefined) return UNKNOWN;
  if (typeof meal.kitchen === 'object') return kitchenOf(reading, meal.kitchen, 'kitchen');
  const spot = reading.at(meal, 'kitchen');
  const found = isPath(meal.kitchen)
    ? fromPath(reading, meal.kitchen, file, readFile, spot)
    : fromName(reading, meal.kitchen, spot);
  if (!found) return UNKNOWN;
  const tree = readTree(reading, found.file, found.text);
  if (!tree) return UNKNOWN;
  if ('dishes' in tree && !('appliances' in tree)) {
    reading.error('kitchen', reading.at(tree), 'This file is a meal, not a kitchen.');
    return UNKNOWN;
  }
  const entry = fitted(reading, kitchenShape, tree);
  const ending = /[^/\\]*?(?=\.[^.]*$|$)/.exec(found.file)?.[0];
  return entry ? kitchenOf(reading, entry, ending || 'kitchen') : UNKNOWN;
}

const isPath = (text: string): boolean => /[/\\]|\.[A-Za-z]+$/.test(text);

function fromPath(reading: Reading, path: string, file: string, readFile: FileReader | undefined, spot: Spot) {
  const whole = joined(file, path);
  try {
    const content = readFile?.(whole);
    if (content === undefined) throw new Error('no files here');
    const text = decode(reading, whole, content);
    return text === undefined ? undefined : { file: whole, text };
  } catch {
    reading.error(
      'kitchen',
      spot,
      `The kitchen's file ${quote(whole)} cannot be read.`,
      'a path from the folder of this file, e.g. ./kitchens/patio-grill.yaml',
    );
    return undefined;
  }
}

function fromName(reading: Reading, name: string, spot: Spot) {
  const names = builtInKitchens();
  if (!names.includes(name)) {
    reading.error(
      'kitchen',
      spot,
      `No kitchen named ${quote(name)} is built in.`,
      nearest(name, names) ?? listed(names) ?? 'a path: ./kitchen.yaml',
    );
    return undefined;
  }
  return readBuiltIn(name);
}

function kitchenOf(reading: Reading, entry: KitchenFile, fallback: string): ReadKitchen {
  const before = reading.notes.errors;
  const entries = entry.appliances ?? [];
  const panEntries = entry.pans ?? [];
  if (entry.kitchen !== undefined) checkName(reading, entry as { kitchen: string }, 'kitchen');
  checkNames(reading, entries, 'appliance', 'appliances');
  checkNames(reading, panEntries, 'pan', 'pans');
  for (const one of entries) {
    checkName(reading, one, 'appliance', ['none']);
    warnOfWord(reading, one.appliance, reading.at(one, 'appliance'));
  }
  const appliances = entries.map((one) => applianceOf(reading, one));
  const pans = panEntries.map((one) => panOf(reading, one));
  const room = reading.quantity(entry, 'room', parseTemperature)?.celsius ?? 20;
  const lost =
    reading.isBroken(entry, 'appliances') ||
    reading.isHurt(entries) ||
    reading.isHurt(panEntries) ||
    reading.isBroken(entry, 'pans');
  const names: KitchenNames = {
    appliances: entries.map((one) => one.appliance),
    burners: entries.flatMap((one) => (one.burners ?? []).map((burner) => burner.burner)),
    zones: entries.flatMap((one) => (one.zones ?? []).map(({ zone }) => ({ zone, appliance: one.appliance }))),
    pans: panEntries.map((one) => one.pan),
  };
  const whole = reading.notes.errors === before && !reading.isHurtWithin(entry);
  return {
    kitchen: whole
      ? {
          name: entry.kitchen ?? fallback,
          room,
          appliances: appliances as Appliance[],
          boards: entry.boards ?? 1,
          pans: pans as Pan[],
        }
      : null,
    names: lost ? null : names,
  };
}

/** A kind's word as a name changes what the word means in `place`. */
function warnOfWord(reading: Reading, name: string, spot: Spot): void {
  if ((APPLIANCE_KINDS as readonly string[]).includes(name)) {
    reading.warn(
      'kind-name',
      spot,
      `The appliance is named like a kind: \`place: ${name}\` means this one alone, not any ${name}.`,
      `main ${name}`,
    );
  } else if (name === 'burner' || name === 'board') {
    reading.warn('kind-name', spot, `\`place: ${name}\` means this appliance alone, not any ${name}.`, `another name`);
  }
}

function panOf(reading: Reading, entry: PanEntry): Pan | undefined {
  checkName(reading, entry, 'pan', ['none']);
  const footprint = footprintOf(reading, entry);
  const height = reading.quantity(entry, 'height', parseLength);
  const wash = reading.quantity(entry, 'wash', parseDuration) ?? 0;
  return footprint && height !== undefined
    ? { name: entry.pan, footprint, height, count: entry.count ?? 1, wash }
    : undefined;
}

function footprintOf(reading: Reading, entry: PanEntry): Footprint | undefined {
  if (entry.size !== undefined && entry.round !== undefined) {
    reading.error(
      'size',
      reading.keyAt(entry, 'round'),
      '`size` and `round` both say how large it is.',
      'leave one of the two',
    );
    return undefined;
  }
  if (entry.round !== undefined) {
    const diameter = reading.quantity(entry, 'round', parseLength);
    return diameter === undefined ? undefined : { kind: 'round', diameter };
  }
  if (entry.size === undefined && !reading.isHurt(entry)) {
    reading.error(
      'missing',
      reading.at(entry, 'pan'),
      'The size of the pan is missing here.',
      'size: 30 x 41 cm, or round: 26 cm',
    );
  }
  const size = reading.quantity(entry, 'size', parseSize);
  return size && { kind: 'rectangle', width: size.width, depth: size.depth };
}
