/** Every meal in `problems/` reads, says what it shows, and is what its name promises. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readProblemFile } from '../../src/problem/read.js';

const MEALS = readdirSync('problems').filter((name) => name.endsWith('.yaml'));

function read(name: string) {
  const result = readProblemFile(`problems/${name}`);
  if (!result.ok) throw new Error(result.messages.map((each) => `${each.file}:${each.line}: ${each.say}`).join('\n'));
  return result;
}

describe('the meals', () => {
  it.each(MEALS)('%s reads without an error or a warning', (name) => {
    expect(read(name).warnings).toEqual([]);
  });

  it.each(MEALS)('%s says first what it shows', (name) => {
    expect(readFileSync(`problems/${name}`, 'utf8')).toMatch(
      /^# (Shows: a|Shows: one|Shows: the|Cannot be done, because of )/,
    );
  });

  it('cooks the same menu outdoors on one grill and indoors without it', () => {
    const [grill, indoors] = ['one-grill-pork.yaml', 'one-grill-indoors.yaml'].map((name) => read(name).problem);
    const menu = (text: string): string => text.slice(text.indexOf('\ndishes:'));
    const texts = ['one-grill-pork.yaml', 'one-grill-indoors.yaml'].map((name) =>
      readFileSync(`problems/${name}`, 'utf8'),
    );
    expect(menu(texts[0]!)).toBe(menu(texts[1]!));
    expect(grill!.kitchen.appliances.map((appliance) => appliance.kind)).toEqual(['grill']);
    expect(indoors!.kitchen.appliances.map((appliance) => appliance.kind)).toEqual(['oven', 'cooktop']);
  });

  it('has a holiday table for one oven of two racks, and a wedding for three ovens, a grill and four cooks', () => {
    const holiday = read('holiday-one-oven.yaml').problem;
    const ovens = holiday.kitchen.appliances.filter((appliance) => appliance.kind === 'oven');
    expect(ovens.map(({ surface }) => surface.kind === 'racks' && surface.count)).toEqual([2]);
    const wedding = read('wedding-supper.yaml').problem;
    const kinds = wedding.kitchen.appliances.map((appliance) => appliance.kind);
    expect(kinds.filter((kind) => kind === 'oven')).toHaveLength(3);
    expect(kinds).toContain('grill');
    expect(wedding.cooks).toHaveLength(4);
    expect(wedding.dishes.length).toBeGreaterThanOrEqual(40);
  });

  it('has a meal that lasts through a change of the clocks', () => {
    const { problem } = read('clocks-change.yaml');
    const offset = (minute: number): string => {
      const at = new Date(problem.origin + minute * 60_000);
      const parts = new Intl.DateTimeFormat('en', { timeZone: problem.zone, timeZoneName: 'longOffset' });
      return parts.formatToParts(at).find((part) => part.type === 'timeZoneName')!.value;
    };
    expect([offset(0), offset(problem.serve)]).toEqual(['GMT+02:00', 'GMT+01:00']);
    // From 8:00 on the Saturday to 13:00 on the Sunday by the clock, and one hour more.
    expect(problem.serve).toBe((29 + 1) * 60);
  });
});
