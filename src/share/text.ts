/** A timeline as plain text, to paste into a message: no columns, no marks, nothing that needs a fixed width. */
import type { View } from '../chart/view.js';
import { clockAt } from '../problem/hours.js';
import type { Card, List, Shared } from './content.js';
import {
  byDay,
  cautionWords,
  changeWords,
  entryWords,
  insideWords,
  NOTHING,
  SIGNATURE,
  servingWords,
  spanWords,
  titleWords,
} from './words.js';

export function textOfLists(shared: Shared): string {
  const { view, lists } = shared;
  const several = lists.length > 1;
  return page(
    shared,
    lists.flatMap((list) => [...(several ? ['', list.name.toUpperCase()] : []), ...listLines(view, list)]),
  );
}

export function textOfCards(shared: Shared): string {
  const { view, cards } = shared;
  return page(
    shared,
    cards.flatMap((card) => ['', card.name.toUpperCase(), '', ...cardLines(view, card)]),
  );
}

function page(shared: Shared, lines: readonly string[]): string {
  const cautions = shared.cautions.map((caution) => `- ${cautionWords(caution)}`);
  return [
    titleWords(shared),
    servingWords(shared.view),
    ...lines,
    ...(cautions.length === 0 ? [] : ['', 'CAUTIONS', '', ...cautions]),
    '',
    SIGNATURE,
    '',
  ].join('\n');
}

function listLines(view: View, list: List): string[] {
  if (list.entries.length === 0) return ['', NOTHING];
  return byDay(view, list).flatMap(({ day, entries }) => [
    ...(day === null ? [] : ['', day]),
    '',
    ...entries.map((entry) => `${clockAt(view.problem, entry.told.minute)}  ${entryWords(entry)}`),
  ]);
}

function cardLines(view: View, { runs, burners }: Card): string[] {
  const inside = (step: Card['burners'][number]) =>
    `${spanWords(view, step.step.from, step.step.to)}  ${insideWords(view, step)}`;
  return [
    ...runs.flatMap((each) => {
      const change = changeWords(view, each);
      const lead = `${spanWords(view, each.run.from, each.run.to)}  ${each.heat}${change === '' ? '' : ` (${change})`}`;
      return [lead, ...each.inside.map((step) => `  - ${inside(step)}`)];
    }),
    ...burners.map(inside),
  ];
}
