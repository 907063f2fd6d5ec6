/** The wall as a page: whole when it comes, and from then on renewed section by section. */
import { clean } from '../chart/text.js';
import { tag } from '../share/markup.js';
import { pageOf, policyOf } from '../share/page/frame.js';
import type { Right } from './rights.js';
import { FOLLOW } from './script.js';
import { SECTIONS, type SectionName, type Seen, sectionsFor } from './sections.js';
import { WALL_STYLE } from './style.js';

export const WALL_POLICY = `${policyOf({ style: WALL_STYLE, script: FOLLOW, kind: 'wall' })}; frame-ancestors 'none'`;

const ELEMENT: Partial<Readonly<Record<SectionName, string>>> = { top: 'header' };

export function wallPage(seen: Seen, right: Right): string {
  const parts = sectionsFor(seen, right);
  const body = SECTIONS.map((name) =>
    tag(
      ELEMENT[name] ?? 'section',
      {
        'data-part': name,
        ...(name === 'trouble' && { role: 'alert' }),
        ...(name === 'changed' && { role: 'status' }),
      },
      parts[name],
    ),
  );
  return pageOf({
    title: clean(seen.day.problem.title),
    style: WALL_STYLE,
    script: FOLLOW,
    kind: 'wall',
    head: [tag('noscript', {}, tag('meta', { 'http-equiv': 'refresh', content: '20' }))],
    body: [
      tag('p', { id: 'stale', role: 'alert', hidden: true }),
      tag('p', { id: 'answer', role: 'status' }),
      tag('main', {}, ...body),
    ],
  });
}

/** What a phone is sent: sections as markup, empty where they have nothing. */
export function wallNews(seen: Seen, right: Right): Record<SectionName, string> {
  const parts = sectionsFor(seen, right);
  return Object.fromEntries(SECTIONS.map((name) => [name, parts[name]?.markup ?? ''])) as Record<SectionName, string>;
}
