/** A browser without a screen, where one is installed (Debian: `apt-get install chromium`). */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome'];

function found(): string | null {
  const folders = (process.env.PATH ?? '').split(delimiter);
  const paths = NAMES.flatMap((name) => folders.map((folder) => join(folder, name)));
  return (
    paths.find((path) => {
      try {
        accessSync(path, constants.X_OK);
        return true;
      } catch {
        return false;
      }
    }) ?? null
  );
}

const path = found();
export const hasChromium = path !== null;

/** What stands behind the name of tests that were left out. */
export const unlessChromium = hasChromium ? '' : ' (left out: there is no chromium here)';

export const launched = (): Promise<Browser> =>
  chromium.launch({ executablePath: path!, args: ['--no-sandbox', '--disable-gpu'] });
