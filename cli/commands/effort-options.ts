/** The options that every command has that works out a plan. */
import { type Command, Option } from 'commander';
import type { Effort } from '../../src/solve/solve.js';
import { wholeNumber } from './looks.js';
import type { Times } from './problem-file.js';

const EFFORTS: readonly Effort[] = ['quick', 'normal', 'deep'];

export interface EffortOptions {
  readonly serve?: string;
  readonly start?: string;
  readonly effort: Effort;
  readonly seed: number;
}

export const addTimes = (command: Command): Command =>
  command
    .option('--serve <time>', 'serve at another time: 19:15, or "2026-10-03 19:15"')
    .option('--start <time>', 'begin no earlier than this');

export const addEffort = (command: Command): Command =>
  command
    .addOption(new Option('--effort <much>', 'how long to search').choices(EFFORTS).default('normal'))
    .option(
      '--seed <number>',
      'where chance begins; the same seed gives the same plan',
      wholeNumber(0, 2 ** 31 - 1),
      1,
    );

export const timesIn = ({ serve, start }: EffortOptions): Times => ({
  ...(serve !== undefined && { serve }),
  ...(start !== undefined && { start }),
});
