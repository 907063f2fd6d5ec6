/** A rehearsal's clock as another process has it. */
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { rehearsedClock } from '../../cli/cooking/clock.js';
import { followedClock, tellClock } from '../../cli/cooking/rehearsal-clock.js';
import type { Io } from '../../cli/io.js';

let home: string;
let journal: string;
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'clock-'));
  journal = join(home, 'supper.rehearsal.jsonl');
});
afterEach(() => rmSync(home, { recursive: true }));

let machine = 1_000_000;
const io = { now: () => machine } as Io;

describe('a clock that is rehearsed by', () => {
  it('is the same for who follows it, until it is told no more; then it stands still, and goes on with the next', () => {
    expect(followedClock(io, journal)).toBeNull();
    const clock = rehearsedClock(io, 5_000_000, 60);
    const untell = tellClock(io, journal, clock);
    const followed = followedClock(io, journal)!;
    machine += 1234;
    expect([followed.now(), followed.speed, followed.runs()]).toEqual([clock.now(), 60, true]);
    untell();
    machine += 200;
    const last = followed.now();
    machine += 300;
    expect([followed.now(), followed.runs()]).toEqual([last, false]);
    machine += 60_000;
    expect(followed.now()).toBe(last);
    tellClock(io, journal, rehearsedClock(io, 9_000_000, 1));
    machine += 10;
    expect([followed.now(), followed.speed, followed.runs()]).toEqual([9_000_010, 1, true]);
    expect(readdirSync(home)).toEqual(['supper.rehearsal.clock']);
  });

  it('counts only while the process that told it lives, and the first of two keeps telling', () => {
    const path = join(home, 'supper.rehearsal.clock');
    // No system has a process of this number.
    for (const text of ['', 'no clock', JSON.stringify({ pid: 2 ** 31 - 2, machine, shown: 1, speed: 1 })]) {
      writeFileSync(path, text);
      expect(followedClock(io, journal)).toBeNull();
    }
    const untell = tellClock(io, journal, rehearsedClock(io, 2_000_000, 1));
    const second = tellClock(io, journal, rehearsedClock(io, 3_000_000, 1));
    second();
    expect(followedClock(io, journal)!.now()).toBe(2_000_000);
    untell();
    expect(existsSync(path)).toBe(false);
  });
});
