/**
 * The calls of a plan: one instruction at one clock time for one cook. Every sentence that tells a cook what to do now is
 * made here, from the rows of the plan document, so that a screen, a list and a calendar say the same.
 */
import { showCoreHeat, showHeat } from '../problem/degrees.js';
import { clockAt, isoAt, minuteAt, stepKey } from '../problem/hours.js';
import type { Appliance, Option, Problem, Step } from '../problem/problem.js';
import { showMinutes } from '../units/show.js';
import type { CallRow, PlanDocument, RunRow, StepRow } from './document.js';

type Rows = Pick<PlanDocument, 'steps' | 'runs' | 'dishes'>;

/** A call with what it is sorted by: the minute, its rank among those of one minute, then the cook. */
interface Draft {
  readonly minute: number;
  readonly rank: number;
  readonly cook: number;
  readonly call: CallRow;
}

const ANYONE = Number.POSITIVE_INFINITY;

/** °C by which a core must rise at rest for it to be told. */
const WORTH_TELLING = 0.5;

/** At one minute: what comes off, then changeovers, then steps, then turning off, then serving. */
const RANK = { off: 0, change: 1, step: 2, out: 3, serve: 4 } as const;

/** By clock, then by rank, then by cook. */
export function callsOf(problem: Problem, rows: Rows): CallRow[] {
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
        a.draft.rank - b.draft.rank ||
        compare(a.draft.cook, b.draft.cook) ||
        a.index - b.index,
    )
    .map(({ draft }) => draft.call);
}

// Infinity minus Infinity is not a number, which would leave the order to chance.
const compare = (a: number, b: number) => (a === b ? 0 : a < b ? -1 : 1);
const upper = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const places = (row: StepRow) => (row.place === null ? [] : [row.place].flat());

class Teller {
  private readonly appliances: ReadonlyMap<string, Appliance>;
  private readonly cooks: ReadonlyMap<string, number>;
  private readonly steps: ReadonlyMap<string, Step>;
  private readonly ofDish = new Map<string, StepRow[]>();
  private readonly minutes = new Map<string, number>();

  constructor(
    private readonly problem: Problem,
    private readonly rows: Rows,
  ) {
    this.appliances = new Map(problem.kitchen.appliances.map((appliance) => [appliance.name, appliance]));
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
    const heat = `${first ? 'heat to' : 'change to'} ${this.heat(run.appliance, run.mode, run.celsius, run.mode)}${fire}`;
    const by = run.changeover > 0 ? `, by ${this.clock(run.start)}` : '';
    const drafts = [this.draft(begin, RANK.change, null, anchor, `${upper(run.appliance)}: ${heat}${by}.`)];
    if (last) {
      const end = inside.at(-1) ?? anchor;
      drafts.push(this.draft(this.minute(run.end), RANK.out, null, end, `${upper(run.appliance)}: turn it off.`));
    }
    return drafts;
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
    const atStart = stretches.filter((hand) => hand.from === start);
    if (atStart.length === 0) {
      drafts.push(this.draft(start, RANK.step, this.leaving(row, start), row, this.startSentence(row, [])));
    }
    for (const hand of stretches) {
      const others = stretches.filter((other) => other.from === hand.from && other.cook !== hand.cook);
      const names = others.map((other) => other.cook);
      let say: string;
      if (hand.from === start) say = this.startSentence(row, names);
      else if (hand.to === end) say = this.endSentence(row, names);
      else say = `${row.dish}: see to it${this.where(row)} (${row.step})${withCooks(names)}.`;
      drafts.push(this.draft(hand.from, RANK.step, hand.cook, row, say));
    }
    if (row.appliance !== null && !this.goesOn(row, end)) {
      const cook = stretches.find((hand) => hand.to === end)?.cook ?? null;
      const off = `take it off the heat (${row.appliance})${this.atCore(row)}`;
      drafts.push(this.draft(end, RANK.off, cook, row, `${row.dish}: ${off}.`));
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
      return [this.draft(minute, RANK.serve, null, anchor, `Serve ${course.name}: ${served.join(', ')}.`)];
    });
  }

  private startSentence(row: StepRow, others: readonly string[]): string {
    const off = this.comesFrom(row);
    const lead = off === null ? '' : `off the heat (${off.appliance})${this.atCore(off)}, `;
    const until = this.clock(row.end);
    const length = this.minute(row.end) - this.minute(row.start);
    const time = row.step === 'hold' ? `, until ${until}` : `, ${showMinutes(length)} until ${until}`;
    return `${row.dish}: ${lead}${row.step}${this.where(row)}${this.panOf(row)}${this.heatOf(row)}${time}${withCooks(others)}.`;
  }

  private endSentence(row: StepRow, others: readonly string[]): string {
    const there = `see to it${this.where(row)}${withCooks(others)}`;
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
    const peak = rises ? ` (rises to ${this.core(row, core.peak!)})` : '';
    return `about ${end}${within}: pull at ${this.core(row, row.pull)}${peak}`;
  }

  private atCore = (row: StepRow): string => (row.pull === undefined ? '' : ` at ${this.core(row, row.pull)}`);

  /** A core temperature, in whole degrees of the appliance's dial. */
  private core(row: StepRow, celsius: number): string {
    return showCoreHeat(this.problem, celsius, this.appliances.get(row.appliance ?? '')?.dial.unit);
  }

  private where(row: StepRow): string {
    const names = places(row);
    if (row.appliance === null) return names.length === 0 ? '' : ` at ${names.join(' and ')}`;
    const kind = this.appliances.get(row.appliance)?.kind;
    const into = kind === 'oven' || kind === 'warming drawer' ? 'in' : 'on';
    return ` ${into} the ${row.appliance}, ${names.join(' and ')}`;
  }

  private panOf(row: StepRow): string {
    if (row.pan === null) return '';
    const count = Array.isArray(row.place) ? row.place.length : 1;
    return count > 1 ? `, ${row.pan} × ${count}` : `, ${row.pan}`;
  }

  private heatOf(row: StepRow): string {
    if (row.appliance === null) return '';
    // A mode that is named like the work has been said.
    const mode = row.mode === null || row.mode === row.work ? null : row.mode;
    if (row.celsius !== null) return `, ${this.heat(row.appliance, row.mode, row.celsius, mode ?? '')}`;
    const flame = this.optionOf(row)?.flame;
    return flame ? `, ${flame} flame` : '';
  }

  /** The way of doing the step that the row took, as far as a burner's flame needs it. */
  private optionOf(row: StepRow): Option | undefined {
    const options = this.steps.get(`${row.dish}/${row.step}`)?.options ?? [];
    return options.find(({ place, pan }) => {
      if (place.kind !== 'burner') return false;
      const appliance = this.problem.kitchen.appliances[place.appliance];
      const panName = pan === null ? null : (this.problem.kitchen.pans[pan]?.name ?? null);
      if (appliance?.name !== row.appliance || panName !== row.pan || appliance.surface.kind !== 'burners')
        return false;
      const { burners } = appliance.surface;
      return place.burners.some((burner) => places(row).includes(burners[burner]?.name ?? ''));
    });
  }

  /** `165 °C, lid closed`, in the degrees of the appliance's dial; `words` say the mode where it has no lid. */
  private heat(name: string, modeName: string | null, celsius: number, words: string): string {
    const appliance = this.appliances.get(name);
    const mode = appliance?.modes.find((each) => each.name === modeName);
    const manner = mode?.lid ? `lid ${mode.lid}` : words;
    return `${showHeat(this.problem, celsius, appliance?.dial.unit)}${manner === '' ? '' : `, ${manner}`}`;
  }

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
    return a.appliance === b.appliance && places(a).join() === places(b).join();
  }

  /** The cook whose hands are on the food as a step without hands begins. */
  private leaving(row: StepRow, minute: number): string | null {
    const hands = this.before(row, minute).flatMap((other) => other.hands);
    return hands.find((hand) => this.minute(hand.end) === minute)?.cook ?? null;
  }

  private draft(minute: number, rank: number, cook: string | null, row: StepRow, say: string): Draft {
    const at = isoAt(this.problem, minute);
    const order = cook === null ? ANYONE : (this.cooks.get(cook) ?? ANYONE);
    return { minute, rank, cook: order, call: { at, cook, dish: row.dish, step: row.step, say } };
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
