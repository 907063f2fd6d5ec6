/**
 * What a name says about food, in English words. Singular words match their plurals; several words match in a row. The
 * lists are ours, from common kitchen language, and no publication's. A food that no word knows is not taken for safe where a
 * figure matters.
 */

/** Names that hold a food's word and are something else; the second is what they stand for. */
const LOOKALIKES: readonly (readonly [phrase: string, stands: string])[] = [
  ['lambs lettuce', ''],
  ['beef tomato', ''],
  ['beefsteak tomato', ''],
  ['chicken of the woods', ''],
  ['hen of the woods', ''],
  ['oyster mushroom', ''],
  ['oyster sauce', ''],
  ['fish sauce', ''],
  ['crab apple', ''],
  ['duck egg', 'egg'],
  ['quail egg', 'egg'],
  ['hen egg', 'egg'],
  ['hens egg', 'egg'],
  ['goose egg', 'egg'],
  ['goose fat', ''],
  ['duck fat', ''],
  ['egg noodle', 'noodle'],
  ['egg wash', ''],
  ['goats cheese', 'cheese'],
  ['goat cheese', 'cheese'],
  ['goats curd', 'ricotta'],
  ['kidney bean', 'white bean'],
  ['mince pie', ''],
  ['parma ham', ''],
  ['serrano ham', ''],
  ['iberico ham', ''],
  ['welsh rabbit', 'cheese'],
  ['rice paper', ''],
  ['rice vinegar', ''],
  ['rice wine', ''],
  ['rice noodle', 'noodle'],
  ['rice cake', ''],
  ['potato bread', 'bread'],
  ['potato roll', 'bread'],
  ['potato crisp', ''],
  ['potato chip', ''],
  ['potato starch', ''],
  ['pasta dough', ''],
  ['coconut milk', ''],
  ['coconut cream', ''],
  ['almond milk', ''],
  ['oat milk', ''],
  ['soy milk', ''],
  ['oat cream', ''],
  ['milk chocolate', ''],
  ['milk bread', 'bread'],
  ['ice cream', ''],
  ['cream cracker', ''],
  ['cream of tartar', ''],
  ['cheese straw', 'bread'],
  ['cheese biscuit', 'bread'],
  ['cheese cracker', 'bread'],
  ['cheese scone', 'bread'],
  ['cheese bread', 'bread'],
  ['bean sprout', ''],
  ['vanilla bean', ''],
  ['coffee bean', ''],
  ['cocoa bean', ''],
];

const CHICKEN = 'chicken, capon, cockerel, poussin, coq au vin';
const OTHER_POULTRY =
  'poultry, turkey, duck, duckling, goose, geese, hen, guinea fowl, fowl, quail, pheasant, partridge, pigeon, squab, grouse, giblet, drumstick';

export const WORDS = {
  poultry: `${CHICKEN}, ${OTHER_POULTRY}`,
  chicken: CHICKEN,
  otherPoultry: OTHER_POULTRY,
  red: 'beef, veal, lamb, mutton, hogget, sirloin, ribeye, rib eye, rib roast, prime rib, short rib, brisket, rump, entrecote, filet mignon, chateaubriand, bavette, onglet, oxtail, ossobuco, osso buco',
  pork: 'pork, porchetta, pig, hog, spare rib, carnitas',
  ham: 'ham, gammon',
  game: 'venison, deer, elk, moose, reindeer, caribou, antelope, bison, rabbit, hare, boar, bear, game pie, game stew',
  /** Raw meat without a figure of its own: thin slices, cooked crisp. */
  streaky: 'bacon, pancetta, lardon, guanciale',
  fish: 'fish, hake, cod, salmon, trout, tuna, haddock, halibut, turbot, sole, plaice, bass, bream, mackerel, sardine, herring, monkfish, pollock, snapper, tilapia, eel, swordfish, carp, perch, pike, whiting, coley, skate, catfish, fishcake',
  shellfish:
    'shellfish, seafood, prawn, shrimp, scallop, mussel, clam, oyster, lobster, crab, squid, calamari, octopus, langoustine, crayfish, cockle, crabcake',
  /** Meat, whatever stands beside it. */
  meat: 'meat, goat, pot roast, mixed grill, liver, offal, sweetbread, tongue, goulash',
  /** Meat, unless a plant's word stands right before it: cauliflower steak. */
  cuts: 'steak, chops, cutlet, rib, loin, tenderloin, kebab, schnitzel, shank',
  ground:
    'burger, hamburger, cheeseburger, meatball, meatloaf, meat loaf, mince, kofta, kofte, patty, sausage, bratwurst, bolognese, ragu, cottage pie, shepherds pie, moussaka, pate, terrine',
  plants:
    'bean, lentil, chickpea, mushroom, portobello, cauliflower, celeriac, cabbage, beetroot, aubergine, eggplant, courgette, vegetable, nut, tofu, tempeh, seitan, halloumi, jackfruit',
  /** Meat of another word, made as risky as ground meat. */
  groundBy: 'ground, minced, tenderised, tenderized',
  /** Its outside has been brought inside, by a knife, a needle or by rolling it up. */
  opened:
    'rolled, roulade, boned, deboned, butterflied, stuffed, filled, injected, pierced, larded, porchetta, minute steak',
  /** No meat and no fish in it. */
  meatless: 'vegan, vegetarian, veggie, meatless, plant based',
  stuffed: 'stuffed',
  stuffing: 'stuffing, forcemeat',
  leftover: 'leftover, left over, reheated, reheat',
  /** Bought or left over cooked; `slow cooked` is not. */
  cooked: 'precooked, pre cooked, fully cooked, ready cooked, cooked ham, ready to eat, reheated, leftover, left over',
  casserole: 'casserole',
  egg: 'egg, carbonara, hollandaise, bearnaise, sabayon, zabaglione, mayonnaise, mayo, aioli',
  /** Beaten egg all through, whatever else is in it. */
  eggDish: 'omelette, omelet, frittata, quiche, custard, souffle, shakshuka, strata, cheesecake, creme brulee',
  /** Meat's juices without the meat. */
  gravy: 'gravy, jus',
  stock: 'stock, broth, bouillon, consomme',
  sauce: 'sauce, dressing, vinaigrette, marinade, rub, glaze',
  dairy:
    'cream, creme, milk, yogurt, yoghurt, cheese, ricotta, mascarpone, mozzarella, burrata, feta, halloumi, paneer, labneh, tzatziki, raita, gratin, bechamel, panna cotta, posset, trifle, tiramisu, creamed, mousse, pumpkin pie, fondue',
  /** Perishable until it is baked. */
  batter: 'batter, popover, pancake, crepe, waffle, yorkshire pudding, clafoutis',
  /** Perishable once it is cooked. */
  starch:
    'rice, risotto, pilaf, pilau, paella, biryani, congee, pasta, spaghetti, macaroni, penne, tagliatelle, lasagne, lasagna, gnocchi, noodle, lentil, chickpea, hummus, dal, dhal, potato, mash, white bean, black bean, butter bean, baked bean, refried bean, bean stew, bean dip, bean salad, bean soup, bean chili, bean chilli, cassoulet',
  /** Keeps at any warmth. */
  dry: 'bread, loaf, loaves, roll, bun, focaccia, flatbread, pita, naan, toast, biscuit, cookie, scone, cracker, pastry, cake, popover, nut, meringue',
} as const satisfies Record<string, string>;

export type WordList = keyof typeof WORDS;

/** The words of a name, lower case, without accents and apostrophes; lookalikes are replaced by what they stand for. */
export function tokensOf(name: string): readonly string[] {
  const plain = name.toLowerCase().normalize('NFD').replace(/\p{M}/gu, '').replaceAll('œ', 'oe').replace(/['’]/g, '');
  let tokens = plain.split(/[^a-z0-9]+/).filter((token) => token !== '');
  for (const [phrase, stands] of LOOKALIKE_TOKENS) {
    for (let at = found(tokens, phrase); at >= 0; at = found(tokens, phrase, at + stands.length))
      tokens = [...tokens.slice(0, at), ...stands, ...tokens.slice(at + phrase.length)];
  }
  return tokens;
}

/** True where one of the list's words, or words in a row, is among the tokens; not counted right after one of `unless`. */
export function speaksOf(tokens: readonly string[], list: WordList, unless?: WordList): boolean {
  return LISTS[list].some((phrase) => {
    for (let at = found(tokens, phrase); at >= 0; at = found(tokens, phrase, at + 1))
      if (unless === undefined || at === 0 || !speaksOf([tokens[at - 1]!], unless)) return true;
    return false;
  });
}

/** What the name is first of all: the words before the first comma, `in`, `on`, `with`, `and` or the like. */
export const headOf = (name: string): readonly string[] =>
  tokensOf(name.split(/[,(;:]|\s(?:in|on|with|and|under|over|for)\s|&|\+/i)[0]!);

/** The place where the phrase begins, from a place on; -1 without any. */
function found(tokens: readonly string[], phrase: readonly string[], from = 0): number {
  for (let at = from; at + phrase.length <= tokens.length; at++)
    if (phrase.every((word, k) => sameWord(tokens[at + k]!, word))) return at;
  return -1;
}

const sameWord = (token: string, word: string): boolean =>
  token === word ||
  token === `${word}s` ||
  token === `${word}es` ||
  (word.endsWith('y') && token === `${word.slice(0, -1)}ies`);

const split = (phrase: string): readonly string[] => phrase.split(' ').filter((word) => word !== '');

const LOOKALIKE_TOKENS = LOOKALIKES.map(([phrase, stands]) => [split(phrase), split(stands)] as const);

const LISTS = Object.fromEntries(
  Object.entries(WORDS).map(([name, list]) => [name, list.split(', ').map(split)]),
) as unknown as Readonly<Record<WordList, readonly (readonly string[])[]>>;
