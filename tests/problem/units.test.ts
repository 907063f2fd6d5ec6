/** `units` of a meal: how clock times and heats are told, in one place for all who tell them. */
import { describe, expect, it } from 'vitest';
import { coreWords } from '../../src/chart/cores.js';
import { UNICODE } from '../../src/chart/glyphs.js';
import { textOf } from '../../src/chart/line.js';
import { reportLines } from '../../src/chart/report.js';
import { viewOf } from '../../src/chart/view.js';
import { callsOf } from '../../src/plan/calls.js';
import { degreeFor, shortHeat, showCoreHeat, showHeat, showHeatSpan } from '../../src/problem/degrees.js';
import type { ShownUnits } from '../../src/problem/problem.js';
import { readProblem } from '../../src/problem/read.js';
import { showClock } from '../../src/units/clock.js';
import { orchardSupper } from '../support/sample-plan.js';

const USUAL: ShownUnits = { clock: '24h', heat: null, both: false };
const asking = (units: Partial<ShownUnits>) => ({ units: { ...USUAL, ...units } });

const MEAL = `format: hearthtable/1
title: Toast
serve: 2026-10-03 18:30
zone: Europe/Lisbon
kitchen: { kitchen: K, appliances: [{ appliance: o, kind: oven, racks: { count: 1, size: 40 x 40 cm, height: 30 cm, clearance: 3 cm }, modes: { roast: { heat: 75-270C } }, heats: 10C/min, cools: 4C/min }] }
dishes: [{ dish: Bread, steps: [{ step: cut, work: prep, takes: 5 min }] }]
`;

const unitsIn = (lines: string) => {
  const read = readProblem(`${MEAL}${lines}`, { name: 'meal.yaml' });
  return read.ok ? read.problem.units : read.messages.map(({ code, say, hint, line }) => ({ code, say, hint, line }));
};

describe('units in a file', () => {
  it('are the usual ones where nothing is said', () => {
    expect(unitsIn('')).toEqual(USUAL);
    expect(unitsIn('units: {}\n')).toEqual(USUAL);
  });

  it('may each be said', () => {
    expect(unitsIn('units: { clock: 12h, heat: F, both: yes }\n')).toEqual({ clock: '12h', heat: 'F', both: true });
    expect(unitsIn('units: { heat: C, both: no }\n')).toEqual({ clock: '24h', heat: 'C', both: false });
  });

  it('are refused where they are misspelt, with the right spelling', () => {
    expect(unitsIn('units: { clock: 12, heats: F }\n')).toEqual([
      { code: 'word', line: 7, say: '`clock` cannot be the number 12.', hint: '24h, 12h' },
      { code: 'unknown-key', line: 7, say: '`heats` is not a key of `units`.', hint: 'heat' },
    ]);
    expect(unitsIn('units: { heat: K }\n')).toEqual([
      { code: 'word', line: 7, say: '`heat` cannot be `K`.', hint: 'C' },
    ]);
  });
});

describe('a clock of twelve hours', () => {
  const at = (time: string) => showClock(Date.parse(`2026-10-03T${time}:00Z`), 'UTC', '12h');

  it('has noon and midnight right', () => {
    expect(['00:00', '00:05', '11:59', '12:00', '12:30', '13:00', '23:59'].map(at)).toEqual([
      '12:00 am',
      '12:05 am',
      '11:59 am',
      '12:00 pm',
      '12:30 pm',
      '1:00 pm',
      '11:59 pm',
    ]);
  });
});

describe('heats', () => {
  it("are told in the dial's degrees unless others are asked for, which are whole", () => {
    const f325 = (325 - 32) / 1.8;
    expect(showHeat(asking({}), f325, 'F')).toBe('325 °F');
    expect(showHeat(asking({ heat: 'C' }), f325, 'F')).toBe('163 °C');
    expect(showHeat(asking({ both: true }), f325, 'F')).toBe('325 °F (163 °C)');
    expect(showHeat(asking({ heat: 'F', both: true }), 165, 'C')).toBe('329 °F (165 °C)');
    expect(shortHeat(asking({ heat: 'F', both: true }), 165, 'C')).toBe('329 °F');
    expect(showCoreHeat(asking({ both: true }), 57.4)).toBe('57 °C (135 °F)');
    expect(showHeatSpan(asking({ both: true }), 150, 180)).toBe('150-180 °C (302-356 °F)');
    expect([degreeFor(asking({})), degreeFor(asking({}), 'F'), degreeFor(asking({ heat: 'C' }), 'F')]).toEqual([
      'C',
      'F',
      'C',
    ]);
  });
});

describe('a plan told in other units', () => {
  const { problem: usual, plan } = orchardSupper();
  const problem = { ...usual, units: { clock: '12h', heat: 'F', both: true } as const };
  const calls = callsOf(problem, plan);
  const view = viewOf(problem, { ...plan, calls });

  it('has the same calls, with every time and every heat in them', () => {
    expect(calls.map(({ at, cook, dish, step }) => ({ at, cook, dish, step }))).toEqual(
      plan.calls.map(({ at, cook, dish, step }) => ({ at, cook, dish, step })),
    );
    const said = calls.map(({ say }) => say).join('\n');
    expect(said).not.toMatch(/\b\d\d:\d\d(?! [ap]m)/);
    expect(said).not.toMatch(/\d °C(?!\))/);
    expect(said).toMatch(/\d °F \(\d+ °C\)/);
  });

  it('says the same on the chart, in the list of heats and of cores', () => {
    const lines = reportLines(view, 120, UNICODE).map(textOf);
    expect(lines.join('\n')).not.toMatch(/(?<![\d:])(?:1[3-9]|2\d|0\d):\d\d/);
    expect(lines.filter((line) => /°C/.test(line) && !/°F/.test(line) && !line.includes('▲'))).toEqual([]);
    expect(view.steps.map((step) => coreWords(view, step)).join()).not.toMatch(/\d °C(?!\))/);
  });
});
