/** How the parts of a picture look: by classes alone, so that a page's policy need not allow styles on elements. */
import { DISH_COLOURS, type Palette, variables } from '../palette.js';
import { FONT } from './letters.js';

/** `palette` sets the colours; without one they are those of what is around. */
export const pictureStyle = (palette: Palette | null): string =>
  palette === null ? RULES : `svg{${variables(palette)}}${RULES}`;

const DISHES = Array.from(
  { length: DISH_COLOURS },
  (_, index) => `.picture .d${index} .body{fill:var(--fill-${index});stroke:var(--line-${index})}`,
).join('');

const RULES = [
  `.picture text{font:${FONT}px system-ui,"DejaVu Sans",sans-serif;fill:var(--ink)}`,
  '.picture .paper,.picture .fold{fill:var(--paper)}',
  '.picture .heading{font-size:18px;font-weight:700}',
  '.picture .strong,.picture .day{font-weight:600}',
  '.picture .small,.picture .time{fill:var(--dim)}',
  '.picture .time,.picture .middle{text-anchor:middle}',
  '.picture .time.landing{fill:var(--accent);font-weight:700}',
  '.picture .tick,.picture .edge{stroke:var(--rule)}',
  '.picture .edge{stroke:var(--dim);stroke-dasharray:3 3}',
  '.picture .served{stroke:var(--accent);stroke-width:2}',
  '.picture .body{fill:var(--panel);stroke:var(--dim)}',
  DISHES,
  '.picture .strip.heat{fill:var(--ink)}',
  ...['hold', 'rest', 'chill'].map((name) => `.picture .strip.${name}{fill:url(#texture-${name})}`),
  '.picture .texture rect,.picture .texture circle{fill:var(--ink)}',
  '.picture .texture path{fill:none;stroke:var(--ink)}',
  '.picture .lit{fill:url(#texture-lit);opacity:.45}',
  '.picture .wait{stroke:var(--dim);stroke-dasharray:2 4;stroke-width:2}',
  '.picture .hill{fill:var(--heat);stroke:var(--heat-line)}',
  // Serving times go through it otherwise.
  '.picture .degrees{font-weight:600;paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}',
].join('');
