/** Runs the plan's screen in the whole window until the cook leaves it. */
import { constants } from 'node:os';
import { render } from 'ink';
import type { Glyphs } from '../../src/chart/glyphs.js';
import type { View } from '../../src/chart/view.js';
import type { Brush } from '../terminal/paint.js';
import { FramePainter, FrameSink, openWindow } from '../terminal/window.js';
import { PlanScreen } from './plan-screen.js';

const ENDINGS = ['SIGTERM', 'SIGHUP', 'SIGINT'] as const;

/** Resolves when the screen is left and the terminal is as it was; rejects with the fault of a frame that failed. */
export async function showPlan(view: View, glyphs: Glyphs, brush: Brush): Promise<void> {
  const { stdin, stdout } = process;
  const leave = openWindow(stdout);
  const painter = new FramePainter(stdout);
  const sink = new FrameSink(painter, stdout.columns, stdout.rows);
  const screen = () => (
    <PlanScreen view={view} glyphs={glyphs} brush={brush} size={{ columns: sink.columns, rows: sink.rows }} />
  );
  const instance = render(screen(), {
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
    instance.rerender(screen());
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
