/** How pages look: on a phone and on a desk, by day and by night, and on paper, where nothing hangs on a colour. */
import { DAY, NIGHT, variables } from '../palette.js';
import { pictureStyle } from '../picture/style.js';

const SCREEN = `
:root{color-scheme:light dark;${variables(DAY)}}
@media screen and (prefers-color-scheme:dark){:root{${variables(NIGHT)}}}
*{box-sizing:border-box}
body{margin:0 auto;padding:1rem;max-width:76rem;background:var(--paper);color:var(--ink);font:1rem/1.45 system-ui,"DejaVu Sans",sans-serif;overflow-wrap:anywhere}
h1{font-size:1.5rem;line-height:1.2;margin:0 0 .25rem}
h2{font-size:1.2rem;margin:0 0 .5rem}
h3{font-size:1rem;margin:1rem 0 .25rem}
a{color:var(--accent)}
header p,footer,.count{color:var(--dim);margin:0}
nav ul{display:flex;flex-wrap:wrap;gap:.5rem;list-style:none;margin:1rem 0 0;padding:0}
nav a{display:block;padding:.55rem .8rem;border:1px solid var(--rule);border-radius:.4rem;background:var(--panel)}
section{margin:1.75rem 0 0}
:target{scroll-margin-top:1rem}
.calls{list-style:none;margin:0;padding:0}
.calls li{border-top:1px solid var(--rule)}
.calls label{display:grid;grid-template-columns:1.5rem auto 1fr;gap:.6rem;padding:.6rem 0;align-items:start}
.calls input{width:1.3rem;height:1.3rem;margin:.05rem 0 0;accent-color:var(--accent)}
.calls time{font-weight:700;font-variant-numeric:tabular-nums;white-space:nowrap}
.calls input:checked~*{color:var(--dim);text-decoration:line-through}
.count{margin-top:-.35rem;margin-bottom:.5rem}
.scroll{overflow-x:auto}
.picture{display:block;width:100%;min-width:46rem;height:auto}
details{margin-top:.75rem}
summary{cursor:pointer;padding:.4rem 0;color:var(--accent)}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
caption{text-align:left;color:var(--dim);padding:.25rem 0}
th,td{text-align:left;vertical-align:top;padding:.35rem .75rem .35rem 0;border-top:1px solid var(--rule)}
thead th{border-top:0;color:var(--dim);font-weight:600}
td.when{white-space:nowrap}
.heats th{min-width:9em}
td ul,.heats ul{margin:0;padding:0;list-style:none}
td li,.heats li{padding-left:1em;text-indent:-1em}
.change{display:block;font-weight:400;color:var(--dim)}
th,.when{overflow-wrap:break-word}
.cautions ul{margin:0;padding:.75rem .75rem .75rem 1.75rem;background:var(--caution);border-left:.3rem solid var(--accent)}
.cautions li+li{margin-top:.5rem}
.source{color:var(--dim)}
:focus-visible{outline:3px solid var(--accent);outline-offset:2px}
@media screen and (min-width:64rem){
.columns{display:grid;grid-template-columns:repeat(auto-fit,minmax(21rem,1fr));gap:1.75rem 2.5rem;margin-top:1.75rem}
.columns section{margin:0}
}
@media screen and (max-width:36rem){
.heats thead{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden}
.heats tr,.heats th,.heats td{display:block;border:0;padding:0}
.heats,.heats tbody{display:block}
.heats tr{border-top:1px solid var(--rule);padding:.5rem 0}
}
`;

const PAPER = `
@page{margin:11mm}
@media print{
body{padding:0;max-width:none;font-size:8.5pt;line-height:1.25}
h1{font-size:14pt}
h2{font-size:10.5pt;margin:0 0 1.5mm;break-after:avoid}
h3{font-size:9pt;margin:2mm 0 1mm;break-after:avoid}
nav,details,.count,.lists .heats thead{display:none}
section,.columns{margin:3.5mm 0 0}
.columns{columns:2;column-gap:7mm}
.columns section{margin:0 0 3.5mm}
.calls label{grid-template-columns:3mm auto 1fr;gap:1.5mm;padding:.6mm 0}
.calls li{break-inside:avoid;border-color:#999}
.calls input{appearance:none;width:3mm;height:3mm;border:.3mm solid #000;margin:.3mm 0 0}
.calls input:checked{background:#000}
.scroll{overflow:visible}
.picture{min-width:0;max-height:235mm}
.part .picture{max-height:130mm}
#chart{break-inside:avoid}
th,td{padding:.6mm 3mm .6mm 0;border-color:#999}
tr{break-inside:avoid}
.cautions ul{background:none;border-left:.7mm solid #000;padding:1mm 0 1mm 6mm}
.cautions li+li{margin-top:.7mm}
.cautions li{break-inside:avoid}
.cards section{break-inside:avoid}
.cards .heats{font-size:12pt}
.cards h2{font-size:18pt}
footer{margin-top:2mm}
}
`;

const CARDS = `
.cards h2{font-size:1.6rem}
.cards .heats{font-size:1.15rem}
.cards .degrees{font-size:1.3em;font-weight:700}
`;

const tight = (css: string): string => css.trim().replaceAll('\n', '');

export const PAGE_STYLE = [SCREEN, CARDS, PAPER].map(tight).join('') + pictureStyle(null);
