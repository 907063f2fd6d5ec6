import { describe, expect, it } from 'vitest';
import { FramePainter, FrameSink, openWindow } from '../../cli/terminal/window.js';

class Recorder {
  written: string[] = [];
  write(text: string) {
    this.written.push(text.replaceAll('\u001b', '\\e'));
  }
}

describe('the painter', () => {
  it('writes only the rows that changed, each in its place, as one update', () => {
    const output = new Recorder();
    const painter = new FramePainter(output);
    painter.paint('one\ntwo\nthree');
    painter.paint('one\n2\nthree');
    painter.paint('one\n2\nthree');
    expect(output.written).toHaveLength(2);
    expect(output.written[1]).toBe('\\e[?2026h\\e[2;1H\\e[0m\\e[K2\\e[?2026l');
  });

  it('clears rows that are no longer there', () => {
    const output = new Recorder();
    const painter = new FramePainter(output);
    painter.paint('one\ntwo');
    painter.paint('one');
    expect(output.written.at(-1)).toBe('\\e[?2026h\\e[2;1H\\e[0m\\e[K\\e[?2026l');
  });

  it('paints everything after the window has changed', () => {
    const output = new Recorder();
    const painter = new FramePainter(output);
    painter.paint('one');
    painter.forget();
    painter.paint('one');
    expect(output.written.slice(1)).toEqual(['\\e[0m\\e[2J', '\\e[?2026h\\e[1;1H\\e[0m\\e[Kone\\e[?2026l']);
  });

  it('never clears the scrollback', () => {
    const output = new Recorder();
    const sink = new FrameSink(new FramePainter(output), 3, 2);
    sink.write('abc\nabc');
    sink.write('');
    expect(output.written.join('')).not.toContain('[3J');
  });
});

it('leaves the window once, with the cursor and the wrapping as they were', () => {
  const output = new Recorder();
  const listeners = process.listenerCount('exit');
  const leave = openWindow(output);
  expect(process.listenerCount('exit')).toBe(listeners + 1);
  leave();
  leave();
  expect(process.listenerCount('exit')).toBe(listeners);
  expect(output.written).toEqual(['\\e[?1049h\\e[?25l\\e[?7l\\e[2J\\e[H', '\\e[?7h\\e[?25h\\e[?1049l']);
});
