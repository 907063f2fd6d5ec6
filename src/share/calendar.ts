/**
 * A timeline as a calendar (RFC 5545). Times are in UTC: they are instants, which every phone shows by its own clock, and no rule of a
 * zone has to come along or can be misread in the hour that comes twice.
 */
import ICAL from 'ical.js';
import { clean } from '../chart/text.js';
import type { Entry, Shared } from './content.js';
import { type Event, printOf } from './event.js';
import { type Known, knownEvents } from './known-events.js';
import { cautionWords, servingWords, titleWords } from './words.js';

export const PRODUCT = '-//Hearthtable//Hearthtable//EN';

export interface CalendarOptions {
  /** When it is written, milliseconds since the epoch. */
  readonly written: number;
  /** Minutes by which the alarm comes before each event. */
  readonly ahead: number;
  /** The calendar that this one takes the place of. */
  readonly previous: string | null;
}

// The library does not count the blank before what goes on from the line above: 75 octets with it.
ICAL.foldLength = 74;

const MINUTE = 60_000;
/** From here on minutes are counted for the first SEQUENCE of an event, so that it rises even where nobody knows the last one. */
const EPOCH = Date.UTC(2020, 0, 1);

/**
 * Events that were in `previous` and are so no more are cancelled, unless they are over. SEQUENCE rises with every change of an event and
 * stays where there is none.
 */
export function calendarOf(shared: Shared, { written, ahead, previous }: CalendarOptions): string {
  const known = previous === null ? new Map<string, Known>() : knownEvents(previous);
  const calendar = new ICAL.Component('vcalendar');
  calendar.addPropertyWithValue('version', '2.0');
  calendar.addPropertyWithValue('prodid', PRODUCT);
  // Not in the standard's list, so the library does not escape them; their type is text.
  calendar.addPropertyWithValue('x-wr-calname', escaped(titleWords(shared)));
  calendar.addPropertyWithValue('x-wr-timezone', shared.view.problem.zone);
  const fresh = Math.max(0, Math.floor((written - EPOCH) / MINUTE));
  const next = (before: Known | undefined) => Math.max(fresh, (before?.sequence ?? -1) + 1);
  const events = eventsOf(shared);
  for (const event of events) {
    const before = known.get(event.id);
    const same = before !== undefined && !before.cancelled && before.print === printOf(event);
    calendar.addSubcomponent(componentOf(event, written, same ? before.sequence : next(before), ahead));
  }
  const now = new Set(events.map(({ id }) => id));
  for (const before of known.values()) {
    if (now.has(before.id) || before.end < written) continue;
    const component = componentOf(before, written, before.cancelled ? before.sequence : next(before), null);
    component.addPropertyWithValue('status', 'CANCELLED');
    calendar.addSubcomponent(component);
  }
  return `${calendar.toString()}\r\n`;
}

function eventsOf(shared: Shared): Event[] {
  const { lists, view } = shared;
  const { origin, cooks } = view.problem;
  const named = lists.length > 1 && cooks.length > 1;
  return lists
    .flatMap((list) => list.entries.map((entry) => ({ entry, list })))
    .sort((a, b) => a.entry.told.minute - b.entry.told.minute)
    .map(({ entry, list }): Event => {
      const { minute, until } = entry.told;
      return {
        id: entry.id,
        start: origin + minute * MINUTE,
        // One without any length is not shown by every calendar.
        end: origin + Math.max(until, minute + 1) * MINUTE,
        summary: named ? `${list.name}: ${entry.say}` : entry.say,
        description: describe(shared, entry),
        place: entry.place,
      };
    });
}

function describe({ view, cautions }: Shared, entry: Entry): string {
  const { row, kind, call } = entry.told;
  const details = [entry.place, entry.heat, entry.pan].filter((part) => part !== null);
  // What goes for all dishes is told where an appliance is set and where all is served.
  const general = kind === 'heat' || kind === 'serve';
  const about = cautions.filter(({ dish }) => (dish === null ? general : kind === 'serve' || dish === call.dish));
  return [
    ...(details.length === 0 || row === null ? [] : [details.join('; ')]),
    ...about.map((caution) => `Caution: ${cautionWords(caution)}`),
    `${clean(view.problem.title)}. ${servingWords(view)}`,
  ].join('\n');
}

function componentOf(event: Event, written: number, sequence: number, ahead: number | null): ICAL.Component {
  const component = new ICAL.Component('vevent');
  component.addPropertyWithValue('uid', event.id);
  component.addPropertyWithValue('sequence', sequence);
  component.addPropertyWithValue('dtstamp', utc(written));
  component.addPropertyWithValue('dtstart', utc(event.start));
  component.addPropertyWithValue('dtend', utc(event.end));
  component.addPropertyWithValue('summary', event.summary);
  component.addPropertyWithValue('description', event.description);
  if (event.place !== null) component.addPropertyWithValue('location', event.place);
  if (ahead === null) return component;
  const alarm = new ICAL.Component('valarm');
  alarm.addPropertyWithValue('action', 'DISPLAY');
  alarm.addPropertyWithValue('trigger', ICAL.Duration.fromSeconds(-60 * ahead));
  alarm.addPropertyWithValue('description', event.summary);
  component.addSubcomponent(alarm);
  return component;
}

const utc = (instant: number): ICAL.Time => ICAL.Time.fromJSDate(new Date(instant), true);

const escaped = (text: string): string => text.replace(/[\\;,]/g, '\\$&').replaceAll('\n', '\\n');
