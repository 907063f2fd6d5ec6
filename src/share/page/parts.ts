/** The sections of pages. */
import { clean, tied } from '../../chart/text.js';
import type { View } from '../../chart/view.js';
import { RowWords } from '../../plan/row-words.js';
import { clockAt } from '../../problem/hours.js';
import type { Card, CardStep, List, Shared } from '../content.js';
import { type Markup, tag, together } from '../markup.js';
import { pictureWithin } from '../picture/picture.js';
import { byDay, changeWords, dayClock, entryWords, insideWords, NOTHING, spanWords } from '../words.js';

export function listSection(view: View, list: List, id: string): Markup {
  const calls = byDay(view, list).map(({ day, entries }) =>
    together(
      day === null ? null : tag('h3', {}, day),
      tag(
        'ol',
        { class: 'calls' },
        ...entries.map((entry) =>
          tag(
            'li',
            {},
            tag(
              'label',
              {},
              tag('input', { type: 'checkbox', 'data-call': entry.id }),
              tag('time', { datetime: entry.told.call.at }, clockAt(view.problem, entry.told.minute)),
              tag('span', {}, tied(entryWords(entry))),
            ),
          ),
        ),
      ),
    ),
  );
  const none = list.entries.length === 0;
  return tag(
    'section',
    { id, ...(none ? {} : { 'data-list': true }), 'aria-labelledby': `${id}-name` },
    tag('h2', { id: `${id}-name` }, list.name),
    none ? tag('p', {}, NOTHING) : tag('p', { class: 'count', 'aria-live': 'polite' }),
    ...calls,
  );
}

/** `isPart`: it shows what some cooks do, and not the whole plan. */
export function chartSection(view: View, isPart: boolean): Markup {
  return tag(
    'section',
    { id: 'chart', ...(isPart && { class: 'part' }), 'aria-labelledby': 'chart-name' },
    tag('h2', { id: 'chart-name' }, 'Chart'),
    tag(
      'div',
      { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': 'Chart, wider than a phone' },
      pictureWithin(view, 'place', 'chart-table'),
    ),
    tag('details', {}, tag('summary', {}, 'The chart as a table'), chartTable(view, isPart)),
  );
}

const HEADS = ['From', 'To', 'Dish', 'Step', 'Place', 'Heat', 'Pan', 'Hands'] as const;

function chartTable(view: View, isPart: boolean): Markup {
  const words = new RowWords(view.problem);
  const rows = view.byClock.map((index) => {
    const step = view.steps[index]!;
    const { row } = step;
    const { letter, name } = view.dishes[step.dish]!;
    const cooks = [...new Set(step.hands.map(({ cook }) => view.cookNames[cook]!))].join(', ');
    const cells = [step.name, words.place(row), words.heat(row), words.pan(row), cooks];
    return tag(
      'tr',
      {},
      tag('td', { class: 'when' }, dayClock(view, step.from)),
      tag('td', { class: 'when' }, dayClock(view, step.to)),
      tag('th', { scope: 'row' }, `${letter} ${name}`),
      ...cells.map((cell) => tag('td', {}, cell === null ? '' : clean(cell))),
    );
  });
  return tag(
    'div',
    { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': 'Table of all steps' },
    tag(
      'table',
      { id: 'chart-table' },
      tag('caption', {}, `Every step ${isPart ? 'that is theirs' : 'of the plan'}, by the clock`),
      tag('thead', {}, tag('tr', {}, ...HEADS.map((head) => tag('th', { scope: 'col' }, head)))),
      tag('tbody', {}, ...rows),
    ),
  );
}

/** One appliance: its heats, when to set them and what is inside. `level`: of its heading. */
export function cardSection(view: View, card: Card, id: string, level: 'h2' | 'h3'): Markup {
  const inside = (steps: readonly CardStep[]) =>
    tag(
      'ul',
      {},
      ...steps.map((each) =>
        tag('li', {}, tied(`${spanWords(view, each.step.from, each.step.to)}: ${insideWords(view, each)}`)),
      ),
    );
  const runs = card.runs.map((each) =>
    tag(
      'tr',
      {},
      tag('td', { class: 'when' }, `${dayClock(view, each.run.from)} to ${dayClock(view, each.run.to)}`),
      tag(
        'th',
        { scope: 'row' },
        tag('span', { class: 'degrees' }, tied(each.heat)),
        tag('span', { class: 'change' }, tied(changeWords(view, each))),
      ),
      tag('td', {}, inside(each.inside)),
    ),
  );
  const table = tag(
    'table',
    { class: 'heats' },
    tag('thead', {}, tag('tr', {}, ...['When', 'Heat', 'In it'].map((head) => tag('th', { scope: 'col' }, head)))),
    tag('tbody', {}, ...runs),
  );
  return tag(
    'section',
    { 'aria-labelledby': id },
    tag(level, { id }, card.name),
    runs.length === 0 ? null : table,
    card.burners.length === 0 ? null : tag('div', { class: 'heats' }, inside(card.burners)),
  );
}

export function cautionSection({ cautions }: Pick<Shared, 'cautions'>): Markup | null {
  if (cautions.length === 0) return null;
  const items = cautions.map(({ dish, say, source }) =>
    tag(
      'li',
      {},
      dish === null ? null : tag('strong', {}, `${clean(dish)}: `),
      `${clean(say)} `,
      tag('span', { class: 'source' }, `(${clean(source)})`),
    ),
  );
  return tag(
    'section',
    { id: 'cautions', class: 'cautions', 'aria-labelledby': 'cautions-name' },
    tag('h2', { id: 'cautions-name' }, 'Cautions'),
    tag('ul', {}, ...items),
  );
}
