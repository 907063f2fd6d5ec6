import { describe, expect, it } from 'vitest';
import { progressOn } from '../../cli/terminal/progress.js';

function watched(isWatched: boolean) {
  let time = 0;
  const written: string[] = [];
  const progress = progressOn(
    { write: (text) => written.push(text.replaceAll('\u001b', '\\e')) },
    isWatched,
    () => time,
  );
  return {
    written,
    progress,
    at: (milliseconds: number) => {
      time = milliseconds;
      return progress.onTick();
    },
  };
}

describe('progress', () => {
  it('says nothing within the first second, and never stops the search', () => {
    const { at, written, progress } = watched(true);
    expect([at(100), at(999)]).toEqual([false, false]);
    progress.clear();
    expect(written).toEqual([]);
  });

  it('then tells how far it is, four times a second, on one line that it takes away', () => {
    const { at, written, progress } = watched(true);
    progress.onStage({ kind: 'plan', points: 77.25, bound: 11.4 });
    at(1000);
    at(1100);
    at(2600);
    progress.clear();
    expect(written).toEqual([
      '\r\\e[KPlanning, 1 s: 77.3 points, at least 11.4 (gap 65.8); Ctrl-C takes it',
      '\r\\e[KPlanning, 3 s: 77.3 points, at least 11.4 (gap 65.8); Ctrl-C takes it',
      '\r\\e[K',
    ]);
  });

  it('is silent where nobody watches', () => {
    const { at, written } = watched(false);
    at(5000);
    expect(written).toEqual([]);
  });
});
