/** Why the model misses a row of a timetable, as far as it can be said. */
import type { Row } from './timetable.js';

interface Reason {
  readonly species: RegExp;
  readonly cut: RegExp;
  readonly say: string;
}

const REASONS: readonly Reason[] = [
  {
    species: /lamb/,
    cut: /leg/,
    say: 'two tables of one government disagree: 10 to 15 and 15 to 20 min/lb for the same leg; the other is met',
  },
  {
    species: /beef/,
    cut: /tenderloin.*half/,
    say: 'geometry: half as long as a whole one but as thick, so that by conduction it takes as long',
  },
  {
    species: /pheasant/,
    cut: /./,
    say: 'geometry: a game bird has less breast for its weight; one figure serves for all birds',
  },
  {
    species: /lamb/,
    cut: /crown/,
    say: 'geometry: the inside of the ring gets little heat; the model has an open strip',
  },
  {
    species: /ham/,
    cut: /fresh/,
    say: 'a fifth longer than smoked hams of that size to that core in the same chart; skin and fat are not in the model',
  },
  {
    species: /ham/,
    cut: /smoked.*half|cooked: whole/,
    say: 'geometry: half a ham is no cylinder but tapers to the shank',
  },
  {
    species: /pork/,
    cut: /loin/,
    say: 'geometry and bone: the section is that of one large loin, with its backbone',
  },
  { species: /chicken/, cut: /legs/, say: 'geometry: pieces of 2.5 times their thickness; thicker ones are met' },
  { species: /chicken/, cut: /breast/, say: 'geometry: pieces of 1.25 in; at 1 in it is met' },
  {
    species: /beef/,
    cut: /standing|rib roast, bone-in/,
    say: 'geometry: how many ribs a weight has differs from table to table, and so do the times',
  },
  { species: /turkey/, cut: /./, say: 'one figure serves for all birds, and the larger ones are met' },
  { species: /beef/, cut: /rolled/, say: 'geometry: rolled round seams of fat, and one figure without a range' },
  {
    species: /veal/,
    cut: /rib|rack/,
    say: 'the oldest chart: no more minutes a pound than newer ones have in a hotter oven, to a cooler core',
  },
  {
    species: /veal/,
    cut: /leg|shoulder/,
    say: 'the oldest chart, whose oven is the slowest, has less time for them than newer ones in hotter ovens',
  },
  { species: /ham/, cut: /spiral/, say: 'sliced to the bone: heat and juices get between the slices' },
  { species: /beef/, cut: /ribeye/, say: 'geometry: shorter than thick, so that the cut faces count most' },
  { species: /beef/, cut: /tri-tip/, say: 'geometry: a wedge, thin towards two ends' },
  {
    species: /beef/,
    cut: /eye/,
    say: 'geometry: 2.5 times as long as thick is our guess; one and a half times would be met',
  },
];

export function whyOff({ species, cut }: Row): string {
  const reason = REASONS.find((one) => one.species.test(species) && one.cut.test(cut));
  return reason?.say ?? 'not known';
}
