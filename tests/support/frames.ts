/** Drawn lines as text, for tests and golden files. */
import { type Line, lineWidth, textOf } from '../../src/chart/line.js';

export const text = (lines: readonly Line[]): string => `${lines.map(textOf).join('\n')}\n`;

/** The widest line's columns. */
export const widest = (lines: readonly Line[]): number => Math.max(0, ...lines.map(lineWidth));
