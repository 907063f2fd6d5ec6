/** A timeline as Markdown, with boxes to tick. Whatever comes from the meal is text there, never markup. */
import type { View } from '../chart/view.js';
import { clockAt } from '../problem/hours.js';
import type { Card, CardStep, List, Shared } from './content.js';
import { inMarkdown as md } from './escape.js';
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

export function markdownOfLists(shared: Shared): string {
  const { view, lists } = shared;
  const several = lists.length > 1;
  return page(
    shared,
    lists.flatMap((list) => [...(several ? ['', `## ${md(list.name)}`] : []), ...listLines(view, list)]),
  );
}

export function markdownOfCards(shared: Shared): string {
  const { view, cards } = shared;
  return page(
    shared,
    cards.flatMap((card) => ['', `## ${md(card.name)}`, '', ...cardLines(view, card)]),
  );
}

function page(shared: Shared, lines: readonly string[]): string {
  const cautions = shared.cautions.map((caution) => `- ${md(cautionWords(caution))}`);
  return [
    `# ${md(titleWords(shared))}`,
    '',
    md(servingWords(shared.view)),
    ...lines,
    ...(cautions.length === 0 ? [] : ['', '## Cautions', '', ...cautions]),
    '',
    `_${SIGNATURE}_`,
    '',
  ].join('\n');
}

function listLines(view: View, list: List): string[] {
  if (list.entries.length === 0) return ['', NOTHING];
  return byDay(view, list).flatMap(({ day, entries }) => [
    ...(day === null ? [] : ['', `**${day}**`]),
    '',
    ...entries.map((entry) => `- [ ] **${clockAt(view.problem, entry.told.minute)}** ${md(entryWords(entry))}`),
  ]);
}

function cardLines(view: View, { runs, burners }: Card): string[] {
  const inside = (step: CardStep) => `${spanWords(view, step.step.from, step.step.to)}: ${md(insideWords(view, step))}`;
  return [
    ...runs.flatMap((each) => {
      const change = changeWords(view, each);
      const lead = `- ${spanWords(view, each.run.from, each.run.to)}: **${md(each.heat)}**`;
      return [`${lead}${change === '' ? '' : ` (${md(change)})`}`, ...each.inside.map((step) => `  - ${inside(step)}`)];
    }),
    ...burners.map((step) => `- ${inside(step)}`),
  ];
}
