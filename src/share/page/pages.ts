/** A timeline as a page: lists to tick, what each appliance does, the chart, cautions. And the cards alone, in large type. */
import { clean } from '../../chart/text.js';
import { isoAt } from '../../problem/hours.js';
import type { Shared } from '../content.js';
import { type Markup, tag } from '../markup.js';
import { chartedView } from '../own-view.js';
import { servingWords, titleWords } from '../words.js';
import { pageOf } from './frame.js';
import { cardSection, cautionSection, chartSection, listSection } from './parts.js';
import { PAGE_STYLE } from './style.js';
import { TICKS } from './ticks.js';

export function pageOfLists(shared: Shared): string {
  const { view, lists, cautions } = shared;
  const { problem } = view;
  const charted = chartedView(shared);
  const isPart = charted !== view;
  // A cook's own calls have their heats; who sets an oven sees all that goes in.
  const cards = isPart && !shared.who!.anyone ? [] : shared.cards;
  const isEmpty = charted.steps.length + charted.runs.length === 0;
  const links = [
    ...lists.map(({ name }, index) => [`list-${index + 1}`, name] as const),
    ...(cards.length > 0 ? [['heat', 'Heat'] as const] : []),
    ...(isEmpty ? [] : [['chart', 'Chart'] as const]),
    ...(cautions.length > 0
      ? [['cautions', cautions.length === 1 ? '1 caution' : `${cautions.length} cautions`] as const]
      : []),
  ];
  const heat = tag(
    'section',
    { id: 'heat', 'aria-labelledby': 'heat-name' },
    tag('h2', { id: 'heat-name' }, 'Heat'),
    ...cards.map((card, index) => cardSection(view, card, `heat-${index + 1}`, 'h3')),
  );
  return pageOf({
    title: titleWords(shared),
    style: PAGE_STYLE,
    script: TICKS,
    kind: 'lists',
    body: [
      headerOf(shared),
      tag(
        'nav',
        { 'aria-label': 'On this page' },
        tag('ul', {}, ...links.map(([id, name]) => tag('li', {}, tag('a', { href: `#${id}` }, name)))),
      ),
      tag(
        'main',
        { 'data-evening': `${clean(problem.title)} ${isoAt(problem, problem.serve).slice(0, 10)}` },
        tag('div', { class: 'columns' }, ...lists.map((list, index) => listSection(view, list, `list-${index + 1}`))),
        cards.length > 0 ? heat : null,
        isEmpty ? null : chartSection(charted, isPart),
        cautionSection(shared),
      ),
    ],
  });
}

export function pageOfCards(shared: Shared): string {
  const { view, cards } = shared;
  const sections = cards.map((card, index) => cardSection(view, card, `card-${index + 1}`, 'h2'));
  return pageOf({
    title: titleWords(shared),
    style: PAGE_STYLE,
    script: '',
    kind: 'cards',
    body: [headerOf(shared), tag('main', {}, ...sections, cautionSection(shared))],
  });
}

const headerOf = (shared: Shared): Markup =>
  tag('header', {}, tag('h1', {}, titleWords(shared)), tag('p', {}, servingWords(shared.view)));
