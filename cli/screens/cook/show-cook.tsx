/** The cook's screen, until it is left. */
import type { Glyphs } from '../../../src/chart/glyphs.js';
import type { Desk } from '../../cooking/desk.js';
import type { Practice } from '../../cooking/practice.js';
import type { Proposals } from '../../cooking/proposals.js';
import type { Brush } from '../../terminal/paint.js';
import { bellRinger } from '../../terminal/window.js';
import { runScreen } from '../run-screen.js';
import { CookScreen } from './cook-screen.js';

export interface CookParts {
  readonly desk: Desk;
  readonly proposals: Proposals;
  readonly practice: Practice | null;
}

export async function showCook(parts: CookParts, glyphs: Glyphs, brush: Brush): Promise<void> {
  const bell = bellRinger(process.stdout);
  try {
    await runScreen((size) => <CookScreen {...parts} glyphs={glyphs} brush={brush} size={size} ring={bell.ring} />);
  } finally {
    bell.leave();
  }
}
