/** Above the lanes of a picture: days, times, and a line down from each. */
import { dayAt, sameDay, wallMinute } from '../../chart/clock.js';
import { clockAt } from '../../problem/hours.js';
import { type Markup, tag, together } from '../markup.js';
import { type Frame, WIDTH } from './frame.js';
import { lengthOf } from './letters.js';

export interface Bands {
  /** Baselines of the days and of the times, and where lines begin. */
  readonly days: number;
  readonly times: number;
  readonly top: number;
}

/** Labels that keep clear of those before. */
class Labels {
  private readonly taken: { from: number; to: number }[] = [];

  /** Its middle. `yields`: it may stand beside its line rather than not at all. */
  put(x: number, text: string, yields: boolean): number | null {
    const width = lengthOf(text);
    const places = yields ? [x, x + width / 2, x - width / 2] : [x];
    for (const place of places) {
      const from = Math.min(place - width / 2, WIDTH - width);
      const to = from + width;
      if (this.taken.some((other) => from < other.to + 6 && other.from < to + 6)) continue;
      this.taken.push({ from, to });
      return from + width / 2;
    }
    return null;
  }
}

export function axisOf(frame: Frame, { days, times, top }: Bands): Markup {
  const { view, scale, x, bottom } = frame;
  const { problem } = view;
  const labels = new Labels();
  const line = (className: string, minute: number) =>
    tag('line', { class: className, x1: x(minute), x2: x(minute), y1: top, y2: bottom });
  const label = (className: string, minute: number, yields = false) => {
    const text = clockAt(problem, minute);
    const at = labels.put(x(minute), text, yields);
    return at === null ? null : tag('text', { class: className, x: at, y: times }, text);
  };
  const landings = view.landings.map(({ at }) => together(label('time landing', at, true), line('served', at)));
  const ticks = scale.ticks.map(({ minute }) => together(line('tick', minute), label('time', minute)));
  // A piece without a tick on a whole hour still says where it is.
  const bare = scale.pieces.map(({ from }, piece) => {
    if (scale.ticks.some((tick) => tick.piece === piece)) return null;
    const near = Math.ceil(from + scale.perColumn);
    return label('time', near + ((5 - (wallMinute(problem, near) % 5)) % 5));
  });
  return together(...dayLabels(frame, days), ...ticks, ...landings, ...bare);
}

function dayLabels({ view, scale, x }: Frame, y: number): Markup[] {
  const { problem } = view;
  const last = scale.pieces.at(-1)!;
  if (sameDay(problem, Math.ceil(scale.pieces[0]!.from), Math.floor(last.to))) return [];
  let shown = '';
  let free = 0;
  return scale.pieces.flatMap(({ from, to }) => {
    const found: Markup[] = [];
    for (let minute = Math.ceil(from); minute < to; minute += 5) {
      const day = dayAt(problem, minute);
      if (day === shown || x(minute) < free) continue;
      shown = day;
      free = x(minute) + lengthOf(day) + 8;
      found.push(tag('text', { class: 'day', x: x(minute), y }, day));
    }
    return found;
  });
}
