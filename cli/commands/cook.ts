/** `hearthtable cook FILE`: the screen of the day. */
import type { Command } from 'commander';
import { ASCII, UNICODE } from '../../src/chart/glyphs.js';
import { begun } from '../cooking/begun.js';
import { type Clock, realClock, rehearsedClock } from '../cooking/clock.js';
import { deskFor } from '../cooking/desk.js';
import { proposalsFor } from '../cooking/proposals.js';
import { EXIT, type ExitCode, UsageError } from '../exit.js';
import type { Finish, Io } from '../io.js';
import { type Opened, openDay, presentOf } from '../journal/open-day.js';
import { capabilityOf } from '../terminal/capability.js';
import { addLooks, type LookOptions, wholeNumber, wishesOf } from './looks.js';

interface CookOptions extends LookOptions {
  readonly at?: string;
  readonly speed?: number;
  readonly who?: string;
  readonly atOnce?: true;
  readonly journal?: string;
}

export function addCook(program: Command, io: Io, finish: Finish): void {
  const command = program
    .command('cook')
    .description('the day itself: what is on, what comes next, one key to tick it off')
    .argument('<file>', 'the meal, as YAML or JSON')
    .option('--who <name>', 'who is at this screen')
    .option('--at-once', 'take new plans at once, without asking')
    .option('--journal <file>', 'the journal, if not the one beside the meal')
    .option('--at <time>', 'rehearse: take this for the present time')
    .option('--speed <times>', 'rehearse: a clock that runs so many times as fast', wholeNumber(1, 600));
  addLooks(command)
    .addHelpText(
      'after',
      `
All that is ticked off, read and said goes into a journal beside the meal (supper.yaml: supper.journal.jsonl) at
once; after whatever ends it, the same command goes on where it was. Others may note at the same time, by
\`hearthtable note\` or at screens of their own. A rehearsal has a journal of its own
(supper.rehearsal.jsonl), which goes on as well: remove it to begin again.

Examples:
  hearthtable cook supper.yaml
  hearthtable cook supper.yaml --who Ines
  hearthtable cook supper.yaml --at 15:30 --speed 60`,
    )
    .action(async (file: string, options: CookOptions) => finish(await runCook(io, file, options)));
}

async function runCook(io: Io, file: string, options: CookOptions): Promise<ExitCode> {
  const able = capabilityOf(io, wishesOf(options));
  if (!able.screen)
    throw new UsageError(
      '`cook` is a screen and wants a terminal.\nPerhaps: hearthtable state FILE, hearthtable note FILE ...',
    );
  const rehearsed = options.at !== undefined || options.speed !== undefined;
  const journal = options.journal ?? (rehearsed ? rehearsalBeside(file) : undefined);
  const opened = await openDay(io, file, journal);
  if (opened === null) return EXIT.usage;
  const clock = clockFor(io, opened, options);
  const desk = deskFor(await begun(io, opened, clock), clock, options.who ?? null);
  const proposals = proposalsFor(desk, options.atOnce === true);
  try {
    // Ink and React take a while to load.
    const { showCook } = await import('../screens/cook/show-cook.js');
    await showCook(desk, proposals, able.unicode ? UNICODE : ASCII, { colors: able.colors, weights: true });
  } finally {
    proposals.close();
    desk.close();
  }
  return EXIT.plan;
}

/** `supper.yaml` is rehearsed in `supper.rehearsal.jsonl`. */
const rehearsalBeside = (meal: string): string => `${meal.replace(/\.(?:ya?ml|json)$/i, '')}.rehearsal.jsonl`;

/** A rehearsal that goes on is never earlier than its last entry. */
function clockFor(io: Io, { meal, read }: Opened, { at, speed }: CookOptions): Clock {
  if (at === undefined && speed === undefined) return realClock(io);
  const from = presentOf(io, meal.problem, at);
  const last = Math.max(0, ...read.entries.map((entry) => Date.parse(entry.at)));
  return rehearsedClock(io, Math.max(from, last), speed ?? 1);
}
