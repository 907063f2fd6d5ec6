/** `hearthtable estimate`: minutes, pull temperature and rise of one piece, with its curve. */
import { type Command, Option } from 'commander';
import { ASCII, UNICODE } from '../../src/chart/glyphs.js';
import type { Asked } from '../../src/estimate/asked.js';
import { SHAPES, type Words } from '../../src/estimate/words.js';
import { EXIT, type ExitCode } from '../exit.js';
import { helpText } from '../help-text.js';
import type { Finish, Io } from '../io.js';
import { capabilityOf } from '../terminal/capability.js';
import { printed } from '../terminal/paint.js';
import { addLooks, columnsIn, type LookOptions, wishesOf } from './looks.js';

/** The piece's, and the columns of text. */
interface Widths {
  readonly size?: string;
  readonly columns?: number;
}

type EstimateOptions = Omit<Words, 'width'> & Omit<LookOptions, 'width'> & { json?: true; width?: Widths };

export function addEstimate(program: Command, io: Io, finish: Finish): void {
  const command = program
    .command('estimate')
    .description('minutes, pull temperature and rise of one piece, with its curve')
    .option('--food <name>', 'what it is: pork, leg of lamb, chicken, salmon, potato')
    .addOption(new Option('--shape <shape>', 'its shape, where its name does not say it').choices(SHAPES))
    .option('--thickness <size>', 'how thick; of a cylinder and a sphere the diameter')
    .option('--length <size>', 'how long')
    .option('--weight <weight>', 'how heavy; of thickness, length and weight any two do')
    .option('--from <heat>', 'where its core begins (4C)')
    .option('--bone', 'with its bone')
    .option('--crust <size>', 'how thick a crust of dough, salt or crumbs is around it')
    .option('--air <heat>', 'how hot the air is; several with commas are compared')
    .option('--target <heat>', 'pulled so that the core rests up to this')
    .option('--pull <heat>', 'pulled when the core is at this')
    .option('--fan', 'an oven whose fan blows')
    .option('--grill', 'a closed grill, on the grate beside its fire')
    .option('--pan', 'on the floor of a pan, not on a rack or a grate')
    .option('--foil', 'wrapped in foil')
    .option('--sear <how>', 'seared first, by minutes and iron: "12 min 280C"')
    .option('--rest <time>', 'minutes of rest (until the core is at its peak)')
    .option('--room <heat>', 'how warm the room is (20C)')
    .option('--accept <caution...>', 'cautions that you take on: core-unsafe')
    .option('--json', 'print the estimate document');
  const width = new Option('--width <size>', 'how wide (bricks, slabs); without a unit: columns of text').argParser(
    widths,
  );
  addLooks(command, width)
    .addHelpText(
      'after',
      helpText(
        io,
        `
Each quantity with its unit: 11cm or 4.5in, 3.2kg or 7lb, 165C or 330F, 25min.
What is told is in the units that you use.

Examples:
  hearthtable estimate --food pork --thickness 11cm --weight 3.2kg \\
    --air 165C --target 60C
  hearthtable estimate --food pork --thickness 11cm --weight 3.2kg \\
    --air 150C,165C,180C --target 60C --rest 25min
  hearthtable estimate --food "leg of lamb" --bone --thickness 5in \\
    --weight 6lb --air 325F --fan --pull 130F
  hearthtable estimate --food "rib eye steak" --thickness 4cm --grill \\
    --sear "4 min 280C" --air 130C --target 55C
  hearthtable estimate --food chicken --weight 1.8kg \\
    --air 190C --target 75C --json

Exit codes: 0 an estimate, 1 the core never gets there, 2 bad usage or input,
70 a fault of ours.`,
      ),
    )
    .action(async (options: EstimateOptions) => finish(await runEstimate(io, options)));
}

/** `--width 20cm` is the piece's, `--width 100` is columns, and both may be given. */
const widths = (text: string, before: Widths | undefined): Widths =>
  /^\s*\d+\s*$/.test(text) ? { ...before, columns: columnsIn(text.trim()) } : { ...before, size: text };

async function runEstimate(io: Io, { width = {}, ...options }: EstimateOptions): Promise<ExitCode> {
  // The heat model is loaded by nobody who does not ask it.
  const { askedOf } = await import('../../src/estimate/asked.js');
  const asked = askedOf({ ...options, ...(width.size !== undefined && { width: width.size }) });
  if ('mistakes' in asked) {
    for (const { option, say, hint } of asked.mistakes) io.stderr.write(told(option, say, hint));
    if (asked.mistakes.length > 1) io.stderr.write(`${asked.mistakes.length} mistakes in all.\n`);
    return EXIT.usage;
  }
  const looks = { ...options, ...(width.columns !== undefined && { width: width.columns }) };
  return answered(io, asked, looks);
}

async function answered(io: Io, asked: Asked, options: LookOptions & { json?: true }): Promise<ExitCode> {
  const { estimateOf } = await import('../../src/estimate/estimate.js');
  const estimate = estimateOf(asked);
  if ('say' in estimate) {
    io.stderr.write(told(null, estimate.say, estimate.hint));
    return EXIT.usage;
  }
  const { answers, never } = estimate;
  if (options.json) io.stdout.write(`${JSON.stringify(estimate, null, 2)}\n`);
  if (answers.length === 0 && never !== null) {
    const { neverWords } = await import('../estimate/estimate-words.js');
    io.stderr.write(`${neverWords(estimate, never, asked.units)}\n`);
    return EXIT.none;
  }
  if (options.json) return EXIT.plan;
  const { estimateLines } = await import('../estimate/estimate-lines.js');
  const able = capabilityOf(io, wishesOf(options));
  io.stdout.write(
    printed(estimateLines(estimate, asked.units, able.width, able.unicode ? UNICODE : ASCII), able.colors),
  );
  return EXIT.plan;
}

const told = (option: string | null, say: string, hint: string | null): string =>
  `${option === null ? '' : `--${option}: `}${say}\n${hint === null ? '' : `Perhaps: ${hint}\n`}`;
