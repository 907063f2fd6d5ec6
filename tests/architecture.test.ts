/** The layout keeps its promises: who may import whom, which library lives where, and that the library reads no clock. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, it } from 'vitest';

/** For each folder of src, the other folders that it may import; a folder that is not here yet must be added. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  units: [],
  problem: ['units'],
  kitchen: ['problem', 'units'],
  heat: ['problem', 'units'],
  kernel: [],
  batch: ['kernel'],
  constraint: [],
  sequence: ['kernel'],
  optimum: ['constraint', 'sequence'],
  safety: ['problem', 'plan', 'units'],
  plan: ['problem', 'safety', 'units'],
  estimate: ['heat', 'problem', 'safety', 'units'],
  solve: ['constraint', 'kernel', 'heat', 'kitchen', 'plan', 'problem', 'safety', 'units'],
  chance: ['solve', 'kernel', 'heat', 'plan', 'problem'],
  audit: ['plan', 'problem', 'units'],
  chart: ['plan', 'problem', 'units'],
  live: ['chance', 'solve', 'kernel', 'heat', 'kitchen', 'plan', 'problem', 'safety', 'units'],
  share: ['chart', 'plan', 'problem', 'safety', 'units'],
  wall: ['chart', 'live', 'plan', 'problem', 'share', 'units'],
};

/** Packages of src and the folders in which they are at home. Anything else is a new dependency to be thought about. */
const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  zod: ['problem', 'plan', 'estimate', 'live', 'share', 'wall'],
  yaml: ['problem'],
  luxon: ['units', 'problem', 'audit', 'share'],
  'javascript-lp-solver': ['solve'],
  'ical.js': ['share'],
  // Also where an error's caret goes under what it points at.
  'string-width': ['chart', 'problem', 'share'],
  'node:fs': ['problem'],
  'node:path': ['problem'],
  'node:url': ['problem'],
  'node:crypto': ['problem', 'share'],
};

const LONGEST = 400;

interface Source {
  /** From the project's root, with slashes. */
  readonly path: string;
  readonly text: string;
  readonly imports: readonly string[];
}

function sourcesIn(folder: string): Source[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .sort()
    .map((name) => {
      const path = join(folder, name).replaceAll('\\', '/');
      const text = readFileSync(path, 'utf8');
      return { path, text, imports: importsOf(text) };
    });
}

/** Everything that a file imports or re-exports, by whatever syntax, types too. */
function importsOf(text: string): string[] {
  const code = withoutComments(text);
  const froms = code.matchAll(/\b(?:import|export)\b[^;'"`]*?\bfrom\s*['"]([^'"]+)['"]/g);
  const bare = code.matchAll(/\bimport\s*\(?\s*['"]([^'"]+)['"]/g);
  return [...froms, ...bare].map((match) => match[1]!);
}

/** Strings stay; a comment sign in one of them is not a comment. */
function withoutComments(text: string): string {
  return text.replace(/("(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'|`(?:\\.|[^`\\])*`)|\/\*[\s\S]*?\*\/|\/\/[^\n]*/g, '$1');
}

/** Comments, and the words of strings, which may say anything. */
function withoutWords(text: string): string {
  return withoutComments(text).replace(/"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'/g, "''");
}

const folderOf = (path: string): string => path.split('/')[1]!;
const isRelative = (name: string): boolean => name.startsWith('.');
const targetOf = (from: string, name: string): string => normalize(join(dirname(from), name)).replaceAll('\\', '/');

const SRC = sourcesIn('src');
const CLI = sourcesIn('cli');
const ALL = [...SRC, ...CLI];

describe('imports', () => {
  it('are found whatever their syntax', () => {
    const text = `import a from 'a';\nimport type { B } from "b";\nexport * from './c.js';\nimport 'd';
      // import e from 'e';
      const f = await import('f'); const g = "import h from 'h'";\nexport {\n  i,\n} from '../i.js';`;
    expect(importsOf(text).sort()).toEqual(['../i.js', './c.js', 'a', 'b', 'd', 'f', 'h'].sort());
  });

  it('of src stay within src, and point only to what a folder may use', () => {
    const wrong = SRC.flatMap(({ path, imports }) =>
      imports.filter(isRelative).flatMap((name) => {
        const target = targetOf(path, name);
        const [from, to] = [folderOf(path), folderOf(target)];
        const fine =
          target.startsWith('src/') && (from === to || (MAY_IMPORT[from] ?? []).includes(to) || isIndex(path));
        return fine ? [] : [`${path} imports ${target}`];
      }),
    );
    expect(wrong).toEqual([]);
  });

  it('are settled for every folder of src', () => {
    const folders = new Set(SRC.filter(({ path }) => !isIndex(path)).map(({ path }) => folderOf(path)));
    expect([...folders].filter((folder) => !(folder in MAY_IMPORT))).toEqual([]);
    expect(folders.size).toBeGreaterThanOrEqual(8);
  });

  it('of cli stay within cli and src', () => {
    const wrong = CLI.flatMap(({ path, imports }) =>
      imports
        .filter(isRelative)
        .map((name) => targetOf(path, name))
        .filter((target) => !/^(cli|src)\//.test(target))
        .map((target) => `${path} imports ${target}`),
    );
    expect(wrong).toEqual([]);
  });

  it('name files that are there', () => {
    const known = new Set(ALL.map(({ path }) => path.replace(/\.tsx?$/, '.js')));
    const missing = ALL.flatMap(({ path, imports }) =>
      imports.filter((name) => isRelative(name) && !known.has(targetOf(path, name))).map((name) => `${path}: ${name}`),
    );
    expect(missing).toEqual([]);
  });

  it('make no circle', () => {
    expect(circleAmong(ALL)).toBeNull();
    const two = (path: string, name: string): Source => ({ path, text: '', imports: [name] });
    expect(circleAmong([two('src/a/b.ts', '../c/d.js'), two('src/c/d.ts', '../a/b.js')])).not.toBeNull();
  });

  it('of packages are made only where they are at home', () => {
    const wrong = SRC.flatMap(({ path, imports }) =>
      imports
        .filter((name) => !isRelative(name) && !(PACKAGES[name] ?? []).includes(folderOf(path)))
        .map((name) => `${path} imports ${name}`),
    );
    expect(wrong).toEqual([]);
  });

  it('of the LP library are made in one file', () => {
    const users = ALL.filter(({ imports }) => imports.some((name) => name.startsWith('javascript-lp-solver')));
    expect(users.map(({ path }) => path)).toEqual(['src/solve/lp.ts']);
  });
});

/** The library's own front door may show anything of src. */
function isIndex(path: string): boolean {
  return path === 'src/index.ts';
}

/** A row of files each importing the next and the last the first, or null. */
function circleAmong(sources: readonly Source[]): string[] | null {
  const byPath = new Map(sources.map((source) => [source.path.replace(/\.tsx?$/, ''), source]));
  const done = new Set<string>();
  const open: string[] = [];
  const visit = (key: string): string[] | null => {
    if (open.includes(key)) return [...open.slice(open.indexOf(key)), key];
    const source = byPath.get(key);
    if (done.has(key) || source === undefined) return null;
    open.push(key);
    for (const name of source.imports.filter(isRelative)) {
      const circle = visit(targetOf(source.path, name).replace(/\.js$/, ''));
      if (circle !== null) return circle;
    }
    open.pop();
    done.add(key);
    return null;
  };
  for (const key of byPath.keys()) {
    const circle = visit(key);
    if (circle !== null) return circle;
  }
  return null;
}

describe('the library', () => {
  const RULES: readonly (readonly [string, RegExp])[] = [
    ['the clock', /\bDate\.now\b|\bnew Date\(\s*\)|\bDateTime\.(?:now|local|utc)\(\s*\)|\bperformance\b|\bhrtime\b/],
    ['chance of its own', /\bMath\.random\b|\brandomBytes\b|\brandomUUID\b|\bgetRandomValues\b/],
    ['the process', /\bprocess\b|\bglobalThis\b/],
    ['a terminal', /\bconsole\b/],
    ['timers', /\bset(?:Timeout|Interval|Immediate)\b/],
    // Order and spelling of these depend on the machine's language.
    ['the machine’s language', /\btoLocale\w*\(|\blocaleCompare\([^,()]*\)/],
  ];

  it.each(RULES)('reads or uses no part of %s', (_, pattern) => {
    expect(SRC.filter(({ text }) => pattern.test(withoutWords(text))).map(({ path }) => path)).toEqual([]);
  });

  it('is caught where it does', () => {
    const [clock, chance, process] = RULES.map(([, pattern]) => pattern);
    expect(clock!.test('const at = new Date();')).toBe(true);
    expect(clock!.test('const at = new Date(minute * 60_000);')).toBe(false);
    expect(chance!.test('Math.random()')).toBe(true);
    expect(process!.test(withoutWords("// process\nconst say = 'process';"))).toBe(false);
    expect(process!.test(withoutWords('process.exit(1)'))).toBe(true);
  });
});

describe('files', () => {
  it(`have at most ${LONGEST} lines`, () => {
    const lines = ALL.map(({ path, text }) => ({ path, lines: text.replace(/\n$/, '').split('\n').length }));
    expect(lines.filter((file) => file.lines > LONGEST)).toEqual([]);
  });

  it('are named in small letters with hyphens', () => {
    const wrong = ALL.map(({ path }) => path.split('/').at(-1)!).filter(
      (name) => !/^[a-z0-9]+(-[a-z0-9]+)*\.tsx?$/.test(name),
    );
    expect(wrong).toEqual([]);
  });

  it('import each other by names that end in .js', () => {
    const wrong = ALL.flatMap(({ path, imports }) =>
      imports.filter((name) => isRelative(name) && !name.endsWith('.js')).map((name) => `${path}: ${name}`),
    );
    expect(wrong).toEqual([]);
  });
});
