/** `hearthtable cook FILE`: the screen of the day. */
import { type Command, Option } from 'commander';
import { ASCII, UNICODE } from '../../src/chart/glyphs.js';
import { cookNamed, isRefusal } from '../../src/live/journal/names.js';
import { begun } from '../cooking/begun.js';
import { type Clock, realClock, rehearsedClock } from '../cooking/clock.js';
import { type Desk, deskFor } from '../cooking/desk.js';
import { type Practice, practiceFor } from '../cooking/practice.js';
import { proposalsFor } from '../cooking/proposals.js';
import { tellClock } from '../cooking/rehearsal-clock.js';
import { EXIT, type ExitCode, UsageError } from '../exit.js';
import { helpText } from '../help-text.js';
import type { Finish, Io } from '../io.js';
import { rehearsalBeside } from '../journal/journal-file.js';
import { type Opened, openDay, presentOf, refusalWords } from '../journal/open-day.js';
import { capabilityOf } from '../terminal/capability.js';
import { addLooks, type LookOptions, wholeNumber, wishesOf } from './looks.js';

interface CookOptions extends LookOptions {
  readonly at?: string;
  readonly speed?: number;
  readonly who?: string;
  readonly atOnce?: true;
  readonly evening: number;
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
    .option('--speed <times>', 'rehearse: a clock that runs so many times as fast', wholeNumber(1, 600))
    .addOption(
      new Option('--evening <number>', 'rehearse another evening, on which things take other minutes')
        .argParser(wholeNumber(1, 9999))
        .default(1),
    );
  addLooks(command)
    .addHelpText(
      'after',
      helpText(
        io,
        `
All that is ticked off, read and said goes into a journal beside the meal (supper.yaml: supper.journal.jsonl) at
once; after whatever ends it, the same command goes on where it was. Opened with a plan that was
made beforehand, it offers one with room for what may take longer. Others may note at the same time, by
\`hearthtable note\` or at screens of their own. A rehearsal has a journal of its own
(supper.rehearsal.jsonl), which goes on as well: remove it to begin again. What the plan has before the time at
which it begins is taken as done on time. With --speed a simulated kitchen takes
part: food takes the minutes of one random evening, and all cooks but the one at the screen (--who) do
their work by themselves; without --who, all of them. There, r reads the simulated thermometer. A rehearsal is shown on
phones by \`hearthtable wall FILE --rehearsal\`.

Examples:
  hearthtable cook supper.yaml
  hearthtable cook supper.yaml --who Ines
  hearthtable cook supper.yaml --at 15:30 --speed 60 --who Ines`,
      ),
    )
    .action(async (file: string, options: CookOptions) => finish(await runCook(io, file, options)));
}

async function runCook(io: Io, file: string, options: CookOptions): Promise<ExitCode> {
  const able = capabilityOf(io, wishesOf(options));
  if (!able.screen)
    throw new UsageError(
      '`cook` is a screen and wants a terminal.\nPerhaps: hearthtable state FILE, hearthtable note FILE ...',
    );
  const journal = options.journal ?? (isRehearsal(options) ? rehearsalBeside(file) : undefined);
  const opened = await openDay(io, file, journal);
  if (opened === null) return EXIT.usage;
  // Ink and React take a while to load, and a plan to be worked out: a rehearsed clock does not run meanwhile.
  const { showCook } = await import('../screens/cook/show-cook.js');
  const first = instantFor(io, opened, options);
  const day = await begun(io, opened, { now: () => first, speed: 1 }, isRehearsal(options));
  const clock = clockFor(io, opened, options);
  const desk = deskFor(day, clock, options.who ?? null);
  const practice = options.speed === undefined ? null : await practiceOf(desk, options);
  const proposals = proposalsFor(desk, options.atOnce === true);
  const untell = isRehearsal(options) ? tellClock(io, opened.path, clock) : null;
  try {
    await showCook({ desk, proposals, practice }, able.unicode ? UNICODE : ASCII, {
      colors: able.colors,
      weights: true,
    });
  } finally {
    untell?.();
    proposals.close();
    desk.close();
  }
  return EXIT.plan;
}

/** The kitchen plays all cooks but the one at the screen. Throws a UsageError where nobody is called so. */
async function practiceOf(desk: Desk, { who, evening }: CookOptions): Promise<Practice> {
  const cook = who === undefined ? null : cookNamed(desk.day().problem, who);
  if (isRefusal(cook)) throw new UsageError(`--who: ${refusalWords(cook)}`);
  const { Rehearsal } = await import('../../src/live/rehearsal/rehearsal.js');
  return practiceFor(desk, new Rehearsal(evening, cook === null ? null : desk.day().problem.cooks[cook]!.name));
}

const isRehearsal = ({ at, speed }: CookOptions): boolean => at !== undefined || speed !== undefined;

/** The instant at which the screen opens. A rehearsal that goes on is never earlier than its last entry. */
function instantFor(io: Io, { meal, read }: Opened, options: CookOptions): number {
  const from = presentOf(io, meal.problem, options.at);
  return isRehearsal(options) ? Math.max(from, ...read.entries.map((entry) => Date.parse(entry.at))) : from;
}

const clockFor = (io: Io, opened: Opened, options: CookOptions): Clock =>
  isRehearsal(options) ? rehearsedClock(io, instantFor(io, opened, options), options.speed ?? 1) : realClock(io);
