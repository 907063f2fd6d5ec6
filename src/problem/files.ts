/** Files: the only part of the library that reads any. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { nearest } from './nearest.js';
import type { Reading } from './reading.js';

/** Gives what a path holds; throws where there is nothing to read. */
export type FileReader = (path: string) => string | Uint8Array;

export const readFromDisk: FileReader = (path) => readFileSync(path);

/** The file that was most likely meant by the name of one that is not there: a meal's, in the same folder; null where none is near. */
export function nearestFile(path: string): string | null {
  try {
    const meals = readdirSync(dirname(path)).filter((name) => /\.(?:ya?ml|json)$/i.test(name));
    const near = nearest(basename(path), meals.sort());
    return near === null ? null : join(dirname(path), near);
  } catch {
    return null;
  }
}

/** A path that is written in a file, seen from where that file was opened. */
export function joined(file: string, path: string): string {
  return /^(?:[/\\]|[A-Za-z]:[/\\])/.test(path) ? path : normalize(join(dirname(file), path));
}

/** The text of a file: UTF-8, with or without a mark at the beginning. Undefined after saying why it is none. */
export function decode(reading: Reading, file: string, content: string | Uint8Array): string | undefined {
  if (typeof content === 'string') return content.startsWith('\ufeff') ? content.slice(1) : content;
  const bad = firstBadByte(content);
  if (bad === null) return new TextDecoder('utf-8').decode(content);
  const before = new TextDecoder('utf-8').decode(content.subarray(0, bad), { stream: true }).split('\n');
  const spot = { file, line: before.length, column: before.at(-1)!.length + 1 };
  const wide = (content[0] === 0xff && content[1] === 0xfe) || (content[0] === 0xfe && content[1] === 0xff);
  reading.error(
    'encoding',
    spot,
    wide ? 'The file is written in UTF-16, not in UTF-8.' : 'The file is not written in UTF-8 here.',
    'save it as UTF-8',
  );
  return undefined;
}

/** Where the bytes stop being UTF-8, or null: found by halving, as decoding from the start either fails or does not. */
function firstBadByte(bytes: Uint8Array): number | null {
  const good = (length: number, whole: boolean): boolean => {
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, length), { stream: !whole });
      return true;
    } catch {
      return false;
    }
  };
  if (good(bytes.length, true)) return null;
  let [low, high] = [0, bytes.length];
  while (low < high) {
    const half = (low + high + 1) >> 1;
    if (good(half, false)) low = half;
    else high = half - 1;
  }
  return low;
}

/** The package's own folder: the nearest one above this module that has a package.json. */
function packageRoot(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) {
    const above = dirname(folder);
    if (above === folder) return folder;
    folder = above;
  }
  return folder;
}

const kitchenFolder = (): string => join(packageRoot(), 'problems', 'kitchens');

/** Names of the kitchens that come with the package, in order. */
export function builtInKitchens(): string[] {
  if (!existsSync(kitchenFolder())) return [];
  return readdirSync(kitchenFolder())
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => name.slice(0, -'.yaml'.length))
    .sort();
}

/** The file of a built-in kitchen. Its name in messages does not depend on where the package lies. */
export function readBuiltIn(name: string): { file: string; text: string } {
  const text = readFileSync(join(kitchenFolder(), `${name}.yaml`), 'utf8');
  return { file: `problems/kitchens/${name}.yaml`, text };
}
