/** Writes entries until it is killed, and says each that is on the disk: `node killed-writer.js JOURNAL`. */
import { writeSync } from 'node:fs';
import { appended } from '../../cli/journal/journal-file.js';
import { isRefusal } from '../../src/live/journal/names.js';

const [path] = process.argv.slice(2);
const at = '2026-10-03T17:00:00+01:00';
for (;;) {
  const made = appended(path!, (before) => {
    const seq = (before.at(-1)?.seq ?? 0) + 1;
    return [{ v: 1, seq, at, when: at, who: null, kind: 'note', text: `so far ${'.'.repeat(seq % 50)}` }];
  });
  if (!isRefusal(made)) writeSync(1, `${made[0]!.seq}\n`);
}
