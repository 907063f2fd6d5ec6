/** What holds of a schedule's times by the meal itself: lags, landings, free lengths, looks, changeovers, the length of the day. */
import { isSettled } from '../kernel/model.js';
import type { Timetable } from './timetable.js';

export function mealRows<M>(table: Timetable<M>): void {
  lagRows(table);
  landingRows(table);
  lengthRows(table);
  changeoverRows(table);
  dayRows(table);
}

export function lagRows<M>(table: Timetable<M>): void {
  const { model } = table.compiled;
  for (const lag of model.lags) {
    if (isSettled(model, lag.from) && isSettled(model, lag.to)) continue;
    table.apart(table.end(lag.from), table.start(lag.to), lag.low, lag.high);
    if (lag.rate > 0) table.charge(lag.rate, table.end(lag.from), table.start(lag.to));
  }
}

export function landingRows<M>(table: Timetable<M>): void {
  const { model } = table.compiled;
  model.groups.forEach((group, g) => {
    table.apart(table.zero, table.landing(g), group.due);
    table.charge(model.rates.late, table.zero, table.landing(g));
  });
  for (const job of model.jobs) {
    if (job.group < 0) continue;
    const landing = table.landing(job.group);
    for (const a of job.activities) {
      if (!model.activities[a]!.sink) continue;
      table.apart(table.end(a), landing, 0);
      if (job.rate > 0) table.charge(job.rate, table.end(a), landing);
      if (table.state.store.mode[job.id]! >= 0) storeRows(table, job.id, a);
      else if (job.keeps < Number.POSITIVE_INFINITY) table.hinge(model.rates.over, table.end(a), landing, job.keeps);
    }
  }
}

/**
 * A stored job waits before, in and after its storage. What it waits outside counts together, which is no difference of two
 * times; so the shorter of the two waits outside stays as long as it is.
 */
function storeRows<M>(table: Timetable<M>, j: number, sink: number): void {
  const { model } = table.compiled;
  const { store } = table.state;
  const job = model.jobs[j]!;
  const storage = job.storage!;
  const [end, from, to, landing] = [table.end(sink), table.storeStart(j), table.storeEnd(j), table.landing(job.group)];
  const before = store.start[j]! - table.state.end(sink);
  const behind = table.state.landing(job.group) - store.start[j]! - store.minutes[j]!;
  table.apart(from, to, 1);
  if (model.progress?.stored[j]) table.apart(table.zero, from, store.start[j]!, store.start[j]!);
  if (before <= behind) table.apart(end, from, before, before);
  else table.apart(end, from, 0);
  if (before > behind) table.apart(to, landing, behind, behind);
  else table.apart(to, landing, 0);
  table.charge(storage.rate - job.rate, from, to);
  if (storage.keeps < Number.POSITIVE_INFINITY) table.hinge(model.rates.over, from, to, storage.keeps);
  if (job.keeps === Number.POSITIVE_INFINITY) return;
  if (before <= behind) table.hinge(model.rates.over, to, landing, job.keeps - before);
  else table.hinge(model.rates.over, end, from, job.keeps - behind);
}

/** Free lengths and what lies outside their best; and lengths move only as far as the number of looks stays what it is. */
export function lengthRows<M>(table: Timetable<M>): void {
  const { state } = table;
  for (const { id } of table.compiled.model.activities) {
    const mode = state.modeOf(id);
    if (mode.range !== null) {
      const { low, high, bestLow, bestHigh, rate } = mode.range;
      table.apart(table.start(id), table.end(id), low, high);
      if (bestHigh < high) table.hinge(rate, table.start(id), table.end(id), bestHigh);
      if (bestLow > low) table.hinge(rate, table.end(id), table.start(id), -bestLow);
    }
    if (isSettled(table.compiled.model, id)) continue;
    const { all, every, look, end, start, crew } = mode.attention;
    const minutes = table.lengths[id]!;
    if (all || crew === 0) continue;
    const least = Math.min(start + end, minutes);
    if (every === 0) table.apart(table.start(id), table.end(id), least);
    else {
      const looks = Math.max(0, Math.floor((minutes - end - look) / every));
      const low = looks > 0 ? looks * every + look + end : least;
      table.apart(table.start(id), table.end(id), low, Math.max(minutes, (looks + 1) * every + look + end - 1));
    }
  }
}

export function changeoverRows<M>(table: Timetable<M>): void {
  const { progress } = table.compiled.model;
  table.runs.forEach((run, r) => {
    if (progress !== undefined) {
      if (run.from < progress.now) return;
      table.apart(table.zero, table.begin(r), progress.ready[run.machine]![run.state]!);
    }
    const follows = r > 0 && table.runs[r - 1]!.machine === run.machine;
    table.change(follows ? r - 1 : -1, follows ? table.finish(r - 1) : table.zero, r, table.begin(r));
  });
}

export function dayRows<M>(table: Timetable<M>): void {
  const { model } = table.compiled;
  table.charge(-model.rates.day, table.zero, table.first);
  table.apart(table.zero, table.first, 0, model.serve);
  for (const activity of model.activities) {
    if (!activity.ins.some((lag) => lag.low >= 0) && !isSettled(model, activity.id))
      table.apart(table.first, table.start(activity.id), 0);
  }
  table.runs.forEach((run, r) => {
    if (run.from < (model.progress?.now ?? 0)) return;
    if (r === 0 || table.runs[r - 1]!.machine !== run.machine) table.change(-1, table.first, r, table.begin(r));
  });
}
