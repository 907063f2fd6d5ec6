/** `hearthtable wall FILE`: the day as a page for phones and for the kitchen's wall. */
import type { Command } from 'commander';
import { begun } from '../cooking/begun.js';
import { realClock } from '../cooking/clock.js';
import { type Desk, deskFor } from '../cooking/desk.js';
import { EXIT, type ExitCode, UsageError } from '../exit.js';
import { helpText } from '../help-text.js';
import type { Finish, Io } from '../io.js';
import { type Opened, openDay } from '../journal/open-day.js';
import { capabilityOf } from '../terminal/capability.js';
import { addLooks, type LookOptions, wholeNumber, wishesOf } from './looks.js';

interface WallOptions extends LookOptions {
  readonly openToNetwork?: true;
  readonly port: number;
  readonly who?: string;
  readonly newLinks?: true;
  readonly journal?: string;
  readonly rehearsal?: true;
  readonly codes: boolean;
}

const PORT = 4330;

export function addWall(program: Command, io: Io, finish: Finish): void {
  const command = program
    .command('wall')
    .description('the day as a page for phones: now, next, each list, to tick off')
    .argument('<file>', 'the meal, as YAML or JSON')
    .option('--open-to-network', 'let other machines in, not only this one')
    .option('--port <number>', 'the port that it listens on; 0 takes any', wholeNumber(0, 65_535), PORT)
    .option('--who <name>', 'who is in charge: what that link ticks off is noted as theirs')
    .option('--new-links', 'links of before hold no longer')
    .option('--no-codes', 'print the links without QR codes')
    .option('--journal <file>', 'the journal, if not the one beside the meal')
    .option('--rehearsal', 'show the rehearsal that `cook --at` has open, by its clock');
  addLooks(command)
    .addHelpText(
      'after',
      helpText(
        io,
        `
Each cook gets a link of their own, which ticks off their calls and anyone's; the first link ticks off everything, the
last one nothing. What is ticked off goes into the meal's journal, as by \`cook\` and \`note\`, which may run at the same
time; pages show what these note within a second. Links stay the same until --new-links (what they are made from is
kept beside the meal: supper.wall.key). Without --open-to-network only this machine reaches the page. With --rehearsal
it has the journal and the clock of the \`cook --at\` that is open on this machine.

Examples:
  hearthtable wall supper.yaml
  hearthtable wall supper.yaml --open-to-network
  hearthtable wall supper.yaml --rehearsal
  hearthtable wall supper.yaml --open-to-network --who Ines --port 8080`,
      ),
    )
    .action(async (file: string, options: WallOptions) => finish(await runWall(io, file, options)));
}

async function runWall(io: Io, file: string, options: WallOptions): Promise<ExitCode> {
  const able = capabilityOf(io, { ...wishesOf(options), text: true });
  const { journalBeside, rehearsalBeside } = await import('../journal/journal-file.js');
  const opened = await openDay(io, file, options.journal ?? (options.rehearsal ? rehearsalBeside(file) : undefined));
  if (opened === null) return EXIT.usage;
  const { keyAt, linksFor } = await import('../wall/links.js');
  const { LOOPBACK, networkAddresses } = await import('../wall/addresses.js');
  const { serveWall } = await import('../wall/serve.js');
  const { welcomeLines } = await import('../wall/welcome.js');
  const { sparing } = await import('../wall/sparing.js');
  const addresses = options.openToNetwork ? networkAddresses() : [];
  if (options.openToNetwork && addresses.length === 0)
    throw new UsageError('This machine is in no network.\nPerhaps: leave --open-to-network out');
  const desk = options.rehearsal
    ? await rehearsalDesk(io, file, opened, options)
    : await deskOfTheDay(io, opened, options);
  try {
    const key = keyAt(journalBeside(file).replace(/journal\.jsonl$/, 'wall.key'), options.newLinks === true);
    const links = linksFor(opened.meal.problem, key, options.who ?? null);
    const wall = await serveWall(desk, {
      links,
      bind: options.openToNetwork ? '0.0.0.0' : '127.0.0.1',
      hosts: [...addresses, ...LOOPBACK],
      port: options.port,
      rehearsal: options.rehearsal === true,
      noted: (line) => io.stdout.write(`${line}\n`),
      refused: sparing((line) => io.stderr.write(`${line}\n`), realClock(io).now),
    });
    const rows = io.stdout.isTTY ? (io.stdout.rows ?? null) : null;
    const look = options.codes && io.stdout.isTTY ? { unicode: able.unicode, colors: able.colors !== 'none' } : null;
    io.stdout.write(
      `${welcomeLines({ links, addresses, port: wall.port, width: able.width, rows, look }).join('\n')}\n`,
    );
    await (io.stopped?.() ?? interrupted());
    // A terminal has written ^C where the next thing would stand.
    if (io.stdout.isTTY) io.stdout.write('\n');
    await wall.close();
  } finally {
    desk.close();
  }
  return EXIT.plan;
}

async function deskOfTheDay(io: Io, opened: Opened, { who }: WallOptions): Promise<Desk> {
  const clock = realClock(io);
  return deskFor(await begun(io, opened, clock), clock, who ?? null);
}

/** By the clock of whoever rehearses; while nobody does, nothing can be ticked off. */
async function rehearsalDesk(io: Io, file: string, opened: Opened, { who }: WallOptions): Promise<Desk> {
  const { followedClock } = await import('../cooking/rehearsal-clock.js');
  const clock = followedClock(io, opened.path);
  if (clock === null)
    throw new UsageError(`Nobody rehearses this meal just now.\nPerhaps: first: hearthtable cook ${file} --at 15:30`);
  const desk = deskFor(opened, clock, who ?? null);
  return { ...desk, closed: () => desk.closed() ?? (clock.runs() ? null : 'Nobody rehearses any more.') };
}

/** Ctrl+C, or whatever else asks the process to end. */
const interrupted = (): Promise<void> =>
  new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
  });
