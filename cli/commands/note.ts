/** `hearthtable note FILE …`: what happened, written into the meal's journal. */
import type { Command } from 'commander';
import type { Day } from '../../src/live/journal/day.js';
import type { Entry } from '../../src/live/journal/entries.js';
import { isRefusal } from '../../src/live/journal/names.js';
import { entryWords } from '../../src/live/journal/words.js';
import { EXIT, type ExitCode } from '../exit.js';
import { helpText } from '../help-text.js';
import type { Finish, Io } from '../io.js';
import { firstPlanFor, noted, type Opened, openDay, presentOf, refusalWords, saidBy } from '../journal/open-day.js';
import { bodiesOf, FORMS } from '../journal/said.js';

interface NoteOptions {
  readonly at?: string;
  readonly who?: string;
  readonly place?: string;
  readonly heat?: string;
  readonly cooks?: readonly string[];
  readonly journal?: string;
  readonly clock?: string;
  readonly json?: true;
}

export function addNote(program: Command, io: Io, finish: Finish): void {
  program
    .command('note')
    .description('write down what happened: started, done, a reading, a loss, a change')
    .argument('<file>', 'the meal, as YAML or JSON')
    .argument('[entry...]', 'what happened; without it, the entries so far are listed')
    .option('--at <time>', 'when it happened: 17:05, or "3 min ago" (now)')
    .option('--who <name>', 'who says so')
    .option('--place <place>', 'started or done elsewhere than planned: oven, "front left", left')
    .option('--heat <heat>', 'what the dial really says: 170C')
    .option('--cooks <name...>', 'by whom, if not by those of the plan')
    .option('--journal <file>', 'the journal, if not the one beside the meal')
    .option('--clock <time>', 'take this for the present time, to try things out')
    .option('--json', 'print what was written, as JSON')
    .addHelpText(
      'after',
      helpText(
        io,
        `
Entries are added to a journal beside the meal (supper.yaml: supper.journal.jsonl) and are on the disk when the
command ends. Several people may note at once. Nothing is changed or removed: an undo is an entry.

Entries:
${Object.values(FORMS)
  .map((form) => `  ${form}`)
  .join('\n')}

Examples:
  hearthtable note supper.yaml started "Roast roots/roast"
  hearthtable note supper.yaml done "Roast roots/roast" --at 17:05 --who Ines
  hearthtable note supper.yaml started "Roots/roast" --place oven --heat 190C
  hearthtable note supper.yaml reading 54C
  hearthtable note supper.yaml guests all 8 instead of 6
  hearthtable note supper.yaml lost "half sheet"
  hearthtable note supper.yaml undo

Exit codes: 0 noted, 2 refused (with the reason and what would be right), 70 a fault of ours.`,
      ),
    )
    .action(async (file: string, words: string[], options: NoteOptions) =>
      finish(await runNote(io, file, words, options)),
    );
}

async function runNote(io: Io, file: string, words: readonly string[], options: NoteOptions): Promise<ExitCode> {
  const opened = await openDay(io, file, options.journal);
  if (opened === null) return EXIT.usage;
  if (words.length === 0) return listed(io, opened, options.json === true);
  const { meal, rebuilt: now } = opened;
  const { problem } = meal;
  const at = presentOf(io, problem, options.clock);
  const when = options.at === undefined ? at : saidBy('at', options.at, at, problem);
  const bodies = bodiesOf(now.day, now.inForce, words, when, options);
  if (isRefusal(bodies)) return refused(io, refusalWords(bodies));
  const plan = await firstPlanFor(io, opened);
  const made = noted(opened, bodies, { at, when, who: options.who ?? null }, plan);
  if (isRefusal(made)) return refused(io, refusalWords(made));
  const told = made.filter(({ kind }) => kind !== 'begin' && kind !== 'plan');
  if (options.json) io.stdout.write(`${JSON.stringify(told, null, 2)}\n`);
  else for (const entry of told) io.stdout.write(`${numbered(now.day, entry)}\n`);
  return EXIT.plan;
}

const numbered = ({ problem }: Day, entry: Entry): string =>
  `${String(entry.seq).padStart(4)}  ${entryWords(problem, entry)}`;

function refused(io: Io, words: string): ExitCode {
  io.stderr.write(`${words}\nNothing was noted.\n`);
  return EXIT.usage;
}

function listed(io: Io, { read, rebuilt: { day, inForce } }: Opened, json: boolean): ExitCode {
  if (json) {
    io.stdout.write(`${JSON.stringify(read.entries, null, 2)}\n`);
    return EXIT.plan;
  }
  const counts = new Set(inForce.map(({ seq }) => seq));
  if (read.entries.length === 0) io.stdout.write('Nothing is noted yet.\n');
  for (const entry of read.entries) {
    const back = counts.has(entry.seq) || entry.kind === 'undo' ? '' : '  (taken back)';
    io.stdout.write(`${numbered(day, entry)}${back}\n`);
  }
  return EXIT.plan;
}
