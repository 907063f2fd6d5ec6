/** Random kitchens: ovens, grills, cooktops, drawers, pans; larger for more dishes. */
import type { Random } from './random.js';

export type Fields = Record<string, unknown>;

/** Writes quantities in metric or in US units; both are exact for whole multiples of 5 °C. */
export class Units {
  constructor(readonly us: boolean) {}

  temperature(celsius: number): string {
    return this.us ? `${celsius * 1.8 + 32}F` : `${celsius}C`;
  }

  range(low: number, high: number): string {
    return this.us ? `${low * 1.8 + 32}-${high * 1.8 + 32}F` : `${low}-${high}C`;
  }

  length(centimetres: number): string {
    return this.us ? `${Math.round(centimetres / 0.254) / 10} in` : `${centimetres} cm`;
  }

  size(width: number, depth: number): string {
    return `${this.length(width)} x ${this.length(depth)}`;
  }

  rate(perMinute: number): string {
    return this.us ? `${Math.round(perMinute * 1.8)}F/min` : `${perMinute}C/min`;
  }

  weight(kilograms: number): string {
    return this.us ? `${Math.round(kilograms * 22.05) / 10} lb` : `${kilograms} kg`;
  }
}

export interface RandomKitchen {
  readonly fields: Fields;
  readonly grill: boolean;
  readonly drawer: boolean;
  /** Oven levels, for judging how long a meal takes. */
  readonly levels: number;
  readonly burners: number;
}

export const minutes = (value: number): string => `${value} min`;

function oven(random: Random, units: Units, name: string): { fields: Fields; levels: number } {
  const [width, depth, height, count] = random.pick([
    [46, 38, 32, 2],
    [57, 41, 38, 2],
    [61, 41, 42, 3],
    [57, 47, 48, 4],
  ] as const);
  const racks = {
    count,
    size: units.size(width, depth),
    height: units.length(height),
    clearance: units.length(random.pick([3, 4, 5])),
  };
  const modes: Fields = { roast: { heat: units.range(60, 260) } };
  if (random.chance(0.4)) modes.fan = { heat: units.range(60, 230) };
  const pace = { heats: units.rate(random.int(8, 15)), cools: units.rate(random.int(3, 8)) };
  const dial = random.chance(0.3) ? { dial: units.us ? '25F' : '10C' } : {};
  return { fields: { appliance: name, kind: 'oven', racks, modes, ...pace, ...dial }, levels: count };
}

function grill(random: Random, units: Units, name: string): Fields {
  const pace = { heats: units.rate(random.int(10, 16)), cools: units.rate(random.int(5, 10)) };
  const sear = { lid: 'open', heat: units.range(220, 320) };
  const roast = { lid: 'closed', heat: units.range(110, 260), height: units.length(24) };
  if (random.chance(0.25)) {
    const strips = ['left', 'right'].map((zone) => ({ zone, width: units.length(28) }));
    return { appliance: name, kind: 'grill', round: units.length(57), zones: strips, modes: { sear, roast }, ...pace };
  }
  const zones = ['left', 'middle', 'right'].map((zone) => ({ zone, size: units.size(29, 48) }));
  const lit = random.pick([['right'], ['left'], ['middle']]);
  return { appliance: name, kind: 'grill', zones, modes: { sear, roast: { ...roast, lit } }, ...pace };
}

function cooktop(random: Random, units: Units, name: string): { fields: Fields; burners: number } {
  const sizes = [24, 21, 18, 18, 14].slice(0, random.int(2, 5));
  const burners = sizes.map((size, k) => ({ burner: `${name} ${k + 1}`, size: units.length(size) }));
  return { fields: { appliance: name, kind: 'cooktop', burners }, burners: sizes.length };
}

const drawer = (random: Random, units: Units): Fields => ({
  appliance: 'low drawer',
  kind: 'warming drawer',
  racks: { count: 1, size: units.size(58, 48), height: units.length(22), clearance: units.length(2) },
  modes: { keep: { heat: units.range(50, 95) } },
  heats: units.rate(random.int(4, 8)),
  cools: units.rate(random.int(2, 4)),
});

/** Every pan fits every oven, and every round pan some burner. */
function pans(random: Random, units: Units, dishes: number): Fields[] {
  const more = Math.ceil(dishes / 6);
  const wash = (): Fields => (random.chance(0.7) ? { wash: minutes(random.int(2, 8)) } : {});
  const flat = (pan: string, width: number, depth: number, height: number, count: number): Fields => {
    return { pan, size: units.size(width, depth), height: units.length(height), count, ...wash() };
  };
  const round = (pan: string, diameter: number, height: number, count: number): Fields => {
    return { pan, round: units.length(diameter), height: units.length(height), count, ...wash() };
  };
  return [
    flat('half sheet', 33, 45.7, 2.5, 2 * more),
    flat('quarter sheet', 22.9, 33, 2.5, 1 + more),
    flat('baking dish', 22.9, 33, 6, 1 + more),
    flat('roasting pan', 30.5, 40.6, 7.5, more),
    round('pie dish', 24, 4, 1 + more),
    round('casserole', 25, 13, more),
    round('pot', 24, 16, more),
    round('saucepan', 18, 11, 1 + more),
    round('skillet', 26, 5, more),
  ];
}

export function randomKitchen(random: Random, units: Units, dishes: number): RandomKitchen {
  const appliances: Fields[] = [];
  let levels = 0;
  let burners = 0;
  for (let k = 0; k < 1 + Math.floor(dishes / 10); k++) {
    const made = oven(random, units, `oven ${k + 1}`);
    appliances.push(made.fields);
    levels += made.levels;
  }
  const grills = (random.chance(0.5) ? 1 : 0) + Math.floor(dishes / 40);
  for (let k = 0; k < grills; k++) appliances.push(grill(random, units, `grill ${k + 1}`));
  for (let k = 0; k < 1 + Math.floor(dishes / 14); k++) {
    const made = cooktop(random, units, `hob ${k + 1}`);
    appliances.push(made.fields);
    burners += made.burners;
  }
  const warm = random.chance(0.3);
  if (warm) appliances.push(drawer(random, units));
  const room = random.chance(0.5) ? { room: units.temperature(random.pick([15, 20, 25])) } : {};
  const boards = Math.min(20, random.int(1, 2) + Math.floor(dishes / 6));
  const fields = { kitchen: 'Random kitchen', ...room, appliances, boards, pans: pans(random, units, dishes) };
  return { fields, grill: grills > 0, drawer: warm, levels, burners };
}
