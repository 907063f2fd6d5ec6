/** The shape of a kitchen, in a file of its own or inside a meal. */
import * as z from 'zod';
import { APPLIANCE_KINDS } from './problem.js';
import { count, name, oneOrMore, quantity, shape } from './schema-parts.js';

const mode = shape(
  'a mode',
  {
    lid: z.enum(['open', 'closed']).optional().meta({ description: 'How the lid stands in this mode.' }),
    heat: quantity('temperature range', 'The temperatures that can be set in this mode.'),
    lit: oneOrMore(z.string(), 'Zones that burn in this mode and hold no pan.').optional(),
    height: quantity('length', 'The tallest load in this mode.').optional(),
  },
  'A way to use an appliance.',
);

const zone = shape(
  'a zone',
  {
    zone: name('The name of the zone.'),
    size: quantity('size', 'Width (left to right) x depth.').optional(),
    width: quantity('length', 'The width of a strip of a round grate.').optional(),
  },
  'A part of a grate; zones stand left to right and neighbours join.',
);

const racks = shape(
  'racks',
  {
    count: count(1, 12, 'How many levels there are; level 1 is the lowest.'),
    size: quantity('size', 'Width x depth of a rack.'),
    height: quantity('length', 'The height of the cavity, shared by all loaded levels.'),
    clearance: quantity('length', 'Free height above the tallest load of each loaded level; absent: none.').optional(),
  },
  'The racks of an oven or a warming drawer.',
);

const burner = shape(
  'a burner',
  {
    burner: name('The name of the burner.'),
    size: quantity('length', 'Its diameter.'),
    carries: quantity(
      'length range',
      "Pans it carries, by their narrower side; one length: up to it; absent: up to 5 cm above the burner's size.",
    ).optional(),
  },
  'A burner of a cooktop.',
);

const appliance = shape(
  'an appliance',
  {
    appliance: name('The name of the appliance.'),
    kind: z.enum(APPLIANCE_KINDS).meta({ description: 'What it is.' }),
    zones: z.array(zone).min(1).optional().meta({ description: 'The zones of a grate, left to right.' }),
    round: quantity('length', 'The diameter of a round grate, of which the zones are strips.').optional(),
    racks: racks.optional(),
    burners: z.array(burner).min(1).optional().meta({ description: 'The burners of a cooktop.' }),
    modes: z
      .record(z.string(), mode)
      .optional()
      .meta({ description: 'Its modes by name; the first is used where none is named.' }),
    heats: quantity('rate', 'How fast it gets hotter.').optional(),
    cools: quantity('rate', 'How fast it gets cooler.').optional(),
    dial: quantity('dial', 'The step of its dial; absent: 5F where its heats are written in F, else 5C.').optional(),
  },
  'A source of heat whose places share one temperature, or a cooktop.',
);

const pan = shape(
  'a pan',
  {
    pan: name('The name of the pan.'),
    size: quantity('size', 'Width x depth of a rectangular pan.').optional(),
    round: quantity('length', 'The diameter of a round pan.').optional(),
    height: quantity('length', 'Its height.'),
    count: count(1, 99, 'How many there are; absent: 1.').optional(),
    wash: quantity('duration', 'How long it is away for washing after use; absent: 0 min.').optional(),
  },
  'A kind of pan.',
);

export const kitchenShape = shape(
  'a kitchen',
  {
    kitchen: name('The name of the kitchen.').optional(),
    room: quantity('temperature', 'Room temperature; absent: 20C.').optional(),
    appliances: z.array(appliance).meta({ description: 'Sources of heat.' }),
    boards: count(0, 20, 'How many boards there are to work at; absent: 1.').optional(),
    pans: z.array(pan).optional().meta({ description: 'Cookware.' }),
  },
  'Appliances, boards and pans.',
);

export type KitchenFile = Partial<z.infer<typeof kitchenShape>>;
export type ApplianceEntry = z.infer<typeof appliance>;
export type ModeEntry = z.infer<typeof mode>;
export type PanEntry = z.infer<typeof pan>;
