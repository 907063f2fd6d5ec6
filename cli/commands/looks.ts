/** Options about how things look, the same on every command that shows something. */
import { type Command, InvalidArgumentError, Option } from 'commander';
import { COLOR_WISHES, type ColorWish, type Wishes } from '../terminal/capability.js';

export interface LookOptions {
  readonly ascii?: true;
  readonly width?: number;
  readonly color: ColorWish;
}

export function addLooks(command: Command): Command {
  return command
    .option('--ascii', 'nothing but plain 7-bit characters, save in names')
    .option('--width <columns>', "columns of text (the terminal's, else 80)", wholeNumber(20, 500))
    .addOption(new Option('--color <when>', 'colours').choices(COLOR_WISHES).default('auto'));
}

export const wishesOf = (options: LookOptions): Wishes => ({
  color: options.color,
  ...(options.ascii && { ascii: true }),
  ...(options.width !== undefined && { width: options.width }),
});

/** A reader of whole numbers within bounds, for an option's value. */
export function wholeNumber(low: number, high: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!/^\d+$/.test(text) || value < low || value > high) {
      throw new InvalidArgumentError(`A whole number from ${low} to ${high} is wanted.`);
    }
    return value;
  };
}
