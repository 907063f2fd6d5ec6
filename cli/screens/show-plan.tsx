/** The plan's screen, until the cook leaves it. */
import type { Glyphs } from '../../src/chart/glyphs.js';
import type { View } from '../../src/chart/view.js';
import type { Brush } from '../terminal/paint.js';
import { PlanScreen } from './plan-screen.js';
import { runScreen } from './run-screen.js';

export const showPlan = (view: View, glyphs: Glyphs, brush: Brush): Promise<void> =>
  runScreen((size) => <PlanScreen view={view} glyphs={glyphs} brush={brush} size={size} />);
