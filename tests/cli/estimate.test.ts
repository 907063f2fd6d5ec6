/** `hearthtable estimate`: arguments in; what is printed and the exit code out. */
import { describe, expect, it } from 'vitest';
import { estimate as document } from '../../src/estimate/document.js';
import { ran } from '../support/command.js';
import { type Case, expectEach } from '../support/command-cases.js';

const LOIN = ['estimate', '--food', 'pork', '--thickness', '11cm', '--weight', '3.2kg', '--target', '60C'];
const AT = [...LOIN, '--air', '165C'];

const cases: readonly Case[] = [
  {
    args: ['estimate'],
    code: 2,
    stderr: ['--food: Nothing says what it is.', '--air: Nothing', '--target: Nothing', '3 mistakes in all.'],
  },
  {
    args: ['estimate', '--help'],
    code: 0,
    stdout: [
      '--sear <how>',
      '--accept <caution...>',
      'Examples:',
      'hearthtable estimate --food pork',
      'Exit codes: 0 an estimate',
    ],
  },
  { args: [...AT, '--asci'], code: 2, stderr: ['Did you mean --ascii?'] },
  { args: [...AT, '--shape', 'cube'], code: 2, stderr: ['cylinder, sphere, slab, brick'] },
  { args: [...AT, '--width', '5'], code: 2, stderr: ['A whole number from 20 to 500'] },
  { args: [...AT, 'more'], code: 2, stderr: ['too many arguments'] },
  {
    args: [...LOIN, '--air', '55C'],
    code: 2,
    stderr: ['--air: In air of 55 °C the core never gets to 60 °C.\nPerhaps: air well above 60 °C'],
  },
  {
    args: AT,
    code: 0,
    stdout: [
      /^Pork: cylinder 11 cm across, 32\.1 cm long, 3\.2 kg, from 4 °C/,
      'Oven at 165 °C, in still air, on a rack; rests under loose foil',
      /\nMinutes +1 h \d+ min likely, between/,
      /\nRange +5 % in size: \d+ min; 15 % in heat transfer/,
      /\nPull +at \d\d °C \(\d+ °F\) in the core\n/,
      /\nRise +\d+ °C, to 60 °C \(140 °F\) \d+ min after the pull\n/,
      /\nRest +\d+ min; at its end 60 °C in the core/,
      /\nLethality +all of the published 12 min at 60 °C, which kill 6\.5 log of\s+Salmonella \(USDA FSIS, Appendix A/,
      /\nPublished +pork: 63 °C \(145 °F\), then 3 min of rest; not met/,
      /\nCautions\n {2}▲ Set to 60 °C; published for pork: 63 °C/,
      'Minutes say when to look',
      '█',
      '○',
    ],
  },
  {
    args: [
      'estimate',
      '--food',
      'leg of lamb',
      '--bone',
      '--thickness',
      '5in',
      '--weight',
      '6lb',
      '--air',
      '325F',
      '--pull',
      '130F',
      '--fan',
    ],
    code: 0,
    stdout: [
      /^Leg of lamb: cylinder 5 in across, 8\.\d in long, 6 lb, with its bone, from 39 °F/,
      'Oven at 325 °F, with its fan, on a rack',
      /\nPull +at 130 °F \(54 °C\) in the core/,
      '4 °F at the start:',
    ],
  },
  {
    args: [...AT, '--grill', '--sear', '12 min 280C', '--rest', '20min'],
    code: 0,
    stdout: [
      'Seared for 12 min at 280 °C, then grill at 165 °C',
      'Grill: outdoors only',
      'Iron from fierce heat',
      'and still',
      'grill at 165 °C██',
    ],
  },
  {
    args: [...LOIN, '--air', '62C,70C,90C', '--rest', '25min', '--width', '110'],
    code: 0,
    stdout: [
      /\n {2}Air +Minutes +Range +Pull +Rise +Peak +Rest +Lethality\n/,
      /\nA 70 °C +(\d d )?\d+ h .*\nB 90 °C +\d h/,
      /\nIn an oven at 62 °C the core never gets to 60 °C, .*: it would\nfrom \d\d °C on\.|it would from \d\d °C on\./,
      'A on the heat   a from the pull on',
    ],
  },
  {
    args: [...LOIN, '--air', '62C'],
    code: 1,
    stderr: [/^In an oven at 62 °C the core never gets to 60 °C, .* from \d\d °C on\.\n$/],
  },
  {
    args: [
      'estimate',
      '--food',
      'minced beef',
      '--shape',
      'slab',
      '--thickness',
      '1in',
      '--air',
      '400F',
      '--target',
      '130F',
    ],
    code: 2,
    stderr: ['published for ground meat: 71 °C (160 °F)', 'Perhaps: a core of 71C or 160F; `--accept core-unsafe`'],
  },
  {
    args: [
      'estimate',
      '--food',
      'minced beef',
      '--shape',
      'slab',
      '--thickness',
      '1in',
      '--air',
      '400F',
      '--target',
      '130F',
      '--accept',
      'core-unsafe',
    ],
    code: 0,
    stdout: ['▲ Set to 130 °F; published for ground meat: 71 °C (160 °F).', 'ground meat: 71 °C (160 °F); not met'],
  },
  {
    args: [
      'estimate',
      '--food',
      'salmon',
      '--shape',
      'brick',
      '--thickness',
      '4cm',
      '--width',
      '12cm',
      '--length',
      '30cm',
      '--air',
      '120C',
      '--pull',
      '52C',
      '--width',
      '100',
    ],
    code: 0,
    stdout: ['brick 4 cm thick, 12 cm wide, 30 cm long', 'no times at a temperature are published for this food'],
  },
];

describe('hearthtable', () => {
  expectEach(cases);
});

describe('estimate', () => {
  it('prints a document that its own schema accepts, and the same one again', async () => {
    const first = await ran([...AT, '--json']);
    const second = await ran([...AT, '--json']);
    expect(document.parse(JSON.parse(first.stdout)).answers).toHaveLength(1);
    expect([first.code, first.stderr, second.stdout]).toEqual([0, '', first.stdout]);
  });

  it('prints it too where the core never gets there', async () => {
    const { code, stdout, stderr } = await ran([...LOIN, '--air', '62C', '--json']);
    expect(code).toBe(1);
    expect(document.parse(JSON.parse(stdout))).toMatchObject({ answers: [], never: { celsius: [62] } });
    expect(stderr).toContain('never gets to');
  });

  it('is never wider than it may be, and 7-bit where that is asked', async () => {
    const widest = (text: string) => Math.max(...text.split('\n').map((line) => [...line].length));
    for (const air of ['165C', '62C,150C,165C,180C']) {
      for (const width of ['20', '40', '64', '80', '120', '200']) {
        const { stdout } = await ran([...LOIN, '--air', air, '--width', width]);
        expect(widest(stdout)).toBeLessThanOrEqual(Number(width));
        const plain = await ran([...LOIN, '--air', air, '--width', width, '--ascii']);
        expect(plain.stdout).toMatch(/^[\n\x20-\x7e]*$/);
        expect(widest(plain.stdout)).toBeLessThanOrEqual(Number(width));
      }
    }
  });

  it('draws nothing where there is no room, and says the same', async () => {
    const { stdout } = await ran([...AT, '--width', '30']);
    expect(stdout).not.toMatch(/[█○]/);
    expect(stdout).toMatch(/\nPull\n {2}at \d\d °C/);
  });

  it('colours only where that is wanted', async () => {
    const coloured = async (...options: string[]) => (await ran([...AT, ...options])).stdout.includes('\u001b[');
    expect([await coloured(), await coloured('--color', 'always')]).toEqual([false, true]);
  });
});
