/** The shape of a meal's file. Meaning (names, units, what fits) is read afterwards. */
import * as z from 'zod';
import { CAUTION_RULES } from './caution-rules.js';
import { CLOCKS, FADES, WORKS } from './problem.js';
import { kitchenShape } from './schema-kitchen.js';
import { count, name, oneOrMore, quantity, shape, yesNo } from './schema-parts.js';

export const FORMAT = 'hearthtable/1';

const points = (description: string) => z.number().min(0).max(1e6).optional().meta({ description });

const fades = (description: string) => z.enum(FADES).optional().meta({ description });

const heat = z
  .union([
    quantity('heat', 'A temperature or a range; on a burner low, medium or high.'),
    shape(
      'a heat',
      {
        range: quantity('temperature range', 'The temperatures that will do.'),
        ideal: quantity('temperature', "The best of them; absent: the range's middle.").optional(),
      },
      'A range of temperatures with the best of them.',
    ),
  ])
  .meta({ description: 'The temperature, or on a burner the flame: low, medium or high.' });

const minutesTable = z
  .record(z.string().regex(/^\s*-?\.?\d/), quantity('duration', 'Minutes at this temperature.'))
  .meta({ description: 'Minutes by temperature: { "160C": 47 min, "185C": 37 min }.' });

const takes = z
  .union([
    quantity('duration range', 'A duration, or a range from which the plan chooses.'),
    shape(
      'a duration with its spread',
      {
        low: quantity('duration', 'If all goes fast.').optional(),
        likely: quantity('duration', 'What is planned.'),
        high: quantity('duration', 'If all goes slowly.').optional(),
      },
      'A duration with its spread.',
    ),
    minutesTable,
  ])
  .meta({ description: 'How long it takes.' });

const minutes = z.union([quantity('duration', 'Minutes on a burner.'), minutesTable]).meta({
  description:
    'Beside `until` or `target`, where you know better than the heat model: minutes by temperature, or one duration on a burner.',
});

const until = shape(
  'an `until`',
  { core: quantity('temperature', 'Core temperature at which the piece is pulled.') },
  'It takes until the core is there: how long that is follows from `piece` and the heat. In place of `takes`.',
);

const target = quantity(
  'temperature',
  'Core temperature to which the piece shall rise in the rest that follows: it is pulled so much earlier. In place of `takes` and `until`.',
);

const hands = z
  .union([
    quantity('hands', 'All, none, or minutes at the start.'),
    shape(
      'hands',
      {
        start: quantity('duration', 'Minutes at the start.').optional(),
        end: quantity('duration', 'Minutes at the end.').optional(),
        every: quantity('duration', "Time between looks, from the step's start.").optional(),
        for: quantity('duration', 'How long each look takes; absent: 1 min.').optional(),
        cooks: count(1, 20, 'Cooks that are needed at once; absent: 1.').optional(),
      },
      'Stretches in which the step needs a cook.',
    ),
  ])
  .meta({ description: 'Attention: all, none, minutes at the start, or stretches.' });

/** What a step says and an entry of its `on` may replace. */
const terms = {
  mode: name("The appliance's mode; absent: the mode named like the work, else the first.").optional(),
  heat: heat.optional(),
  pan: name('The pan it needs; `none` in an entry takes back the one of the step.').optional(),
  pans: count(1, 20, 'How many of the pan it fills; absent: 1.').optional(),
  takes: takes.optional(),
  best: quantity('duration range', 'The part of a range in `takes` that costs nothing.').optional(),
  until: until.optional(),
  target: target.optional(),
  minutes: minutes.optional(),
  hands: hands.optional(),
};

const entry = shape(
  'an entry of `on`',
  { place: name("An appliance's name, a kind of appliance, burner, board, a burner's name, or none."), ...terms },
  'One way to do the step.',
);

const link = shape(
  'an entry of `after`',
  {
    step: name('A step of this dish, or `Dish/step`.'),
    gap: quantity('duration range', 'Time between that end and this start.').optional(),
  },
  'A step that must end first.',
);

const step = shape(
  'a step',
  {
    step: name('The name of the step.'),
    work: z.enum(WORKS).meta({ description: 'What kind of work it is.' }),
    on: oneOrMore(
      z.union([z.string(), entry]),
      'Alternatives of which the plan chooses one; absent: a board for prep and carve, else no place.',
    ).optional(),
    ...terms,
    after: oneOrMore(
      z.union([z.string(), link]),
      'Steps that must end first; absent: the step above; none: no step.',
    ).optional(),
    gap: quantity('duration range', 'Time between the end of the step before and this start.').optional(),
    keeps: quantity('duration', 'The longest wait for the next step.').optional(),
    empties: yesNo('Yes: the pan is free when the step ends.').optional(),
  },
  'One thing done to a dish.',
);

const piece = shape(
  'a piece',
  {
    food: name('What it is: pork, beef, chicken.'),
    shape: z.enum(['cylinder', 'sphere', 'slab', 'brick']).optional().meta({
      description:
        'Its shape; absent where the food says it: a roast is a cylinder, a whole bird a sphere, a steak or a chop a slab.',
    }),
    thickness: quantity('length', 'Its thickness, which is its height as it lies.').optional(),
    width: quantity('length', 'Its width.').optional(),
    length: quantity('length', 'Its length.').optional(),
    weight: quantity(
      'weight',
      'The weight of one piece. What is left out of sizes and weight follows from the others.',
    ).optional(),
    from: quantity('temperature', 'Its temperature before the first step; absent: out of the cold, 4C.').optional(),
    bone: yesNo('Yes: the bone is in.').optional(),
    crust: quantity(
      'length',
      'How thick the dough, the salt or the crumbs around it are, beyond its sizes.',
    ).optional(),
  },
  'The piece of food itself. Thickness, length and weight: any two give the third; of a bird the weight is enough.',
);

const hold = shape(
  'a hold',
  {
    heat: quantity('temperature range', 'How warm the place is.'),
    keeps: quantity('duration', 'The longest stay.').optional(),
    fades: fades('How fast it loses there; absent: as the dish does.'),
    pan: name("The pan in which it waits; absent: the dish's own.").optional(),
  },
  'The dish may wait in a warm place.',
);

const dish = shape(
  'a dish',
  {
    dish: name('The name of the dish.'),
    course: name('The course it belongs to; absent: the first.').optional(),
    served: yesNo('No: a component, which other dishes use.').optional(),
    keeps: quantity('duration', 'The longest wait after its last step that the dish stands.').optional(),
    fades: fades('How fast it loses by waiting; absent: steady.'),
    piece: piece.optional(),
    hold: hold.optional(),
    accept: oneOrMore(
      z.string().meta({ enum: [...CAUTION_RULES] }),
      'Cautions that you take on for this dish: core-unsafe lets a core below the published minimum pass. They are shown all the same.',
    ).optional(),
    steps: z
      .array(step)
      .min(1)
      .meta({ description: 'Its steps; each follows the one above it unless `after` says otherwise.' }),
  },
  'Something that lands on the table, or a component.',
);

const cook = shape(
  'a cook',
  {
    name: name('The name of the cook.'),
    can: oneOrMore(
      z.string(),
      'Kinds of work, appliances or `board`; one match is enough; absent: everything.',
    ).optional(),
    from: z.string().optional().meta({ description: 'Clock time from which the cook is there.' }),
    to: z.string().optional().meta({ description: 'Clock time until which the cook is there.' }),
  },
  'A person with two hands.',
);

const course = shape(
  'a course',
  {
    course: name('The name of the course.'),
    at: quantity('duration', "After the meal's serving time; absent: 0 min.").optional(),
  },
  'Dishes that land together.',
);

const care = shape(
  '`care`',
  {
    late: points('A minute and course that lands late (60).'),
    wait: shape(
      'the `wait` of `care`',
      { fast: points('(4)'), steady: points('(1)'), slow: points('(0.25)') },
      'A minute for which cooked food waits.',
    ).optional(),
    over: points('A minute beyond `keeps` (10).'),
    gap: points('A minute for which prepared food waits (0.02).'),
    heat: points('A °C away from the ideal and step (0.05).'),
    runs: points('A heat run of an appliance beyond its first (5).'),
    idle: points('A minute of a run with nothing in the appliance (0.01).'),
    rest: points('A minute outside of `best` (0.5).'),
    swap: points('A cook on a step beyond the number it asks for (0.5).'),
    day: points('A minute from the first step to the serving time (0.02).'),
  },
  'How dear things are, in points.',
);

const units = shape(
  '`units`',
  {
    clock: z.enum(CLOCKS).optional().meta({ description: 'How clock times are shown; absent: 24h.' }),
    heat: z
      .enum(['C', 'F'])
      .optional()
      .meta({ description: "The degrees in which heats are shown; absent: those of each appliance's dial." }),
    both: yesNo('Yes: the other degrees stand beside them in brackets.').optional(),
  },
  'In which units a plan of this meal is shown.',
);

export const mealShape = shape(
  'a meal',
  {
    format: z.literal(FORMAT).meta({ description: 'The format of this file.' }),
    title: name('The title of the meal.'),
    serve: z
      .string()
      .meta({ description: 'When it is served, by the clock of `zone`.', examples: ['2026-10-03 18:30'] }),
    zone: z.string().meta({ description: 'The time zone, an IANA name.', examples: ['Europe/Lisbon'] }),
    start: z.string().optional().meta({ description: 'Nobody begins before this; absent: 24 h before `serve`.' }),
    kitchen: z
      .union([z.string(), kitchenShape])
      .meta({ description: "A path, a built-in kitchen's name, or the kitchen itself." }),
    cooks: z
      .array(z.union([z.string(), cook]))
      .min(1)
      .optional()
      .meta({ description: 'Who cooks; absent: one cook.' }),
    courses: z
      .array(z.union([z.string(), course]))
      .min(1)
      .optional()
      .meta({ description: 'Courses; absent: one, at the serving time.' }),
    care: care.optional(),
    units: units.optional(),
    dishes: z.array(dish).min(1).meta({ description: 'What is cooked.' }),
  },
  'A meal for Hearthtable.',
);

export type MealFile = Partial<z.infer<typeof mealShape>>;
export type DishEntry = z.infer<typeof dish>;
export type StepEntry = z.infer<typeof step>;
export type PlaceEntry = z.infer<typeof entry>;
export type PieceEntry = z.infer<typeof piece>;
export type HoldEntry = z.infer<typeof hold>;
export type CookEntry = z.infer<typeof cook>;
export type CareEntry = z.infer<typeof care>;
export type Terms = Pick<
  StepEntry,
  'mode' | 'heat' | 'pan' | 'pans' | 'takes' | 'best' | 'until' | 'target' | 'minutes' | 'hands'
>;
