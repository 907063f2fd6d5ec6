/** How the wall looks: large enough to read from the other side of a table, with buttons for wet fingers. */
import { PAGE_STYLE } from '../share/page/style.js';

const OWN = `
.wall main{display:block}
.wall [data-part]:empty,#answer:empty{display:none}
.wall .clock{font-size:2rem;color:var(--ink);font-variant-numeric:tabular-nums}
.wall header p{font-size:1.05rem}
.wall .who{font-weight:700}
.wall .rehearsal{color:var(--accent)}
.wall .calls li{display:grid;grid-template-columns:auto 1fr auto;gap:.75rem;padding:.7rem 0;align-items:start}
.wall .say,.wall .calls .when{margin:0}
.wall [data-part=now] .say{font-size:1.2rem;line-height:1.3}
.wall .calls .when,.wall .others{color:var(--dim)}
.wall .late .when{color:var(--accent);font-weight:700}
.wall .done .say{color:var(--dim);text-decoration:line-through}
.wall button{font:inherit;font-weight:700;min-width:5.5rem;min-height:3rem;padding:.5rem .8rem;border:2px solid var(--accent);border-radius:.5rem;background:var(--paper);color:var(--accent);touch-action:manipulation}
.wall button:disabled{opacity:.55}
.wall .done button{font-weight:400;border-width:1px}
#stale,#answer,.wall [data-part=trouble],.wall [data-part=changed]{padding:.75rem;background:var(--caution);border-left:.3rem solid var(--accent);margin:0 0 .75rem}
.wall [data-part=changed]{margin-top:.75rem}
#stale{font-weight:700}
#answer{position:sticky;top:0;z-index:1}
.wall summary{color:var(--accent);padding:.6rem 0}
.wall dt{font-weight:700}
.wall dd{margin:0 0 .5rem}
@media screen and (min-width:48rem){
.wall{font-size:1.2rem}
.wall .clock{font-size:3.5rem;line-height:1.1}
.wall [data-part=now] .say{font-size:1.6rem}
}
`;

export const WALL_STYLE = PAGE_STYLE + OWN.trim().replaceAll('\n', '');
