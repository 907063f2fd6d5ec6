import { audit } from '../../src/audit/audit.js';
import { ASCII, UNICODE } from '../../src/chart/glyphs.js';
import { textOf } from '../../src/chart/line.js';
import { reportLines } from '../../src/chart/report.js';
import { viewOf } from '../../src/chart/view.js';
import { showMessage } from '../../src/problem/message.js';
import { readProblemFile } from '../../src/problem/read.js';
import { solve } from '../../src/solve/solve.js';

const [f, w, a] = process.argv.slice(2);
const r = readProblemFile(f!);
if (!r.ok) {
  console.log(r.messages.map((m) => showMessage(m)).join('\n'));
  process.exit(2);
}
console.log(r.warnings.map((m) => showMessage(m)).join('\n'));
const t = Date.now();
const s = solve(r.problem, { effort: 'quick', seed: 1, onProgress: (p) => console.log(Date.now() - t, p) });
console.log(Date.now() - t, 'ms', s.reasons);
if (s.plan) {
  console.log(audit(r.problem, s.plan).violations.slice(0, 5));
  for (const l of reportLines(viewOf(r.problem, s.plan), Number(w), a ? ASCII : UNICODE)) console.log(textOf(l));
}
