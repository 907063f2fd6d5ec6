/** `hearthtable share FILE`: timelines for helpers, in formats that others read. */
import { type Command, InvalidArgumentError, Option } from 'commander';
import { viewOf } from '../../src/chart/view.js';
import { nearest } from '../../src/problem/nearest.js';
import { FORMATS, type Format } from '../../src/share/formats.js';
import { EXIT, type ExitCode, UsageError } from '../exit.js';
import { helpText } from '../help-text.js';
import type { Finish, Io } from '../io.js';
import { capabilityOf } from '../terminal/capability.js';
import { addEffort, addTimes, type EffortOptions } from './effort-options.js';
import { wholeNumber } from './looks.js';

export interface ShareOptions extends EffortOptions {
  readonly as?: readonly Format[];
  readonly for?: readonly string[];
  readonly each?: true;
  readonly card?: true;
  readonly output?: string;
  readonly overwrite?: true;
  readonly alarm: number;
  readonly plan?: string;
  readonly journal?: string | false;
  readonly json?: true;
}

export function addShare(program: Command, io: Io, finish: Finish): void {
  const command = program
    .command('share')
    .description('timelines for helpers: calendar, page, picture, Markdown and text')
    .argument('<file>', 'the meal, as YAML or JSON')
    .addOption(formatOption())
    .option('--for <cook>', "only this cook's calls, or those for anyone; may be said again", several)
    .option('--each', 'with -o: a file for each cook besides the one for all')
    .option('--card', "a card for each appliance's door instead: which heat when, and what is in it")
    .option('-o, --output <dir>', 'write files into this folder (a single format is printed without)')
    .option('--overwrite', 'also over files that this program did not write')
    .option('--alarm <minutes>', 'how long before each event of a calendar it rings', wholeNumber(0, 1440), 5)
    .option('--plan <json>', 'share this plan, as `plan --json` printed it, instead of working one out')
    .option('--journal <file>', 'share the plan in force in this journal, if not in the one beside the meal')
    .option('--no-journal', 'work out a plan, whatever the journal beside the meal has');
  addTimes(command);
  addEffort(command)
    .option('--json', 'print the timelines as data')
    .addHelpText(
      'after',
      helpText(
        io,
        `
Formats: ${FORMATS.map((format) => `${format} (${ABOUT[format]})`).join(', ')}.

Files are named after the meal and the cook. A calendar that is written anew into the same folder updates the
events of the one before: those that have changed count up, those that are gone are cancelled. A file that this program
did not write is left alone unless --overwrite is given.

Once the day has begun, and a journal stands beside the meal (supper.journal.jsonl), its plan is the one that is shared: that
of now, after all that has changed. --plan and --no-journal share another.

Examples:
  hearthtable share supper.yaml --as text --for Tomas
  hearthtable share supper.yaml -o helpers --each
  hearthtable share supper.yaml --as ics --for Ines -o helpers --alarm 10
  hearthtable share supper.yaml --as text --card
  hearthtable plan supper.yaml --json > plan.json
  hearthtable share supper.yaml --plan plan.json --as md

Exit codes: 0 shared, 1 no plan fits, 2 bad usage or input, 70 a fault of ours.`,
      ),
    )
    .action(async (file: string, options: ShareOptions) => finish(await runShare(io, file, options)));
}

const ABOUT: Readonly<Record<Format, string>> = {
  ics: 'a calendar with alarms',
  html: 'a page to read, tick and print',
  svg: 'the chart as a picture',
  md: 'Markdown with boxes to tick',
  text: 'to paste into a message',
};

function formatOption(): Option {
  const option = new Option('--as <format>', 'the format; several with commas; with -o all of them if not said');
  option.argParser((text: string, before: readonly Format[] = []) => [...before, ...text.split(',').map(formatIn)]);
  option.argChoices = [...FORMATS];
  return option;
}

function formatIn(text: string): Format {
  const word = text.trim();
  const found = FORMATS.find((format) => format === word);
  if (found) return found;
  const near = nearest(word, FORMATS);
  throw new InvalidArgumentError(`Formats are ${FORMATS.join(', ')}.${near === null ? '' : ` Perhaps: ${near}`}`);
}

const several = (text: string, before: readonly string[] = []): string[] => [...before, text];

async function runShare(io: Io, file: string, options: ShareOptions): Promise<ExitCode> {
  checkOptions(options);
  const { planToShare } = await import('../sharing/plan-to-share.js');
  const meal = await planToShare(io, file, options, capabilityOf(io, {}).progress);
  if ('code' in meal) return meal.code;
  const { whoIn, share } = await import('../sharing/share-plan.js');
  const view = viewOf(meal.problem, meal.plan);
  const who = whoIn(view, options.for ?? []);
  if (options.json) {
    const { documentOf } = await import('../../src/share/document.js');
    const { sharedOf } = await import('../../src/share/content.js');
    io.stdout.write(`${JSON.stringify(documentOf(sharedOf(view, who)), null, 2)}\n`);
    return EXIT.plan;
  }
  share(io, view, who, options);
  return EXIT.plan;
}

/** What does not go together. */
function checkOptions(options: ShareOptions): void {
  const { as, each, card, output, overwrite, json, plan, journal, serve, for: names } = options;
  const refuse = (say: string, hint: string): never => {
    throw new UsageError(`${say}\nPerhaps: ${hint}`);
  };
  if (json && (as || output !== undefined || card || each))
    refuse('--json prints data, and goes with none of --as, --card, --each and -o.', '--json alone');
  if (json) return;
  if (!as && output === undefined) refuse('Which format? --as says it.', `--as ${FORMATS.at(-1)}`);
  if (output === undefined && new Set(as).size > 1) refuse('Several formats need a folder to be written to.', '-o .');
  if (output === undefined && (each || overwrite))
    refuse(`--${each ? 'each' : 'overwrite'} is about files in a folder.`, '-o .');
  if (each && names) refuse('--each writes a file for every cook, --for says which.', 'one of the two');
  if (typeof journal === 'string' && plan !== undefined)
    refuse('--plan and --journal each say which plan.', 'one of the two');
  if (plan !== undefined && serve !== undefined)
    refuse('A plan has its serving time: --serve does not go with --plan.', 'leave --serve out');
}
