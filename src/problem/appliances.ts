/** Appliances of a kitchen, from their entries in the file. */
import { parseLength, parseLengthSpan, parseSize, toMicrometre } from '../units/length.js';
import { quote } from '../units/measure.js';
import { showLength } from '../units/show.js';
import { parseDial, parseRate, parseTemperatureSpan } from '../units/temperature.js';
import { nearest } from './nearest.js';
import type { Appliance, Burners, Dial, Grate, Mode, Racks } from './problem.js';
import { listed, type Reading } from './reading.js';
import type { ApplianceEntry, ModeEntry } from './schema-kitchen.js';
import { checkName, checkNames } from './words.js';

/** By how much a pan may be wider than its burner unless `carries` says otherwise, metres. */
const OVERHANG = 0.05;

const asList = <T>(one: T | T[] | undefined): T[] => (one === undefined ? [] : Array.isArray(one) ? one : [one]);

/** The appliance, or undefined after saying what is wrong with it. */
export function applianceOf(reading: Reading, entry: ApplianceEntry): Appliance | undefined {
  const before = reading.notes.errors;
  const surface = surfaceOf(reading, entry);
  const heated =
    surface?.kind === 'burners' ? { modes: [], heats: Infinity, cools: Infinity } : heatedOf(reading, entry, surface);
  const dial = reading.quantity(entry, 'dial', parseDial) ?? usualDial(entry);
  if (!surface || !heated || reading.notes.errors > before) return undefined;
  return { name: entry.appliance, kind: entry.kind, surface, ...heated, dial };
}

/** 5F where a heat is written in F, else 5C. */
function usualDial(entry: ApplianceEntry): Dial {
  const inFahrenheit = Object.values(entry.modes ?? {}).some((mode) => {
    const span = parseTemperatureSpan(mode.heat);
    return span.ok && span.value.degree === 'F';
  });
  return { unit: inFahrenheit ? 'F' : 'C', step: 5 };
}

type SurfaceKey = 'zones' | 'racks' | 'burners';
const SURFACES: Readonly<Record<ApplianceEntry['kind'], readonly SurfaceKey[]>> = {
  grill: ['zones', 'racks'],
  oven: ['racks'],
  cooktop: ['burners'],
  'warming drawer': ['racks'],
};

function surfaceOf(reading: Reading, entry: ApplianceEntry): Grate | Racks | Burners | undefined {
  const fitting = SURFACES[entry.kind];
  const article = entry.kind === 'oven' ? 'An' : 'A';
  const written = (['zones', 'round', 'racks', 'burners'] as const).filter((key) => entry[key] !== undefined);
  for (const key of written) {
    if (fitting.includes(key === 'round' ? 'zones' : key)) continue;
    reading.error(
      'surface',
      reading.keyAt(entry, key),
      `${article} ${entry.kind} has no \`${key}\`.`,
      fitting.join(' or '),
    );
  }
  if (entry.racks && (entry.zones || entry.round !== undefined)) {
    reading.error(
      'surface',
      reading.keyAt(entry, 'racks'),
      'A grill has zones or racks, not both.',
      'make two appliances of it',
    );
    return undefined;
  }
  if (entry.kind === 'cooktop') return entry.burners ? burnersOf(reading, entry) : lacks(reading, entry, fitting);
  if (entry.racks) return racksOf(reading, entry);
  return entry.kind === 'grill' && (entry.zones || entry.round !== undefined)
    ? grateOf(reading, entry)
    : lacks(reading, entry, fitting);
}

function lacks(reading: Reading, entry: ApplianceEntry, keys: readonly SurfaceKey[]): undefined {
  if (reading.isHurt(entry)) return;
  reading.error(
    'missing',
    reading.at(entry, 'appliance'),
    `\`${keys[0]}\` is missing here: where the food stands.`,
    keys.join(' or '),
  );
}

function grateOf(reading: Reading, entry: ApplianceEntry): Grate | undefined {
  const round = entry.round === undefined ? null : reading.quantity(entry, 'round', parseLength);
  if (round === undefined) return undefined;
  const zones: Grate['zones'][number][] = [];
  if (!entry.zones) return { kind: 'grate', zones: [{ name: 'grate', x: 0, width: round!, depth: round! }], round };
  checkNames(reading, entry.zones, 'zone', 'zones');
  let x = 0;
  for (const zone of entry.zones) {
    checkName(reading, zone, 'zone');
    const size = zone.size !== undefined ? reading.quantity(zone, 'size', parseSize) : stripOf(reading, zone, round);
    if (!size) continue;
    if (round !== null && Math.abs(size.depth - round) > 1e-4) {
      reading.error(
        'surface',
        reading.at(zone, 'size'),
        `A zone of a round grate is a strip as deep as the grate, ${showLength(round)}.`,
        `width: ${showLength(size.width)}`,
      );
    }
    zones.push({ name: zone.zone, x, width: size.width, depth: round ?? size.depth });
    x = toMicrometre(x + size.width);
  }
  if (round !== null && x > round + 1e-9) {
    reading.error(
      'surface',
      reading.keyAt(entry, 'zones'),
      `The strips are ${showLength(x)} wide together, the round grate ${showLength(round)}.`,
    );
  }
  return { kind: 'grate', zones, round };
}

function stripOf(reading: Reading, zone: object & { width?: string | number | undefined }, round: number | null) {
  if (zone.width === undefined || round === null) {
    const hint = round === null ? 'size: 28 x 46 cm' : 'width: 19 cm';
    if (!reading.isHurt(zone))
      reading.error('missing', reading.at(zone, 'zone'), 'The size of the zone is missing here.', hint);
    return undefined;
  }
  const width = reading.quantity(zone, 'width', parseLength);
  return width === undefined ? undefined : { width, depth: round };
}

function racksOf(reading: Reading, entry: ApplianceEntry): Racks | undefined {
  const racks = entry.racks!;
  const size = reading.quantity(racks, 'size', parseSize);
  const height = reading.quantity(racks, 'height', parseLength);
  const clearance = reading.quantity(racks, 'clearance', parseLength) ?? 0;
  if (!size || height === undefined) return undefined;
  if (clearance >= height)
    reading.error(
      'surface',
      reading.at(racks, 'clearance'),
      `The clearance leaves nothing of the height, ${showLength(height)}.`,
    );
  return { kind: 'racks', count: racks.count, ...size, height, clearance };
}

function burnersOf(reading: Reading, entry: ApplianceEntry): Burners {
  checkNames(reading, entry.burners!, 'burner', 'burners');
  for (const key of ['modes', 'heats', 'cools', 'dial'] as const) {
    if (entry[key] !== undefined)
      reading.error(
        'surface',
        reading.keyAt(entry, key),
        `A cooktop has no \`${key}\`: each burner has its own flame.`,
      );
  }
  const burners = entry.burners!.map((burner) => {
    checkName(reading, burner, 'burner', ['none']);
    const size = reading.quantity(burner, 'size', parseLength) ?? 0;
    const said = reading.quantity(burner, 'carries', parseLengthSpan);
    const high = said?.high ?? toMicrometre(size + OVERHANG);
    return { name: burner.burner, size, carries: { low: said && said.low < said.high ? said.low : 0, high } };
  });
  return { kind: 'burners', burners };
}

function heatedOf(reading: Reading, entry: ApplianceEntry, surface: Grate | Racks | undefined) {
  const names = reading.keysOf(entry.modes ?? {});
  if (names.length === 0 && !reading.isHurt(entry)) {
    reading.error(
      'missing',
      reading.at(entry, 'modes'),
      'The modes are missing here: at which heats it is used.',
      'modes: { roast: { heat: 75-270C } }',
    );
  }
  if (entry.kind === 'warming drawer' && names.length > 1) {
    reading.error('surface', reading.keyAt(entry, 'modes'), 'A warming drawer has one mode.');
  }
  const modes = names.map((name) => modeOf(reading, entry.modes!, name, surface));
  const [heats, cools] = (['heats', 'cools'] as const).map((key) => {
    if (entry[key] === undefined && !reading.isHurt(entry)) {
      const say =
        key === 'heats'
          ? '`heats` is missing here: how fast it gets hotter.'
          : '`cools` is missing here: how fast it gets cooler.';
      reading.error(
        'missing',
        reading.at(entry, 'appliance'),
        say,
        key === 'heats' ? 'heats: 11C/min' : 'cools: 4C/min',
      );
    }
    return reading.quantity(entry, key, parseRate);
  });
  if (heats === undefined || cools === undefined || modes.includes(undefined)) return undefined;
  return { modes: modes as Mode[], heats, cools };
}

function modeOf(
  reading: Reading,
  modes: Record<string, ModeEntry>,
  name: string,
  surface: Grate | Racks | undefined,
): Mode | undefined {
  const entry = modes[name]!;
  const heat = reading.quantity(entry, 'heat', parseTemperatureSpan);
  const height = reading.quantity(entry, 'height', parseLength) ?? null;
  const zones = surface?.kind === 'grate' ? surface.zones.map((zone) => zone.name) : [];
  const lit = asList(entry.lit);
  for (const [index, zone] of lit.entries()) {
    if (!surface || zones.includes(zone)) continue;
    const spot = Array.isArray(entry.lit) ? reading.at(entry.lit, index) : reading.at(entry, 'lit');
    reading.error('unknown-zone', spot, `There is no zone ${quote(zone)} here.`, nearest(zone, zones) ?? listed(zones));
  }
  if (zones.length > 0 && zones.every((zone) => lit.includes(zone))) {
    reading.error(
      'surface',
      reading.at(entry, 'lit'),
      'Every zone is lit in this mode, so that nothing may stand anywhere.',
      'leave `lit` out where food may stand above the fire',
    );
  }
  return heat && { name, lid: entry.lid ?? null, heat: { low: heat.low, high: heat.high }, lit, height };
}
