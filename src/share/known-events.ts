/** The events of a calendar that was written before. */
import ICAL from 'ical.js';
import { type Event, printOf } from './event.js';

export interface Known extends Event {
  readonly sequence: number;
  readonly cancelled: boolean;
  readonly print: string;
}

/** By their ids. What cannot be read is left out: its event is then told anew. */
export function knownEvents(text: string): Map<string, Known> {
  const known = new Map<string, Known>();
  for (const component of componentsOf(text)) {
    const event = eventOf(component);
    if (event) known.set(event.id, event);
  }
  return known;
}

function componentsOf(text: string): ICAL.Component[] {
  try {
    return new ICAL.Component(ICAL.parse(text) as never).getAllSubcomponents('vevent');
  } catch {
    return [];
  }
}

function eventOf(component: ICAL.Component): Known | null {
  try {
    const value = (name: string) => component.getFirstPropertyValue(name);
    const text = (name: string) => value(name)?.toString() ?? null;
    const time = (name: string) => (value(name) as ICAL.Time).toJSDate().getTime();
    const id = text('uid');
    const sequence = Number(value('sequence') ?? 0);
    if (id === null || !Number.isSafeInteger(sequence)) return null;
    const said = {
      start: time('dtstart'),
      end: time('dtend'),
      summary: text('summary') ?? '',
      description: text('description') ?? '',
      place: text('location'),
    };
    if (!Number.isFinite(said.start) || !Number.isFinite(said.end)) return null;
    return { id, sequence, cancelled: text('status') === 'CANCELLED', ...said, print: printOf(said) };
  } catch {
    return null;
  }
}
