/** What names say about food. */
import { describe, expect, it } from 'vitest';
import { foodOf } from '../../src/safety/foods.js';
import { CHICKEN, GROUND_MEAT, MEAT, TURKEY } from '../../src/safety/lethality-tables.js';
import type { CoreKind } from '../../src/safety/published.js';
import { roastOf } from './meals.js';

const of = (dish: string, food: string | null = null) => foodOf(roastOf(dish, food, null).dishes[0]!);

const CORES: readonly (readonly [dish: string, food: string | null, core: CoreKind | null])[] = [
  ['Roast chicken', null, 'poultry'],
  ['Sunday bird', 'chicken', 'poultry'],
  ['Two geese', null, 'poultry'],
  ['Crêpes with duck', null, 'poultry'],
  ['Turkey burgers', null, 'ground poultry'],
  ['Minced chicken skewers', null, 'ground poultry'],
  ['Burgers', 'beef', 'ground meat'],
  ['Cheeseburgers', null, 'ground meat'],
  ['Sausage and mash', null, 'ground meat'],
  ['Ground lamb on flatbread', null, 'ground meat'],
  ['Stuffed pork loin', null, 'stuffing'],
  ['Roast goose', 'goose with stuffing', 'stuffing'],
  ['Sage stuffing', null, 'stuffing'],
  ['Fennel pork loin', 'pork', 'pork'],
  ['Pigs in blankets', null, 'pork'],
  ['Glazed ham', null, 'raw ham'],
  ['Fully cooked ham', null, 'cooked ham'],
  ['Leg of lamb, first pair', 'lamb', 'red meat'],
  ['Rib roast', 'prime rib of beef', 'red meat'],
  ['Chicken-fried steak', 'beef', 'red meat'],
  ['Steak with mushrooms', null, 'meat'],
  ['Venison saddle', null, 'game'],
  ['Pan-fried hake', 'fish', 'fish'],
  ['Scallops on risotto', null, 'shellfish'],
  ['Fish burgers', null, 'fish'],
  ['Quiche with bacon', null, 'eggs'],
  ['Fried duck eggs', null, 'eggs'],
  ['Bean casserole', null, 'casserole'],
  // What only sounds like meat, fish or eggs.
  ['Giblet stock', null, null],
  ['Lamb gravy, second pot', null, null],
  ['Cauliflower steak', null, null],
  ['Mushroom and nut burgers', null, null],
  ['Vegan sausage rolls', null, null],
  ['Chickpeas with spinach', null, null],
  ["Lamb's lettuce", null, null],
  ['Oyster mushrooms', null, null],
  ['Stuffed mushrooms', null, null],
  ['Grilled eggplant', null, null],
  ['Gooseberry crumble', null, null],
  ['Goat cheese tart', null, null],
  ['Shaved cabbage', null, null],
  ['Mince pies', null, null],
];

describe('the published figure that a name calls for', () => {
  it.each(CORES)('%s (%s): %s', (dish, food, core) => {
    expect(of(dish, food).core).toBe(core);
  });

  it('keeps meat that stands beside a sauce', () => {
    expect(of('Chicken in cream sauce').core).toBe('poultry');
    expect(of('Sausages and gravy').core).toBe('ground meat');
    expect(of('Ribs with a dry rub').core).toBe('meat');
  });
});

describe('the published times that a name calls for', () => {
  it.each([
    ['Roast chicken', null, CHICKEN],
    ['Poussins', null, CHICKEN],
    ['Ground chicken skewers', null, CHICKEN],
    ['Turkey and chicken pie', null, TURKEY],
    ['Duck legs', null, TURKEY],
    ['Sunday bird', 'guinea fowl', TURKEY],
    ['Burgers', 'beef', GROUND_MEAT],
    ['Leg of lamb', null, MEAT],
    ['Glazed ham', null, MEAT],
    ['Rib roast', 'beef', MEAT],
    ['Roast goose', 'goose with stuffing', null],
    ['Venison saddle', null, null],
    ['Pan-fried hake', 'fish', null],
    ['Fully cooked ham', null, null],
    ['Roast roots', null, null],
  ])('%s (%s)', (dish, food, times) => {
    expect(of(dish, food).times).toBe(times);
  });

  it('knows whole muscles that nothing has opened', () => {
    const intact = (dish: string, food: string | null = null) => of(dish, food).intact;
    expect([intact('Leg of lamb'), intact('Loin', 'pork'), intact('Steak')]).toEqual([true, true, true]);
    expect([intact('Boned and rolled leg of lamb'), intact('Porchetta'), intact('Injected ham')]).toEqual([
      false,
      false,
      false,
    ]);
    expect([intact('Roast chicken'), intact('Burgers'), intact('Hake'), intact('Roots')]).toEqual([
      false,
      false,
      false,
      false,
    ]);
  });
});

describe('what spoils', () => {
  it.each([
    ['Roast chicken', 'always'],
    ['Pan gravy', 'always'],
    ['Potato gratin', 'always'],
    ['Horseradish cream', 'always'],
    ['Cucumber and yogurt', 'always'],
    ['Popovers', 'raw'],
    ['Herb rice, first pot', 'cooked'],
    ['White bean dip', 'cooked'],
    ['Red kidney bean stew', 'cooked'],
    ['Green beans with almonds', null],
    ['Rice vinegar dressing', null],
    ['Coconut milk sorbet', null],
    ['Cheese straws', null],
    ['Two apple pies', null],
    ['Cranberry relish', null],
  ])('%s: %s', (dish, perishable) => {
    expect(of(dish).perishable).toBe(perishable);
  });

  it('knows what is raw when it comes to the board', () => {
    expect(of('Giblet stock').raw).toBe(true);
    expect(of('Beans with bacon').raw).toBe(true);
    expect(of('Slow cooked pork shoulder').raw).toBe(true);
    expect(of('Ready-cooked chicken').raw).toBe(false);
    expect(of('Pan gravy').raw).toBe(false);
    expect(of('Roast roots').raw).toBe(false);
  });

  it('knows dry goods, and that a filled roll is none', () => {
    expect(of('Soft rolls').dry).toBe(true);
    expect(of('Sausage rolls').dry).toBe(false);
    expect(of('Grilled courgettes, first plate').dry).toBe(false);
  });
});
