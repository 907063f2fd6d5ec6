/** Ties between moments, told in a cook's words. */
import { stretchTimes } from '../../kernel/cost.js';
import { transitionTime } from '../../kernel/model.js';
import type { WhyLink } from '../../plan/why-document.js';
import { showHeat } from '../../problem/degrees.js';
import { isoAt } from '../../problem/hours.js';
import { showMinutes } from '../../units/show.js';
import { clockWords, gapLimit } from '../explain/words.js';
import type { ReasonNetwork, RuleRow } from './reason-network.js';
import type { Tie } from './tight.js';

/** A step of the file, or a hold (its job), or neither. */
interface Subject {
  readonly name: string;
  readonly dish: string | null;
  readonly step: string | null;
}

const NOBODY: Subject = { name: '', dish: null, step: null };

export class Teller {
  constructor(
    private readonly network: ReasonNetwork,
    private readonly times: Float64Array,
  ) {}

  /** One link for each tie that leads to something a cook can see: runs and the day's first minute are passed through. */
  linksOf(chain: readonly Tie[]): WhyLink[] {
    const out: WhyLink[] = [];
    let passed: Tie[] = [];
    for (const tie of chain) {
      passed.push(tie);
      if (this.isHidden(tie.other)) continue;
      const say = this.say(passed);
      if (say !== null) {
        const { dish, step } = this.subject(tie.other);
        const at = isoAt(this.network.compiled.problem, this.timeOf(tie));
        out.push({ say, dish, step, at, rule: passed.every(({ rule }) => rule) });
      }
      passed = [];
    }
    return out;
  }

  private isHidden(node: number): boolean {
    const { kind } = this.network.whats[node]!;
    return kind === 'begin' || kind === 'finish' || kind === 'first';
  }

  subject(node: number): Subject {
    const { problem } = this.network.compiled;
    const what = this.network.whats[node]!;
    if (what.kind === 'start' || what.kind === 'end') {
      const { name, dish } = problem.steps[what.a]!;
      return named(problem.dishes[dish]!.name, name);
    }
    if (what.kind === 'stored' || what.kind === 'fetched') return named(problem.dishes[what.job]!.name, 'hold');
    return NOBODY;
  }

  /** When the other side begins, or ends where it comes before. */
  timeOf({ row, other }: Tie): number {
    const what = this.network.whats[other]!;
    const { state } = this.network;
    if (what.kind === 'start' && !this.follows(row, other)) return state.end(what.a);
    return this.times[other]! + (what.kind === 'zero' && row.cause.kind === 'stay' ? this.stayTime(row) : 0);
  }

  /** Whether `other` is the later of the two. */
  private follows(row: RuleRow, other: number): boolean {
    return other === (row.most ? row.from : row.to);
  }

  private clock = (minute: number): string => clockWords(this.network.compiled.problem, minute);

  private say(ties: readonly Tie[]): string | null {
    const last = ties.at(-1)!;
    const { row, other } = last;
    const change = ties.find((tie) => tie.row.cause.kind === 'change');
    if (change !== undefined) return this.sayChange(change, last);
    const after = this.follows(row, other);
    const { name } = this.subject(other);
    const when = this.clock(this.timeOf(last));
    const { cause } = row;
    switch (cause.kind) {
      case 'lag':
        return this.sayLag(last, after, name, when);
      case 'length':
        return this.sayLength(last);
      case 'landing':
        return this.sayLanding(last, name, when);
      case 'day':
        return other === 0 ? this.sayBound(row) : `the day begins with ${name} at ${when}`;
      case 'bound':
        return this.sayBound(row);
      case 'run':
        return this.sayRun(ties, after, name, when);
      case 'turn': {
        const where = this.applianceAt(other);
        return after
          ? `${name} takes its room in the ${where} at ${when}`
          : `the ${where} has no room until ${name} is out at ${when}`;
      }
      case 'worker':
        return this.sayWorker(last, cause.index, after, name);
      case 'stay':
        return this.sayStay(last, cause.index);
      case 'unit':
        return after
          ? `the ${this.burner(cause.index)} is ${name}'s from ${when}`
          : `the ${this.burner(cause.index)} is ${name}'s until ${when}`;
      case 'stock':
        return this.sayStock(last, cause.index, after, name);
      default:
        return null;
    }
  }

  private sayLag({ row, node, other }: Tie, after: boolean, name: string, when: string): string {
    const { model } = this.network.compiled;
    const ids = [node, other].map((each) => this.activityOf(each));
    const [from, to] = after ? ids : [ids[1]!, ids[0]!];
    const lag = model.lags.find((each) => each.from === from && each.to === to)!;
    if (row.most) {
      return after
        ? `${name} begins at ${when} and may come ${this.atMost(lag.low, lag.high)} after it`
        : `it must begin ${this.atMost(lag.low, lag.high)} after ${name}, which ends at ${when}`;
    }
    const least = lag.low > 0 ? `, ${showMinutes(lag.low)} after it at least` : '';
    if (after) return `${name} follows at ${when}${least}`;
    return lag.low > 0 ? `${name} ends at ${when}, and ${showMinutes(lag.low)} must go by` : `${name} ends at ${when}`;
  }

  private atMost = (low: number, high: number): string => (high === 0 ? 'right' : gapLimit(low, high));

  private activityOf(node: number): number {
    const what = this.network.whats[node]!;
    return what.kind === 'start' || what.kind === 'end' ? what.a : -1;
  }

  /** A length that is the planner's choice; `a` is the step itself, or one that the chain has come to. */
  private sayLength({ row, node, other, rule, back }: Tie): string {
    const a = this.activityOf(node);
    const { state, compiled } = this.network;
    const minutes = showMinutes(state.minutes[a]!);
    const least = this.network.whats[row.from]!.kind === 'start';
    const { name } = compiled.problem.steps[a]!;
    if (back) {
      const ends = this.network.whats[other]!.kind === 'end';
      return `${name} lasts ${ends ? 'until' : 'from'} ${this.clock(this.times[other]!)}`;
    }
    if (!rule) return `${name} of ${least ? 'less' : 'more'} than ${minutes} costs`;
    const { range } = state.modeOf(a);
    if (range !== null && range.low === range.high) return `${name} takes ${minutes}`;
    return `${name} takes ${minutes} ${least ? 'at least' : 'at most'}`;
  }

  private sayLanding({ row, node, other }: Tie, name: string, when: string): string | null {
    const what = this.network.whats[other]!;
    // That a course has its time is told where the chain gets to it.
    if (what.kind === 'zero') return null;
    if (what.kind !== 'landing') return `${name} ends at ${when}`;
    const course = this.course(what.group);
    const a = this.activityOf(node);
    const { keeps } =
      a < 0 ? { keeps: 0 } : this.network.compiled.problem.dishes[this.network.compiled.problem.steps[a]!.dish]!;
    const over = Number.isFinite(row.cap) ? `, and it keeps ${showMinutes(keeps)}` : '';
    return `${course} is served at ${when}${over}`;
  }

  course(group: number): string {
    const { courses } = this.network.compiled.problem;
    return courses.length === 1 ? 'everything' : courses[group]!.name;
  }

  private sayBound(row: RuleRow): string {
    const { problem, model } = this.network.compiled;
    if (row.from === 0) return `nothing begins before ${clockWords(problem, 0)}`;
    return `the day ends at ${this.clock(model.horizon)}`;
  }

  /** Within one run, or around it with nothing else on the appliance. */
  private sayRun(ties: readonly Tie[], after: boolean, name: string, when: string): string | null {
    const first = ties[0]!;
    if (name === '') return null;
    const where = this.applianceAt(first.node) ?? this.applianceAt(ties.at(-1)!.other);
    if (ties.length === 1 && Number.isFinite(first.row.cap))
      return `the ${where} would be hot and empty ${after ? `before ${name} at ${when}` : `after ${name}, which ends at ${when}`}`;
    return `${name} ${after ? 'begins' : 'ends'} at ${when} in the same heat of the ${where}`;
  }

  private sayChange(change: Tie, last: Tie): string {
    const { network } = this;
    const cause = change.row.cause as Extract<RuleRow['cause'], { kind: 'change' }>;
    const run = network.runOf(cause.run);
    const machine = network.compiled.model.machines[run.machine]!;
    const before = cause.before < 0 ? -1 : network.runOf(cause.before).state;
    const name = this.applianceOf(run.machine);
    const minutes = showMinutes(transitionTime(machine, before, run.state));
    const to = this.heat(run.machine, run.state);
    const { name: other } = this.subject(last.other);
    const when = this.clock(this.timeOf(last));
    const lateMoment = change.other === (network.begin(cause.run) as { node: number }).node;
    if (lateMoment) {
      const from = before < 0 ? 'the cold' : this.heat(run.machine, before);
      return `the ${name} must be at ${to} for ${other} at ${when}, ${minutes} from ${from}`;
    }
    if (before < 0) {
      if (last.other === 0) return `from the start at ${this.clock(0)} the ${name} needs ${minutes} to ${to}`;
      return `the ${name} needs ${minutes} from the cold to ${to}, and the day begins with ${other} at ${when}`;
    }
    return `the ${name} is at ${this.heat(run.machine, before)} for ${other} until ${when} and needs ${minutes} to ${to}`;
  }

  heat(machine: number, s: number): string {
    const { problem, model, kit } = this.network.compiled;
    const { dial } = problem.kitchen.appliances[kit.applianceOf[machine]!]!;
    return showHeat(problem, model.machines[machine]!.states[s]!.level, dial.unit);
  }

  applianceOf(machine: number): string {
    const { problem, kit } = this.network.compiled;
    return problem.kitchen.appliances[kit.applianceOf[machine]!]!.name;
  }

  applianceAt(node: number): string | null {
    const { state, model } = { state: this.network.state, model: this.network.compiled.model };
    const what = this.network.whats[node]!;
    if (what.kind === 'begin' || what.kind === 'finish') return this.applianceOf(this.network.runOf(what.run).machine);
    if (what.kind === 'stored' || what.kind === 'fetched') {
      return this.applianceOf(model.jobs[what.job]!.storage!.modes[state.store.mode[what.job]!]!.machine);
    }
    const a = this.activityOf(node);
    return a < 0 || state.modeOf(a).machine < 0 ? null : this.applianceOf(state.modeOf(a).machine);
  }

  private sayWorker({ node, other }: Tie, worker: number, after: boolean, name: string): string {
    const cook = this.network.compiled.problem.cooks[worker]!.name;
    const [one, two] = after ? [node, other] : [other, node];
    const turn = this.clock(this.handover(this.activityOf(one), this.activityOf(two)));
    return after ? `${cook} turns to ${name} at ${turn}` : `${cook} is busy with ${name} until ${turn}`;
  }

  /** When hands go from one step to the other. */
  handover(one: number, two: number): number {
    const { state } = this.network;
    const begins = stretchTimes(state, two).filter((_, i) => i % 2 === 0);
    const ends = stretchTimes(state, one).filter((_, i) => i % 2 === 1);
    return ends.find((end) => begins.includes(end)) ?? begins[0]!;
  }

  private sayStay({ row }: Tie, worker: number): string {
    const cook = this.network.compiled.problem.cooks[worker]!.name;
    return `${cook} ${row.from === 0 ? 'comes' : 'leaves'} at ${this.clock(this.stayTime(row))}`;
  }

  /** A stretch of a step begins no sooner than the step, and ends no sooner either. */
  private stayTime({ from, weight, cause }: RuleRow): number {
    if (cause.kind !== 'stay') return 0;
    const { stays } = this.network.compiled.model.workers[cause.index]!;
    return from === 0
      ? (stays.find((stay) => stay.from >= weight)?.from ?? weight)
      : (stays.find((stay) => stay.to >= -weight)?.to ?? -weight);
  }

  burner(unit: number): string {
    const { problem, kit } = this.network.compiled;
    const { appliance, burner } = kit.units[unit]!;
    const { surface } = problem.kitchen.appliances[appliance]!;
    return surface.kind === 'burners' ? surface.burners[burner]!.name : '';
  }

  stock(renewable: number): string {
    const { problem, kit } = this.network.compiled;
    return renewable === kit.boards ? 'board' : problem.kitchen.pans[renewable - 1 - kit.boards]!.name;
  }

  private sayStock({ row, node, other }: Tie, renewable: number, after: boolean, name: string): string {
    const { model } = this.network.compiled;
    const thing = this.stock(renewable);
    const taken = this.times[after ? other : node]!;
    const tail = Math.min(model.renewables[renewable]!.tail, Math.max(0, row.weight));
    const wash = tail > 0 ? ` after ${showMinutes(tail)} of washing` : '';
    const article = model.renewables[renewable]!.capacity > 1 ? 'a' : 'the';
    if (after) return `${name} needs ${article} ${thing} at ${this.clock(taken)}${wash}`;
    const holder = name === '' ? 'its dish' : name;
    return `${article} ${thing} is free only at ${this.clock(taken)}${tail > 0 ? `, ${showMinutes(tail)} of washing after ${holder}` : `, from ${holder}`}`;
  }
}

const named = (dish: string, step: string): Subject => ({ name: `${dish}/${step}`, dish, step });
