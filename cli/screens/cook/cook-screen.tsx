/** The cook's screen: keys in, frames out, entries to the journal. What it shows stands in `cook-frame`, how it moves in `cook-state`. */
import { Box, Text, useApp, useInput } from 'ink';
import { useEffect, useRef, useState } from 'react';
import type { Glyphs } from '../../../src/chart/glyphs.js';
import { viewOf } from '../../../src/chart/view.js';
import type { Desk } from '../../cooking/desk.js';
import type { Practice } from '../../cooking/practice.js';
import type { Proposals } from '../../cooking/proposals.js';
import { type Brush, paint } from '../../terminal/paint.js';
import type { Size } from '../parts.js';
import { alarmFor } from './alarm.js';
import { cookFrame, type Sight } from './cook-frame.js';
import { type CookPressed, cookActionFor } from './cook-keys.js';
import { type Action, type CookState, firstState, moved } from './cook-state.js';
import { fulfil } from './fulfil.js';
import { chosenOf, itemsOf } from './items.js';

export interface CookScreenProps {
  readonly desk: Desk;
  readonly proposals: Proposals;
  /** The simulated kitchen of a rehearsal; null on the day itself. */
  readonly practice: Practice | null;
  readonly size: Size;
  readonly glyphs: Glyphs;
  readonly brush: Brush;
  /** Rings when a call is due, and says it in the window's title. */
  readonly ring: (due: string | null, bell: boolean) => void;
}

/** Milliseconds between two frames, of the real clock. */
const PACE = 1000;
const FAST = 200;

export function CookScreen({ desk, proposals, practice, size, glyphs, brush, ring }: CookScreenProps) {
  const { exit } = useApp();
  // Keys that come at once see what those before them did, so the state stands outside of React's turns.
  const held = useRef<CookState>(firstState);
  const [, draw] = useState(0);
  const alarm = useRef(alarmFor(desk));
  useEffect(() => {
    const again = (): void => {
      practice?.look();
      const { due, bell } = alarm.current(desk);
      ring(due, bell);
      proposals.look();
      draw((turn) => turn + 1);
    };
    const timer = setInterval(again, desk.clock.speed === 1 ? PACE : FAST);
    const deaf = [desk.listen(again), proposals.listen(again)];
    again();
    return () => {
      clearInterval(timer);
      for (const stop of deaf) stop();
    };
  }, [desk, proposals, practice, ring]);

  const act = (action: Action): void => {
    const items = itemsOf(desk.state());
    const at = chosenOf(items, held.current.cursor);
    const next = moved(
      held.current,
      action,
      items.map(({ key }) => key),
      at,
    );
    held.current = next.state;
    if (action.do === 'write' && action.line === 'reading ' && practice) {
      const item = items[at];
      const line = practice.reading(item?.kind === 'step' ? item.step.id : null) ?? action.line;
      held.current = { ...held.current, line };
    }
    if (next.wish === null) return;
    const said = fulfil(desk, proposals, next.wish, items);
    held.current = moved(held.current, { do: 'said', said }, [], 0).state;
  };
  useInput((input, key: CookPressed) => {
    // Keys pressed quickly, and what is pasted, arrive together.
    for (const each of input.length > 1 ? [...input] : [input]) {
      const pressed = each === '\r' || each === '\n' ? { ...key, return: true } : key;
      const action = cookActionFor(each, pressed, held.current);
      if (action === 'quit') exit();
      else if (action) act(action);
    }
    draw((turn) => turn + 1);
  });
  return (
    <Box flexDirection="column" width={size.columns} height={size.rows} overflow="hidden">
      {cookFrame(sightOf(desk, proposals, practice, held.current), held.current, size, glyphs).map((line, row) => (
        <Text key={row} wrap="truncate">
          {paint(line, brush) || ' '}
        </Text>
      ))}
    </Box>
  );
}

function sightOf(desk: Desk, proposals: Proposals, practice: Practice | null, { cursor }: CookState): Sight {
  const [day, state] = [desk.day(), desk.state()];
  const items = itemsOf(state);
  const { problem } = day;
  return {
    day,
    view: viewOf(problem, day.plan!),
    state,
    items,
    at: chosenOf(items, cursor),
    now: (desk.clock.now() - problem.origin) / 60_000,
    speed: desk.clock.speed,
    entries: desk.entries(),
    counting: new Set(desk.inForce().map(({ seq }) => seq)),
    looksDone: practice?.looksDone() ?? new Set(),
    proposal: proposals.current(),
    thinking: proposals.thinking(),
    atOnce: proposals.atOnce(),
    closed: desk.closed(),
  };
}
