/** Where the open data lies and what its bounds files say. The data is no part of the project and may be missing. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import * as z from 'zod';

export const DEFAULT_FOLDER = fileURLToPath(new URL('../../../../shared/benchmarks', import.meta.url));
/** The default as it is told. */
export const DEFAULT_NAME = '../shared/benchmarks';

const BOUNDS = z.object({
  set: z.string().optional(),
  instances: z.record(
    z.string(),
    z.object({
      file: z.string(),
      status: z.enum(['optimal', 'open', 'infeasible']).catch('open'),
      lower: z.number().nullish(),
      upper: z.number().nullish(),
    }),
  ),
});

/** One instance and what is known of it; its bounds are for comparing after solving only. */
export interface Instance {
  readonly name: string;
  readonly path: string;
  readonly status: 'optimal' | 'open' | 'infeasible';
  readonly lower: number | null;
  readonly upper: number | null;
}

export interface OpenSet {
  readonly name: string;
  readonly instances: readonly Instance[];
}

/** A set's bounds file. Throws with one clear message where it cannot be read. */
export function readSet(folder: string): OpenSet {
  const file = join(folder, 'bounds.json');
  let read: z.infer<typeof BOUNDS>;
  try {
    read = BOUNDS.parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch (error) {
    const [issue] = error instanceof z.ZodError ? error.issues : [];
    const why = issue === undefined ? String(error) : `${issue.path.join('.')}: ${issue.message}`;
    throw new Error(`${file} is no bounds file: ${why}`);
  }
  const instances = Object.entries(read.instances).map(([name, { file, status, lower, upper }]) => {
    return { name, path: join(folder, file), status, lower: lower ?? null, upper: upper ?? null };
  });
  return { name: read.set ?? basename(folder), instances };
}

/** All sets below a folder, or the one that the folder is; null where there is no such folder. */
export function readSets(folder: string): OpenSet[] | null {
  if (!existsSync(folder)) return null;
  if (existsSync(join(folder, 'bounds.json'))) return [readSet(folder)];
  return readdirSync(folder)
    .map((name) => join(folder, name))
    .filter((path) => existsSync(join(path, 'bounds.json')))
    .sort()
    .map(readSet);
}
