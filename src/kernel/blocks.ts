/**
 * What a machine does over time. A block is an unbroken stretch in one state; a run is a row of blocks in one state with
 * nothing else between them, parted where standing idle would cost more than a new run.
 */
import type { Machine } from './model.js';
import { transitionTime } from './model.js';
import type { State } from './state.js';

export interface Block {
  readonly state: number;
  readonly from: number;
  to: number;
}

export interface Run {
  readonly state: number;
  readonly from: number;
  to: number;
  /** Minutes in it with nothing on. */
  idle: number;
}

/** Blocks of a machine in time order. Storages count like activities. */
export function blocksOf(state: State, machine: number): Block[] {
  const rows: { state: number; from: number; to: number }[] = [];
  for (const a of state.onMachine[machine]!) {
    if (state.minutes[a]! > 0) rows.push({ state: state.stateOf(a), from: state.start[a]!, to: state.end(a) });
  }
  for (const job of state.model.jobs) {
    const m = state.store.mode[job.id]!;
    if (m < 0) continue;
    const mode = job.storage!.modes[m]!;
    if (mode.machine !== machine) continue;
    const from = state.store.start[job.id]!;
    rows.push({
      state: mode.settings[state.store.setting[job.id]!]!.state,
      from,
      to: from + state.store.minutes[job.id]!,
    });
  }
  rows.sort((x, y) => x.from - y.from || x.to - y.to || x.state - y.state);
  const blocks: Block[] = [];
  for (const row of rows) {
    const last = blocks[blocks.length - 1];
    if (last !== undefined && last.state === row.state && row.from <= last.to) last.to = Math.max(last.to, row.to);
    else blocks.push({ ...row });
  }
  return blocks;
}

/** Joins blocks into runs. */
export function runsOf(machine: Machine, blocks: readonly Block[]): Run[] {
  const runs: Run[] = [];
  for (const block of blocks) {
    const last = runs[runs.length - 1];
    if (
      last !== undefined &&
      last.state === block.state &&
      (block.from - last.to) * machine.idleCost <= machine.runCost
    ) {
      last.idle += block.from - last.to;
      last.to = block.to;
    } else runs.push({ state: block.state, from: block.from, to: block.to, idle: 0 });
  }
  return runs;
}

/** What a machine is in already: `ready` by state, the earliest minute at which it can be in it; blocks that began before `now` are facts. */
export interface Since {
  readonly now: number;
  readonly ready: Int32Array;
}

export function sinceOf(state: State, machine: number): Since | null {
  const { progress } = state.model;
  return progress === undefined ? null : { now: progress.now, ready: progress.ready[machine]! };
}

/** True when between neighbouring blocks, and before the first, lies at least the transition time. */
export function transitionsHold(machine: Machine, blocks: readonly Block[], since: Since | null = null): boolean {
  let before = -1;
  let free = 0;
  for (const block of blocks) {
    if (since !== null && block.from < since.now) {
      before = block.state;
      free = Math.max(free, block.to);
      continue;
    }
    if (since !== null && block.from < since.ready[block.state]!) return false;
    if (before === block.state ? block.from < free : block.from < free + transitionTime(machine, before, block.state)) {
      return false;
    }
    before = block.state;
    free = block.to;
  }
  return true;
}
