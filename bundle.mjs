/**
 * Bundles the command and all it imports into dist/cli: one file with what every run needs, others with what only some
 * need (the search, the screens), and the licences of the packages inside. Opening the hundreds of files of those
 * packages one by one would take longer than planning a supper.
 */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';

const FOLDER = 'dist/cli';

rmSync(FOLDER, { recursive: true, force: true });
const { metafile } = await build({
  // What runs in a thread of its own begins with a file of its own.
  entryPoints: {
    main: 'cli/main.ts',
    thread: 'cli/solving/thread.ts',
    'planner-thread': 'cli/cooking/planner-thread.ts',
  },
  outdir: FOLDER,
  bundle: true,
  splitting: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  // Some packages are CommonJS and call `require` for parts of Node; a module has no such function of its own.
  banner: { js: "import { createRequire } from 'node:module';\nconst require = createRequire(import.meta.url);" },
  // React's development checks and Ink's inspector (which `main` never lets it load) are for us, not for a cook.
  define: { 'process.env.NODE_ENV': '"production"' },
  external: ['./devtools.js'],
  metafile: true,
  logLevel: 'warning',
});
writeFileSync(join(FOLDER, 'LICENSES.txt'), licences(foldersOf(Object.keys(metafile.inputs))));

/** The folders of the packages that these files belong to, sorted by name. */
function foldersOf(files) {
  const folders = files.map((file) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file)?.[0]);
  return [...new Set(folders.filter((folder) => folder !== undefined))].sort();
}

/** Each package's own licence, as its authors wrote it. */
function licences(folders) {
  const parts = folders.map((folder) => {
    const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    const texts = licenceFiles(name, folder).map((file) => readFileSync(file, 'utf8').trim());
    return `${name} ${version} (${license})\n\n${texts.join('\n\n')}\n`;
  });
  const rule = `\n${'-'.repeat(80)}\n\n`;
  return `The command contains these packages, or parts of them, under their own licences.\n${rule}${parts.join(rule)}`;
}

function licenceFiles(name, folder) {
  // Yoga says that it is Meta's and under the MIT licence, as React is, but brings no text of it.
  const home = name === 'yoga-layout' ? 'node_modules/react' : folder;
  const files = readdirSync(home).filter((file) => /^(licen[cs]e|notice)/i.test(file));
  if (files.length === 0) throw new Error(`${name} has no licence text in ${home}`);
  return files.map((file) => join(home, file));
}
