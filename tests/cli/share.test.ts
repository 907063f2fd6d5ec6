import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { apart, slug } from '../../cli/sharing/names.js';
import { shareDocument } from '../../src/share/document.js';
import { ran } from '../support/command.js';

const MEAL = 'problems/clocks-change.yaml';
const home = mkdtempSync(join(tmpdir(), 'share-'));
const PLAN = join(home, 'plan.json');
afterAll(() => rmSync(home, { recursive: true, force: true }));

let folders = 0;
const folder = () => join(home, `out-${++folders}`);
const share = (...args: string[]) => ran(['share', MEAL, '--plan', PLAN, ...args]);

beforeAll(async () => {
  const { stdout } = await ran(['plan', MEAL, '--effort', 'quick', '--json']);
  writeFileSync(PLAN, stdout);
});

const cooks = () =>
  (JSON.parse(readFileSync(PLAN, 'utf8')) as { calls: { cook: string | null }[] }).calls
    .map(({ cook }) => cook)
    .find((cook) => cook !== null)!;

describe('share', () => {
  it('prints one format, of a plan that it works out or that was printed', async () => {
    const printed = await share('--as', 'text');
    expect([printed.code, printed.stderr]).toEqual([0, '']);
    const solved = await ran(['share', MEAL, '--effort', 'quick', '--as', 'text']);
    expect(solved.stdout).toBe(printed.stdout);
    expect(printed.stdout.endsWith('\nPlanned with Hearthtable.\n')).toBe(true);
  });

  it('prints data that keep to their schema', async () => {
    const { code, stdout } = await share('--json');
    expect(code).toBe(0);
    expect(shareDocument.safeParse(JSON.parse(stdout)).error).toBeUndefined();
  });

  it('takes a cook’s name however it is written, and proposes the nearest', async () => {
    const cook = cooks();
    const { stdout } = await share('--as', 'md', '--for', cook.toUpperCase());
    expect(stdout).toContain(`: ${cook}\n`);
    const missed = await share('--as', 'md', '--for', `${cook}x`);
    expect([missed.code, missed.stdout]).toEqual([2, '']);
    expect(missed.stderr).toBe(`--for: the meal has no cook \`${cook}x\`.\nPerhaps: ${cook}\n`);
  });

  it('writes files named after the meal and the cook, all formats, and a second time over its own', async () => {
    const out = folder();
    const first = await share('-o', out, '--each');
    expect([first.code, first.stderr]).toEqual([0, '']);
    const names = readdirSync(out).sort();
    expect(first.stdout.trim().split('\n').sort()).toEqual(names.map((name) => join(out, name)));
    expect(names.every((name) => /^[a-z-]+\.[a-z]+$/.test(name))).toBe(true);
    const calendars = () => readdirSync(out).filter((name) => name.endsWith('.ics'));
    const numbers = () =>
      calendars().map((name) => readFileSync(join(out, name), 'utf8').match(/^(?:UID|SEQUENCE):.*$/gm));
    const before = numbers();
    expect((await share('-o', out, '--each')).code).toBe(0);
    expect(numbers()).toEqual(before);
    expect(readdirSync(out).sort()).toEqual(names);
  });

  it('leaves alone what it did not write, all files or none', async () => {
    const out = folder();
    await share('-o', out, '--as', 'text');
    const [name] = readdirSync(out);
    const mine = join(out, name!.replace(/txt$/, 'md'));
    writeFileSync(mine, 'my own notes');
    const refused = await share('-o', out, '--as', 'ics,md');
    expect(refused.code).toBe(2);
    expect(refused.stderr).toContain(mine);
    expect(refused.stderr).toContain('--overwrite');
    expect(readFileSync(mine, 'utf8')).toBe('my own notes');
    expect(readdirSync(out)).toHaveLength(2);
    expect((await share('-o', out, '--as', 'md', '--overwrite')).code).toBe(0);
    expect(readFileSync(mine, 'utf8')).toContain('- [ ] ');
  });

  it('replaces a link, never what it points at', async () => {
    const out = folder();
    await share('-o', out, '--as', 'md');
    const [name] = readdirSync(out);
    const target = join(home, 'elsewhere.md');
    writeFileSync(target, 'Planned with Hearthtable.');
    rmSync(join(out, name!));
    symlinkSync(target, join(out, name!));
    await share('-o', out, '--as', 'md');
    expect(readFileSync(target, 'utf8')).toBe('Planned with Hearthtable.');
    expect(readFileSync(join(out, name!), 'utf8')).toContain('- [ ] ');
  });

  it('says why nothing can be written', async () => {
    const file = join(home, 'a-file');
    writeFileSync(file, '');
    const { code, stderr } = await share('-o', join(file, 'within'), '--as', 'md');
    expect([code, stderr]).toEqual([
      2,
      `The folder ${join(file, 'within')} cannot be made: a part of the path is no folder.\n`,
    ]);
    // Where the system has such folders, nothing can be made in them, and it says that they are not there.
    expect((await share('-o', '/proc/none/within', '--as', 'md')).stderr).toMatch(
      /^The folder \/proc\/none\/within cannot be made: .+\.\n$/,
    );
    const out = folder();
    await share('-o', out, '--as', 'md');
    const [name] = readdirSync(out);
    rmSync(join(out, name!));
    mkdirSync(join(out, name!));
    expect((await share('-o', out, '--as', 'md')).stderr).toContain('there is a folder of that name');
  });

  it.each([
    [['--as', 'htlm'], 'Formats are'],
    [[], 'Which format?'],
    [['--as', 'ics,md'], 'Several formats need a folder'],
    [['--as', 'md', '--each'], '--each is about files in a folder'],
    [['--as', 'md', '--overwrite'], '--overwrite is about files in a folder'],
    [['--json', '-o', '.'], '--json prints data'],
    [['--each', '-o', '.', '--for', 'anyone'], '--each writes a file for every cook'],
    [['--as', 'md', '--serve', '19:00'], '--serve does not go with --plan'],
    [['--as', 'ics', '--card'], 'A card does not come as ics'],
    [['--as', 'ics', '--alarm', 'soon'], 'A whole number'],
  ])('refuses %j', async (args, say) => {
    const { code, stdout, stderr } = await share(...args);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain(say);
    expect(stderr).not.toMatch(/at .*\.ts:/);
  });

  it('refuses a plan that is none, is of another meal, or is not right', async () => {
    const other = join(home, 'other.json');
    const shareOf = async (text: string, meal = MEAL) => {
      writeFileSync(other, text);
      return (await ran(['share', meal, '--plan', other, '--as', 'text'])).stderr;
    };
    const plan = readFileSync(PLAN, 'utf8');
    expect((await ran(['share', MEAL, '--plan', join(home, 'none.json'), '--as', 'md'])).stderr).toContain(
      'no such file',
    );
    expect(await shareOf('{')).toContain('is no JSON');
    expect(await shareOf('{}')).toContain('is no plan of this program: format');
    expect(await shareOf(plan, 'problems/holiday-one-oven.yaml')).toContain('is the plan of another meal');
    const { steps, ...rest } = JSON.parse(plan) as { steps: unknown[] };
    expect(await shareOf(JSON.stringify({ ...rest, steps: steps.slice(1) }))).toContain('does not go with');
  });

  it('ends as plan does where nothing fits', async () => {
    const { code, stdout, stderr } = await ran([
      'share',
      'problems/cannot-no-hands.yaml',
      '--effort',
      'quick',
      '--as',
      'md',
    ]);
    expect([code, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(/^No plan fits\./);
  });
});

describe('names of files', () => {
  it('lead nowhere else, whatever the title is', () => {
    expect(['Orchard supper!', '../../etc/passwd', 'Crème à l’œuf', '夜のパン', '...', ''].map(slug)).toEqual([
      'orchard-supper',
      'etc-passwd',
      'creme-a-l-œuf',
      '夜のパン',
      'meal',
      'meal',
    ]);
    expect([...slug('x'.repeat(500))]).toHaveLength(60);
  });

  it('are told apart', () => {
    expect(apart(['a', 'b', 'a', 'a-2', 'a'])).toEqual(['a', 'b', 'a-2', 'a-2-2', 'a-3']);
  });
});
