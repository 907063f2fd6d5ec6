/** Runs a screen in the whole window until it is left. */
import { constants } from 'node:os';
import { render } from 'ink';
import type { ReactElement } from 'react';
import { FramePainter, FrameSink, openWindow } from '../terminal/window.js';
import type { Size } from './parts.js';

const ENDINGS = ['SIGTERM', 'SIGHUP', 'SIGINT'] as const;

/** Resolves when the screen is left and the terminal is as it was; rejects with the fault of a frame that failed. */
export async function runScreen(screen: (size: Size) => ReactElement): Promise<void> {
  const { stdin, stdout } = process;
  const leave = openWindow(stdout);
  const painter = new FramePainter(stdout);
  const sink = new FrameSink(painter, stdout.columns, stdout.rows);
  const sized = () => screen({ columns: sink.columns, rows: sink.rows });
  const instance = render(sized(), {
    // Ink asks its output for no more than a size and `write`; `debug` makes it hand over every frame whole and plain.
    stdout: sink as unknown as NodeJS.WriteStream,
    stdin,
    debug: true,
    patchConsole: false,
  });
  const resize = () => {
    sink.columns = stdout.columns;
    sink.rows = stdout.rows;
    painter.forget();
    instance.rerender(sized());
  };
  const end = (signal: (typeof ENDINGS)[number]) => {
    instance.unmount();
    leave();
    process.exit(128 + constants.signals[signal]);
  };
  stdout.on('resize', resize);
  for (const signal of ENDINGS) process.on(signal, end);
  try {
    await instance.waitUntilExit();
  } finally {
    stdout.off('resize', resize);
    for (const signal of ENDINGS) process.off(signal, end);
    leave();
  }
}
