/**
 * The whole window of a terminal for one screen: entered and left by us, painted row by row so that only what changed is
 * written. Ink gives whole frames to `FrameSink`; its own way of writing would clear the user's scrollback when a frame
 * fills the window.
 */
import { EventEmitter } from 'node:events';

/** DEC private modes: 1049 the other screen, 25 the cursor, 7 wrapping at the right edge, 2026 one update at a time. */
const ENTER = '\u001b[?1049h\u001b[?25l\u001b[?7l\u001b[2J\u001b[H';
const LEAVE = '\u001b[?7h\u001b[?25h\u001b[?1049l';
const BEGIN = '\u001b[?2026h';
const END = '\u001b[?2026l';

interface Output {
  write(text: string): unknown;
}

/** Writes a frame's changed rows, each at its own place. */
export class FramePainter {
  private rows: string[] = [];

  constructor(private readonly output: Output) {}

  paint(frame: string): void {
    const rows = frame.split('\n');
    let update = '';
    for (let row = 0; row < Math.max(rows.length, this.rows.length); row += 1) {
      const text = rows[row] ?? '';
      if (text !== this.rows[row]) update += `\u001b[${row + 1};1H\u001b[0m\u001b[K${text}`;
    }
    this.rows = rows;
    if (update !== '') this.output.write(BEGIN + update + END);
  }

  /** After the window has changed its size nothing of what it shows is known. */
  forget(): void {
    this.rows = [];
    this.output.write('\u001b[0m\u001b[2J');
  }
}

/** What Ink takes for its output: it has a size, and each write is a frame. */
export class FrameSink extends EventEmitter {
  constructor(
    private readonly painter: FramePainter,
    public columns: number,
    public rows: number,
  ) {
    super();
  }

  write(frame: string): boolean {
    if (frame !== '') this.painter.paint(frame);
    return true;
  }
}

/** Enters the other screen; the function that it gives leaves it, once, and runs by itself when the process ends. */
export function openWindow(output: Output): () => void {
  let open = true;
  const leave = () => {
    if (!open) return;
    open = false;
    process.off('exit', leave);
    output.write(LEAVE);
  };
  process.on('exit', leave);
  output.write(ENTER);
  return leave;
}

/** xterm: 22;2 puts the window's title away, 23;2 gets it back, OSC 2 sets it. */
const KEEP_TITLE = '\u001b[22;2t';
const GIVE_TITLE = '\u001b[23;2t';

/** Longest title, in characters. */
const TITLE = 80;

/** Rings and says in the window's title what for. The title that was there comes back on leaving, or when the process ends. */
export function bellRinger(output: Output): { ring: (title: string | null, bell: boolean) => void; leave: () => void } {
  let shown: string | null = null;
  let open = false;
  const leave = () => {
    if (open) output.write(GIVE_TITLE);
    open = false;
    process.off('exit', leave);
  };
  const ring = (title: string | null, bell: boolean) => {
    if (!open) {
      output.write(KEEP_TITLE);
      process.on('exit', leave);
      open = true;
    }
    const text = (title ?? 'hearthtable').replace(/\p{Cc}/gu, ' ').slice(0, TITLE);
    if (text !== shown) output.write(`\u001b]2;${text}\u0007`);
    shown = text;
    if (bell) output.write('\u0007');
  };
  return { ring, leave };
}
