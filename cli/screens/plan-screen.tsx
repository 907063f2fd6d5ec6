/** The plan's screen: keys in, frames out. What it shows stands in `plan-frame`, how it moves in `plan-state`. */
import { Box, Text, useApp, useInput } from 'ink';
import { useReducer } from 'react';
import type { Glyphs } from '../../src/chart/glyphs.js';
import type { View } from '../../src/chart/view.js';
import { type Brush, paint } from '../terminal/paint.js';
import { actionFor } from './keys.js';
import type { Size } from './parts.js';
import { planFrame } from './plan-frame.js';
import { type Action, firstState, type PlanState, reduce } from './plan-state.js';

export interface PlanScreenProps {
  readonly view: View;
  readonly size: Size;
  readonly glyphs: Glyphs;
  readonly brush: Brush;
}

export function PlanScreen({ view, size, glyphs, brush }: PlanScreenProps) {
  const { exit } = useApp();
  const [state, act] = useReducer((was: PlanState, action: Action) => reduce(view, was, action), view, firstState);
  useInput((input, key) => {
    // Keys pressed quickly arrive together.
    for (const each of input.length > 1 ? [...input] : [input]) {
      const action = actionFor(each, key);
      if (action === 'quit') exit();
      else if (action) act(action);
    }
  });
  return (
    <Box flexDirection="column" width={size.columns} height={size.rows} overflow="hidden">
      {planFrame(view, state, size, glyphs).map((line, row) => (
        <Text key={row} wrap="truncate">
          {paint(line, brush) || ' '}
        </Text>
      ))}
    </Box>
  );
}
