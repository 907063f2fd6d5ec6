import { readFileSync } from 'node:fs';

/** The version in our own package.json, which lies above the sources and above what is built from them. */
export function version(): string {
  for (const up of ['../package.json', '../../package.json']) {
    try {
      const found = JSON.parse(readFileSync(new URL(up, import.meta.url), 'utf8')) as {
        name?: string;
        version?: string;
      };
      if (found.name === 'hearthtable' && found.version) return found.version;
    } catch {
      // Not there: the next place up.
    }
  }
  return 'unknown';
}
