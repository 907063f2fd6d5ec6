/** A journal's text: entries to lines and back, whatever has happened to the lines in between. */
import { crcOf } from './crc.js';
import { type Entry, entryFrom } from './entries.js';

/** A line that says something else than was written. */
export interface Damage {
  /** Counted from 1. */
  readonly line: number;
  readonly say: string;
}

export interface ReadLines {
  /** In the order of their numbers. */
  readonly entries: readonly Entry[];
  /** The last line was not written to its end: it was never acknowledged, and counts for nothing. */
  readonly torn: boolean;
  readonly damage: readonly Damage[];
  /** Bytes up to which the text is whole: what is torn begins there. */
  readonly whole: number;
  /** The last entry lacks nothing but the end of its line. */
  readonly open: boolean;
}

const NEWLINE = 10;
const SEALED = /^(\{.*),"crc":"([0-9a-f]{8})"\}$/s;

/** An entry as its line, with a checksum, without the end of line. */
export function lineOf(entry: Entry): string {
  const bare = JSON.stringify(entry);
  return `${bare.slice(0, -1)},"crc":"${crcOf(bare)}"}`;
}

/** The entry of a line, or null where it is not as it was written. */
function entryOf(line: string): Entry | null {
  const found = SEALED.exec(line);
  if (found === null) return null;
  const bare = `${found[1]}}`;
  if (crcOf(bare) !== found[2]) return null;
  try {
    return entryFrom(JSON.parse(bare));
  } catch {
    return null;
  }
}

/** Never throws, whatever the bytes. `known`: lines that were read before, which is of use to whoever reads a growing journal again. */
export function readLines(bytes: Uint8Array, known = new Map<string, Entry>()): ReadLines {
  const entryOn = (line: string): Entry | null => {
    const entry = known.get(line) ?? entryOf(line);
    if (entry !== null) known.set(line, entry);
    return entry;
  };
  const end = bytes.lastIndexOf(NEWLINE) + 1;
  const decoder = new TextDecoder('utf-8');
  const lines = end === 0 ? [] : decoder.decode(bytes.subarray(0, end)).slice(0, -1).split('\n');
  const tail = decoder.decode(bytes.subarray(end));
  const last = tail === '' ? null : entryOn(tail);
  const damage: Damage[] = [];
  const found = new Map<number, Entry>();
  let next = 1;
  for (const [at, line] of [...lines, ...(last === null ? [] : [tail])].entries()) {
    const entry = entryOn(line);
    if (entry === null) damage.push({ line: at + 1, say: 'cannot be read' });
    else if (found.has(entry.seq)) damage.push({ line: at + 1, say: `has the number ${entry.seq} again` });
    else {
      found.set(entry.seq, entry);
      if (entry.seq !== next && damage.at(-1)?.line !== at) {
        const say = entry.seq > next ? missing(next, entry.seq - 1) : 'stands too late';
        damage.push({ line: at + 1, say });
      }
      next = entry.seq + 1;
    }
  }
  const entries = [...found.values()].sort((a, b) => a.seq - b.seq);
  return {
    entries,
    damage,
    torn: tail !== '' && last === null,
    whole: last === null ? end : bytes.length,
    open: last !== null,
  };
}

const missing = (from: number, to: number): string =>
  from === to ? `comes where entry ${from} is missing` : `comes where the entries ${from} to ${to} are missing`;
