/** Messages about the problem file, each with its place, in a cook's words. */
import stringWidth from 'string-width';
import { shown } from '../units/measure.js';

export interface Spot {
  readonly file: string;
  /** Counted from 1. */
  readonly line: number;
  /** Counted from 1, in UTF-16 units. */
  readonly column: number;
}

/** Where a step stands in the file, for messages about what it means. */
export interface StepSpots {
  /** Its name. */
  readonly step: Spot;
  /** By entry of `on`: the core temperature of the `until` or `target` that holds in it; null where none does. */
  readonly cores: readonly (Spot | null)[];
  /** Of its dish's piece, the food; null where it has no piece. */
  readonly food: Spot | null;
}

export interface Message extends Spot {
  /** A short name of the kind of mistake, e.g. `unknown-key`. */
  readonly code: string;
  readonly severity: 'error' | 'warning';
  /** One or two sentences, without a line break. */
  readonly say: string;
  /** A spelling or a change that would do. */
  readonly hint?: string;
}

/** Gathers messages, each once. */
export class Notes {
  readonly #messages = new Map<string, Message>();
  #errors = 0;

  /** How often an error was said, repeated ones included: it grows wherever something is wrong. */
  get errors(): number {
    return this.#errors;
  }

  add(severity: Message['severity'], code: string, spot: Spot, say: string, hint?: string | null): void {
    const key = JSON.stringify([spot.file, spot.line, spot.column, say]);
    if (severity === 'error') this.#errors++;
    if (this.#messages.has(key)) return;
    const { file, line, column } = spot;
    const message = { code, severity, file, line, column, say: shown(say) };
    this.#messages.set(key, hint ? { ...message, hint: shown(hint) } : message);
  }

  /** By place: the file that was asked for first, then files by name, then line and column; at one place as they came. */
  sorted(first: string): Message[] {
    const rank = (message: Message) => (message.file === first ? 0 : 1);
    return [...this.#messages.values()].sort(
      (a, b) =>
        rank(a) - rank(b) || (a.file < b.file ? -1 : a.file > b.file ? 1 : 0) || a.line - b.line || a.column - b.column,
    );
  }
}

const WIDEST = 100;

/**
 * A message as text: `file:line:column: say`, then, where the file's text is given, its line with a caret below, then
 * the hint.
 */
export function showMessage(message: Message, sourceText?: string): string {
  const word = message.severity === 'warning' ? 'warning: ' : '';
  const lines = [`${message.file}:${message.line}:${message.column}: ${word}${message.say}`];
  const line = sourceText?.split(/\r?\n/)[message.line - 1];
  if (line !== undefined) lines.push(...pointed(line, message.line, message.column));
  if (message.hint) lines.push(`Perhaps: ${message.hint}`);
  return lines.join('\n');
}

/** The line, cut around the column where it is long, and the caret below it. */
function pointed(line: string, number: number, column: number): string[] {
  const clean = shown(line.replace(/\t/g, '  '));
  const tabsBefore = line.slice(0, column - 1).split('\t').length - 1;
  const at = Math.min(column - 1 + tabsBefore, clean.length);
  const from = at > WIDEST - 20 ? at - 40 : 0;
  const piece = `${from > 0 ? '...' : ''}${clean.slice(from, from + WIDEST)}${clean.length > from + WIDEST ? '...' : ''}`;
  const label = `  ${number} | `;
  const before = `${from > 0 ? '...' : ''}${clean.slice(from, at)}`;
  return [`${label}${piece}`, `${' '.repeat(label.length - 2)}| ${' '.repeat(stringWidth(before))}^`];
}
