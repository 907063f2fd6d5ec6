/** Options about how things look, the same on every command that shows something. */
import { type Command, InvalidArgumentError, Option } from 'commander';
import { COLOR_WISHES, type ColorWish, type Wishes } from '../terminal/capability.js';

export interface LookOptions {
  readonly ascii?: true;
  readonly width?: number;
  readonly color: ColorWish;
}

/** `width`: another option of that name, where a command has one that also says the columns. */
export function addLooks(command: Command, width: Option = columnsOption()): Command {
  return command
    .option('--ascii', 'nothing but plain 7-bit characters, save in names')
    .addOption(width)
    .addOption(new Option('--color <when>', 'colours').choices(COLOR_WISHES).default('auto'));
}

const columnsOption = (): Option =>
  new Option('--width <columns>', "columns of text (the terminal's, else 80)").argParser(columnsIn);

/** Columns of text as they are written. */
export const columnsIn = wholeNumber(20, 500);

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
