import { describe, expect, it } from 'vitest';
import { builtInKitchens } from '../../src/problem/files.js';
import { changed, messagesOf, problemOf, read, SMALL_SUPPER } from './support/small-supper.js';

const appliance = (index: number, ...changes: readonly (readonly [string, string])[]) =>
  problemOf(changed(...changes)).kitchen.appliances[index]!;

describe('a kitchen', () => {
  const { kitchen } = problemOf(SMALL_SUPPER);

  it('has a room, boards and pans; absent are 20C, one board, one of each pan, no washing', () => {
    expect([kitchen.name, kitchen.room, kitchen.boards]).toEqual(['Garden and one wall', 21, 2]);
    expect(kitchen.pans).toEqual([
      {
        name: 'roasting pan',
        footprint: { kind: 'rectangle', width: 0.3, depth: 0.41 },
        height: 0.09,
        count: 1,
        wash: 5,
      },
      { name: 'skillet', footprint: { kind: 'round', diameter: 0.26 }, height: 0.05, count: 1, wash: 0 },
      {
        name: 'half sheet',
        footprint: { kind: 'rectangle', width: 0.33, depth: 0.46 },
        height: 0.03,
        count: 2,
        wash: 0,
      },
    ]);
    const bare = problemOf(
      changed(['  room: 21C\n', ''], ['  boards: 2\n', ''], ['  kitchen: Garden and one wall\n', '']),
    ).kitchen;
    expect([bare.name, bare.room, bare.boards]).toEqual(['kitchen', 20, 1]);
  });

  it('has a grate whose zones stand from left to right', () => {
    expect(kitchen.appliances[0]).toEqual({
      name: 'garden grill',
      kind: 'grill',
      surface: {
        kind: 'grate',
        zones: [
          { name: 'left', x: 0, width: 0.3, depth: 0.48 },
          { name: 'right', x: 0.3, width: 0.3, depth: 0.48 },
        ],
        round: null,
      },
      modes: [
        { name: 'sear', lid: 'open', heat: { low: 220, high: 320 }, lit: [], height: null },
        { name: 'roast', lid: 'closed', heat: { low: 110, high: 260 }, lit: ['right'], height: 0.22 },
      ],
      heats: 14,
      cools: 8,
      dial: { unit: 'C', step: 5 },
    });
  });

  it('has racks that share a cavity; clearance absent is none', () => {
    expect(kitchen.appliances[1]!.surface).toEqual({
      kind: 'racks',
      count: 2,
      width: 0.56,
      depth: 0.41,
      height: 0.38,
      clearance: 0.04,
    });
    expect(appliance(1, [', clearance: 4 cm', '']).surface).toMatchObject({ clearance: 0 });
  });

  it('has burners that carry pans up to 5 cm wider, unless they say otherwise', () => {
    const carries = (said: string) => {
      const { surface } = appliance(2, ['{ burner: front, size: 23 cm }', `{ burner: front, size: 23 cm${said} }`]);
      return surface.kind === 'burners' && surface.burners[0]!.carries;
    };
    expect(carries('')).toEqual({ low: 0, high: 0.28 });
    expect(carries(', carries: 16-30 cm')).toEqual({ low: 0.16, high: 0.3 });
    expect(carries(', carries: 30 cm')).toEqual({ low: 0, high: 0.3 });
    expect(kitchen.appliances[2]).toMatchObject({
      modes: [],
      heats: Number.POSITIVE_INFINITY,
      cools: Number.POSITIVE_INFINITY,
    });
  });

  it('may have a round grate, whole or in strips', () => {
    const zones = '      zones: [{ zone: left, size: 30 x 48 cm }, { zone: right, size: 30 x 48 cm }]\n';
    const cut = ['lit: [right], ', ''] as const;
    expect(appliance(0, [zones, '      round: 57 cm\n'], cut).surface).toEqual({
      kind: 'grate',
      zones: [{ name: 'grate', x: 0, width: 0.57, depth: 0.57 }],
      round: 0.57,
    });
    const strips =
      '      round: 57 cm\n      zones: [{ zone: left, width: 20 cm }, { zone: right, size: 37 x 57 cm }]\n';
    expect(appliance(0, [zones, strips]).surface).toEqual({
      kind: 'grate',
      zones: [
        { name: 'left', x: 0, width: 0.2, depth: 0.57 },
        { name: 'right', x: 0.2, width: 0.37, depth: 0.57 },
      ],
      round: 0.57,
    });
  });

  it('may have a warming drawer and a grill with racks', () => {
    const drawer =
      '    - appliance: plate drawer\n      kind: warming drawer\n      racks: { count: 1, size: 50 x 45 cm, height: 20 cm }\n      modes: { warm: { heat: 30-80C } }\n      heats: 3C/min\n      cools: 1C/min\n';
    const smoker =
      '    - appliance: smoker\n      kind: grill\n      racks: { count: 3, size: 50 x 45 cm, height: 60 cm }\n      modes: { smoke: { heat: 90-150C } }\n      heats: 3C/min\n      cools: 1C/min\n';
    expect(appliance(3, ['  boards: 2\n', `${drawer}${smoker}  boards: 2\n`])).toMatchObject({
      kind: 'warming drawer',
      surface: { kind: 'racks' },
    });
    expect(appliance(4, ['  boards: 2\n', `${drawer}${smoker}  boards: 2\n`])).toMatchObject({
      kind: 'grill',
      surface: { kind: 'racks' },
    });
  });

  it('reads rates and heats in °F', () => {
    const oven = appliance(
      1,
      ['heats: 11C/min', 'heats: 18F/min'],
      ['roast: { heat: 75-270C }', 'roast: { heat: 170-500F }'],
    );
    expect(oven.heats).toBeCloseTo(10, 12);
    expect(oven.modes[0]!.heat).toEqual({ low: (170 - 32) / 1.8, high: 260 });
    expect(oven.dial).toEqual({ unit: 'F', step: 5 });
  });

  it('draws a warning where an appliance is named like a kind or like a place', () => {
    const warned = (name: string, kind: string) =>
      messagesOf(changed([`appliance: ${name}`, `appliance: ${kind}`])).map(({ severity, line, column, code }) => [
        severity,
        line,
        column,
        code,
      ]);
    expect(warned('wall oven', 'oven')).toEqual([['warning', 19, 18, 'kind-name']]);
    expect(warned('range', 'burner')).toEqual([['warning', 25, 18, 'kind-name']]);
  });
});

describe('a kitchen that comes with the package', () => {
  it.each(builtInKitchens())('%s can be named, and is right', (name) => {
    const text = SMALL_SUPPER.replace(/kitchen:\n(?: .*\n)+/, `kitchen: ${name}\n`);
    const result = read(text);
    const own = (result.ok ? result.warnings : result.messages).filter((message) => message.file !== 'supper.yaml');
    expect(own).toEqual([]);
    expect([...result.texts.keys()]).toEqual(['supper.yaml', `problems/kitchens/${name}.yaml`]);
  });

  it('is suggested where its name is misspelt', () => {
    expect(builtInKitchens()).toEqual(expect.arrayContaining(['family-oven', 'patio-grill', 'village-hall']));
    const text = SMALL_SUPPER.replace(/kitchen:\n(?: .*\n)+/, 'kitchen: patio-gril\n');
    expect(messagesOf(text)).toMatchObject([
      { line: 6, column: 10, say: 'No kitchen named `patio-gril` is built in.', hint: 'patio-grill' },
    ]);
  });
});
