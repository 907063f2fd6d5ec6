/** Files in the folder that was asked for: each whole or not at all, and never over what somebody else wrote. */
import {
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { isOurs } from '../../src/share/formats.js';
import { UsageError } from '../exit.js';

export interface Draft {
  readonly name: string;
  /** `previous`: what the file holds that it takes the place of. */
  readonly make: (previous: string | null) => string;
}

/** Writes all of them, or none where one would go over a file that is not ours; the paths, in their order. */
export function writeAll(folder: string, drafts: readonly Draft[], overwrite: boolean): string[] {
  trying(`The folder ${folder} cannot be made`, () => makeFolder(folder));
  const found = drafts.map(({ name }) => previousAt(join(folder, name)));
  const strange = drafts.filter((_, index) => found[index] !== null && !isOurs(found[index]!));
  if (strange.length > 0 && !overwrite) {
    const paths = strange.map(({ name }) => `  ${join(folder, name)}\n`).join('');
    throw new UsageError(
      `Not written, for what stands there is none of this program's files:\n${paths}Perhaps: another folder for -o, or --overwrite`,
    );
  }
  return drafts.map(({ name, make }, index) => {
    const previous = found[index]!;
    const path = join(folder, name);
    const text = make(previous !== null && isOurs(previous) ? previous : null);
    trying(`${path} cannot be written`, () => replace(path, text));
    return path;
  });
}

/** With those above it. One by one: Node's own way never ends where a folder that is there lets nothing be made in it, as below /proc. */
function makeFolder(path: string): void {
  if (isFolder(path)) return;
  const above = dirname(path);
  if (above !== path) makeFolder(above);
  try {
    mkdirSync(path);
  } catch (problem) {
    if (!isFolder(path)) throw problem;
  }
}

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;

function previousAt(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch (problem) {
    if ((problem as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw new UsageError(`${path} cannot be read: ${reasonOf(problem)}.`);
  }
}

/** Beside it first, then in its place, which is one act: whoever reads it gets the old file or the new one. */
function replace(path: string, text: string): void {
  const beside = `${path}.${process.pid}.new`;
  try {
    const file = openSync(beside, 'wx');
    try {
      writeFileSync(file, text);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(beside, path);
  } catch (problem) {
    rmSync(beside, { force: true });
    throw problem;
  }
}

function trying(say: string, what: () => unknown): void {
  try {
    what();
  } catch (problem) {
    throw new UsageError(`${say}: ${reasonOf(problem)}.`);
  }
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'it is not allowed',
  EPERM: 'it is not allowed',
  EROFS: 'it is not allowed there',
  ENOSPC: 'the disk is full',
  ENOENT: 'nothing can be made there',
  EISDIR: 'there is a folder of that name',
  EEXIST: 'there is a file of that name',
  ENOTDIR: 'a part of the path is no folder',
  ENAMETOOLONG: 'the name is too long',
};

const reasonOf = (problem: unknown): string => {
  const { code } = problem as NodeJS.ErrnoException;
  return REASONS[code ?? ''] ?? code ?? 'something went wrong';
};
