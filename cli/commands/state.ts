/** `hearthtable state FILE`: where things stand, by the meal's journal. */
import type { Command } from 'commander';
import { ASCII, UNICODE } from '../../src/chart/glyphs.js';
import { documentOf } from '../../src/live/state/document.js';
import { stateAt } from '../../src/live/state/state.js';
import { minuteAt } from '../../src/problem/hours.js';
import { showIso } from '../../src/units/clock.js';
import { EXIT, type ExitCode } from '../exit.js';
import { helpText } from '../help-text.js';
import type { Finish, Io } from '../io.js';
import { firstPlanFor, openDay, presentOf, saidBy } from '../journal/open-day.js';
import { stateLines } from '../live/state-lines.js';
import { capabilityOf } from '../terminal/capability.js';
import { printed } from '../terminal/paint.js';
import { addLooks, type LookOptions, wishesOf } from './looks.js';

interface StateOptions extends LookOptions {
  readonly at?: string;
  readonly journal?: string;
  readonly json?: true;
}

export function addState(program: Command, io: Io, finish: Finish): void {
  const command = program
    .command('state')
    .description('where things stand: done, under way, late, next, each heat and core')
    .argument('<file>', 'the meal, as YAML or JSON')
    .option('--at <time>', 'at this time, by what is noted so far: 17:05 (now)')
    .option('--journal <file>', 'the journal, if not the one beside the meal')
    .option('--json', 'print it as JSON');
  addLooks(command)
    .addHelpText(
      'after',
      helpText(
        io,
        `
It is told from the meal and its journal alone; nothing is written.

Examples:
  hearthtable state supper.yaml
  hearthtable state supper.yaml --at 17:30
  hearthtable state supper.yaml --json`,
      ),
    )
    .action(async (file: string, options: StateOptions) => finish(await runState(io, file, options)));
}

async function runState(io: Io, file: string, options: StateOptions): Promise<ExitCode> {
  const opened = await openDay(io, file, options.journal);
  if (opened === null) return EXIT.usage;
  const { meal, rebuilt: now } = opened;
  const { problem } = meal;
  const instant =
    options.at === undefined
      ? presentOf(io, problem, undefined)
      : saidBy('at', options.at, nearServe(problem), problem);
  const plan = now.day.plan ?? (await firstPlanFor(io, opened));
  const day = { ...now.day, plan };
  const state = stateAt(day, Math.floor(minuteAt(problem, showIso(instant, problem.zone))));
  if (options.json) {
    io.stdout.write(`${JSON.stringify(documentOf(day, state), null, 2)}\n`);
    return EXIT.plan;
  }
  const able = capabilityOf(io, { ...wishesOf(options), text: true });
  io.stdout.write(printed(stateLines(day, state, able.width, able.unicode ? UNICODE : ASCII), able.colors));
  return EXIT.plan;
}

/** A clock time alone is one near the serving time: a state is asked for on the day, or to try things out. */
const nearServe = ({ origin, serve }: { origin: number; serve: number }): number => origin + serve * 60_000;
