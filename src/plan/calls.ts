/**
 * The calls of a plan: one instruction at one clock time for one cook. Every sentence that tells a cook what to do now is
 * made here, from the rows of the plan document, so that a screen, a list and a calendar say the same.
 */
import { clockAt, isoAt, minuteAt, stepKey } from '../problem/hours.js';
import type { Appliance, Problem, Step } from '../problem/problem.js';
import { showMinutes } from '../units/show.js';
import type { CallRow, PlanDocument, RunRow, StepRow } from './document.js';
import { placesOf, RowWords } from './row-words.js';

type Rows = Pick<PlanDocument, 'steps' | 'runs' | 'dishes'>;

/** What a call is about: taking food off, another heat, a step's beginning, a look, its end, turning off, serving. */
export const CALL_KINDS = ['off', 'heat', 'start', 'look', 'end', 'out', 'serve'] as const;
export type CallKind = (typeof CALL_KINDS)[number];

/** A call with what its sentence is made of. */
export interface ToldCall {
  readonly call: CallRow;
  readonly kind: CallKind;
  /** What it is about, by name: a dish and its step, an appliance and its mode, an appliance, a course. */
  readonly subject: readonly string[];
  readonly minute: number;
  /** Until when it takes its cook; `minute` where nobody is bound to it. */
  readonly until: number;
  /** The row of the step, or of the heat run, that it speaks of; null for serving. */
  readonly row: StepRow | RunRow | null;
}

/** A call with the place of its cook among the cooks, by which it is sorted. */
interface Draft extends ToldCall {
  readonly cook: number;
}

type About = Omit<ToldCall, 'call' | 'until'> & { readonly cook: string | null; readonly until?: number };

const ANYONE = Number.POSITIVE_INFINITY;

/** °C by which a core must rise at rest for it to be told. */
const WORTH_TELLING = 0.5;

/** At one minute: what comes off, then changeovers, then steps, then turning off, then serving. */
const RANK: Readonly<Record<CallKind, number>> = { off: 0, heat: 1, start: 2, look: 2, end: 2, out: 3, serve: 4 };

/** The calls of the plan document. */
export const callsOf = (problem: Problem, rows: Rows): CallRow[] => toldCalls(problem, rows).map(({ call }) => call);

/** By clock, then by rank, then by cook. */
export function toldCalls(problem: Problem, rows: Rows): ToldCall[] {
  const teller = new Teller(problem, rows);
  const drafts = [
    ...rows.runs.flatMap((run) => teller.run(run)),
    ...rows.steps.flatMap((row) => teller.step(row)),
    ...teller.landings(),
  ];
  return drafts
    .map((draft, index) => ({ draft, index }))
    .sort(
      (a, b) =>
        a.draft.minute - b.draft.minute ||
        RANK[a.draft.kind] - RANK[b.draft.kind] ||
        compare(a.draft.cook, b.draft.cook) ||
        a.index - b.index,
    )
    .map(({ draft: { cook: _, ...told } }) => told);
}

// Infinity minus Infinity is not a number, which would leave the order to chance.
const compare = (a: number, b: number) => (a === b ? 0 : a < b ? -1 : 1);
const upper = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const comma = (text: string | null) => (text === null ? '' : `, ${text}`);

class Teller {
  private readonly appliances: ReadonlyMap<string, Appliance>;
  private readonly cooks: ReadonlyMap<string, number>;
  private readonly steps: ReadonlyMap<string, Step>;
  private readonly ofDish = new Map<string, StepRow[]>();
  private readonly words: RowWords;
  private readonly minutes = new Map<string, number>();

  constructor(
    private readonly problem: Problem,
    private readonly rows: Rows,
  ) {
    this.appliances = new Map(problem.kitchen.appliances.map((appliance) => [appliance.name, appliance]));
    this.words = new RowWords(problem);
    this.cooks = new Map(problem.cooks.map((cook, index) => [cook.name, index]));
    this.steps = new Map(problem.steps.map((step) => [stepKey(problem, step.id), step]));
    for (const row of rows.steps) this.ofDish.set(row.dish, [...(this.ofDish.get(row.dish) ?? []), row]);
  }

  /** Bring it to its heat, and, after the appliance's last run, turn it off. */
  run(run: RunRow): Draft[] {
    const own = this.rows.runs.filter((other) => other.appliance === run.appliance);
    const first = own.every((other) => this.minute(other.start) >= this.minute(run.start));
    const last = own.every((other) => this.minute(other.end) <= this.minute(run.end));
    const inside = this.rows.steps.filter(
      (row) =>
        row.appliance === run.appliance &&
        this.minute(row.start) >= this.minute(run.start) &&
        this.minute(row.end) <= this.minute(run.end),
    );
    const anchor = inside[0] ?? this.rows.steps[0];
    if (!anchor) return [];
    const lit = this.appliances.get(run.appliance)?.modes.find((mode) => mode.name === run.mode)?.lit ?? [];
    const fire = lit.length === 0 ? '' : `, fire under ${lit.join(' and ')} only`;
    const begin = this.minute(run.start) - run.changeover;
    const heat = `${first ? 'heat to' : 'change to'} ${this.words.runHeat(run)}${fire}`;
    const by = run.changeover > 0 ? `, by ${this.clock(run.start)}` : '';
    const about = (kind: CallKind, minute: number, row: StepRow, subject: string[], say: string) =>
      this.draft({ kind, minute, cook: null, row: run, subject }, row, `${upper(run.appliance)}: ${say}`);
    const change = about('heat', begin, anchor, [run.appliance, run.mode], `${heat}${by}.`);
    if (!last) return [change];
    const end = inside.at(-1) ?? anchor;
    return [change, about('out', this.minute(run.end), end, [run.appliance], 'turn it off.')];
  }

  /** Its start, the looks between, its end where hands are wanted for it, and taking it off where nothing follows at once. */
  step(row: StepRow): Draft[] {
    const start = this.minute(row.start);
    const end = this.minute(row.end);
    const stretches = row.hands.map((hand) => ({
      cook: hand.cook,
      from: this.minute(hand.start),
      to: this.minute(hand.end),
    }));
    const drafts: Draft[] = [];
    const about = (kind: CallKind, minute: number, cook: string | null, say: string, until = minute) => {
      const subject = [row.dish, row.step];
      drafts.push(this.draft({ kind, minute, cook, row, subject, until }, row, say));
    };
    const atStart = stretches.filter((hand) => hand.from === start);
    if (atStart.length === 0) about('start', start, this.leaving(row, start), this.startSentence(row, []));
    for (const hand of stretches) {
      const others = stretches.filter((other) => other.from === hand.from && other.cook !== hand.cook);
      const names = others.map((other) => other.cook);
      const tell = (kind: CallKind, say: string) => about(kind, hand.from, hand.cook, say, hand.to);
      if (hand.from === start) tell('start', this.startSentence(row, names));
      else if (hand.to === end) tell('end', this.endSentence(row, names));
      else tell('look', `${row.dish}: see to it${this.words.where(row)} (${row.step})${withCooks(names)}.`);
    }
    if (row.appliance !== null && !this.goesOn(row, end)) {
      const cook = stretches.find((hand) => hand.to === end)?.cook ?? null;
      about('off', end, cook, `${row.dish}: take it off the heat (${row.appliance})${this.atCore(row)}.`);
    }
    return drafts;
  }

  /** One call for every course: what is carried to the table. */
  landings(): Draft[] {
    return this.problem.courses.flatMap((course, index) => {
      const served = this.problem.dishes.filter((dish) => dish.course === index).map((dish) => dish.name);
      const row = this.rows.dishes.find((dish) => dish.serve !== null && served.includes(dish.dish));
      const anchor = this.rows.steps.findLast((step) => step.dish === row?.dish);
      if (!row?.serve || !anchor) return [];
      const minute = this.minute(row.serve);
      const about = { kind: 'serve', minute, cook: null, row: null, subject: [course.name] } as const;
      return [this.draft(about, anchor, `Serve ${course.name}: ${served.join(', ')}.`)];
    });
  }

  private startSentence(row: StepRow, others: readonly string[]): string {
    const off = this.comesFrom(row);
    const lead = off === null ? '' : `off the heat (${off.appliance})${this.atCore(off)}, `;
    const until = this.clock(row.end);
    const length = this.minute(row.end) - this.minute(row.start);
    const time = row.step === 'hold' ? `, until ${until}` : `, ${showMinutes(length)} until ${until}`;
    return `${row.dish}: ${lead}${row.step}${this.words.where(row)}${comma(this.words.pan(row))}${comma(this.words.heat(row))}${time}${withCooks(others)}.`;
  }

  private endSentence(row: StepRow, others: readonly string[]): string {
    const there = `see to it${this.words.where(row)}${withCooks(others)}`;
    return `${row.dish}: ${row.step} ends ${this.endWords(row)}; ${there}.`;
  }

  /** `at 18:02`; where a core decides, `about 18:02 (17:52 to 18:14): pull at 57 °C (rises to 60 °C)`. */
  private endWords(row: StepRow): string {
    const end = this.clock(row.end);
    if (row.pull === undefined) return `at ${end}`;
    const { window } = row;
    const within = window ? ` (${this.clock(window.from)} to ${this.clock(window.to)})` : '';
    const core = this.rows.dishes.find((dish) => dish.dish === row.dish)?.core;
    const rises = core?.pull === row.pull && core.peak !== null && core.peak - core.pull >= WORTH_TELLING;
    const peak = rises ? ` (rises to ${this.words.core(row, core.peak!)})` : '';
    return `about ${end}${within}: pull at ${this.words.core(row, row.pull)}${peak}`;
  }

  private atCore = (row: StepRow): string => (row.pull === undefined ? '' : ` at ${this.words.core(row, row.pull)}`);

  /** What the food comes from, when a step on the heat ends as this one begins somewhere else; else null. */
  private comesFrom(row: StepRow): StepRow | null {
    const start = this.minute(row.start);
    const before = this.before(row, start).find((other) => other.appliance !== null);
    if (!before || this.samePlace(before, row)) return null;
    return before;
  }

  /** Rows of the same dish, before this one in the file's order of things, that end at a minute. */
  private before(row: StepRow, minute: number): StepRow[] {
    const dish = this.rowsOf(row.dish).filter((other) => this.minute(other.end) === minute);
    if (row.step === 'hold') return dish.filter((other) => other !== row);
    const step = this.steps.get(`${row.dish}/${row.step}`);
    const names = new Set(step?.after.map((link) => this.problem.steps[link.step]?.name));
    return dish.filter((other) => names.has(other.step) || (other.step === 'hold' && row.step !== 'hold'));
  }

  /** Something is done with the food as the step ends, which says by itself that it leaves its place. */
  private goesOn(row: StepRow, end: number): boolean {
    return this.rowsOf(row.dish).some(
      (other) => this.minute(other.start) === end && this.before(other, end).includes(row),
    );
  }

  private samePlace(a: StepRow, b: StepRow): boolean {
    return a.appliance === b.appliance && placesOf(a).join() === placesOf(b).join();
  }

  /** The cook whose hands are on the food as a step without hands begins. */
  private leaving(row: StepRow, minute: number): string | null {
    const hands = this.before(row, minute).flatMap((other) => other.hands);
    return hands.find((hand) => this.minute(hand.end) === minute)?.cook ?? null;
  }

  /** `anchor`: the step under which the document has it. */
  private draft({ cook, until, ...told }: About, anchor: StepRow, say: string): Draft {
    const at = isoAt(this.problem, told.minute);
    const order = cook === null ? ANYONE : (this.cooks.get(cook) ?? ANYONE);
    const call = { at, cook, dish: anchor.dish, step: anchor.step, say };
    return { ...told, until: until ?? told.minute, cook: order, call };
  }

  private rowsOf(dish: string): readonly StepRow[] {
    return this.ofDish.get(dish) ?? [];
  }

  private minute(iso: string): number {
    const known = this.minutes.get(iso);
    if (known !== undefined) return known;
    const minute = minuteAt(this.problem, iso);
    this.minutes.set(iso, minute);
    return minute;
  }

  private clock(iso: string): string {
    return clockAt(this.problem, this.minute(iso));
  }
}

const withCooks = (names: readonly string[]) => (names.length === 0 ? '' : `, with ${names.join(' and ')}`);
