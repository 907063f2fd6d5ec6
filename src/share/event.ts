/** An event of a calendar. */

export interface Event {
  readonly id: string;
  /** Milliseconds since the epoch. */
  readonly start: number;
  readonly end: number;
  readonly summary: string;
  readonly description: string;
  readonly place: string | null;
}

/** What makes an event another one when it changes. */
export const printOf = ({ start, end, summary, description, place }: Omit<Event, 'id'>): string =>
  JSON.stringify([start, end, summary, description, place]);
