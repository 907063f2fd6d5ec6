/** The cook's screen, until it is left. */
import type { Glyphs } from '../../../src/chart/glyphs.js';
import type { Desk } from '../../cooking/desk.js';
import type { Proposals } from '../../cooking/proposals.js';
import type { Brush } from '../../terminal/paint.js';
import { bellRinger } from '../../terminal/window.js';
import { runScreen } from '../run-screen.js';
import { CookScreen } from './cook-screen.js';

export async function showCook(desk: Desk, proposals: Proposals, glyphs: Glyphs, brush: Brush): Promise<void> {
  const bell = bellRinger(process.stdout);
  try {
    await runScreen((size) => (
      <CookScreen desk={desk} proposals={proposals} glyphs={glyphs} brush={brush} size={size} ring={bell.ring} />
    ));
  } finally {
    bell.leave();
  }
}
