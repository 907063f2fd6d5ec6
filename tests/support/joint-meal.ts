/** A meal of one joint in a kitchen with a grill, an oven and a burner, as text. */

const HEAD = `format: hearthtable/1
title: Test
serve: 2026-10-03 18:30
zone: Europe/Lisbon
kitchen:
  kitchen: Test kitchen
  appliances:
    - appliance: fire
      kind: grill
      zones: [{ zone: left, size: 30 x 48 cm }, { zone: right, size: 30 x 48 cm }]
      modes: { sear: { lid: open, heat: 220-320C }, roast: { lid: closed, heat: 110-260C } }
      heats: 14C/min
      cools: 8C/min
    - appliance: wall
      kind: oven
      racks: { count: 2, size: 56 x 41 cm, height: 38 cm, clearance: 4 cm }
      modes: { roast: { heat: 75-270C }, fan: { heat: 75-250C } }
      heats: 11C/min
      cools: 4C/min
    - appliance: range
      kind: cooktop
      burners: [{ burner: front, size: 23 cm }]
  pans:
    - { pan: tin, size: 30 x 41 cm, height: 5 cm, count: 2 }
    - { pan: skillet, round: 26 cm, height: 5 cm }
dishes:
  - dish: Joint
`;
/** `piece` and each of `steps` as they stand in a dish; steps begin in line 30. */
export const jointMeal = (piece: string, steps: readonly string[], more = ''): string =>
  `${HEAD}    ${piece}\n    steps:\n${steps.map((step) => `      ${step}\n`).join('')}${more}`;
