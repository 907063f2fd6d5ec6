/** RESULTS.md: parts under headings of the first level, each written by one benchmark, which leaves the others as they are. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import { fileURLToPath } from 'node:url';

const FILE = fileURLToPath(new URL('RESULTS.md', import.meta.url));

/** Puts a part in place of the one with the same heading, or at the end. `body` has no heading of the first level. */
export function writePart(heading: string, body: string): void {
  const parts = existsSync(FILE) ? readFileSync(FILE, 'utf8').split(/^(?=# )/m) : [];
  const part = `# ${heading}\n\n${body.trim()}\n`;
  const at = parts.findIndex((one) => one.startsWith(`# ${heading}\n`));
  if (at >= 0) parts[at] = part;
  else parts.push(part);
  writeFileSync(FILE, parts.map((one) => `${one.trim()}\n`).join('\n'));
}

/** When and where it was measured. `load`: of the machine when it began. */
export function circumstances(load: number): string {
  const processors = cpus();
  const machine = `${processors[0]?.model.trim() ?? 'unknown processor'}, ${processors.length} cores, ${Math.round(totalmem() / 2 ** 30)} GB`;
  return `- Date: ${new Date().toISOString().slice(0, 10)}
- Machine: ${machine}; Node ${process.version} on ${process.platform} ${process.arch}
- Load of the machine when it began: ${load.toFixed(1)} (processes that wanted to run, over the last minute)`;
}

/** A Markdown table; the first column is text, the others are numbers. */
export function table(head: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const line = (cells: readonly (string | number)[]): string => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map((_, k) => (k === 0 ? '---' : '---:'))), ...rows.map(line)].join('\n');
}

export function median<T>(list: readonly T[], by: (entry: T) => number): T {
  return [...list].sort((a, b) => by(a) - by(b))[Math.floor((list.length - 1) / 2)]!;
}
