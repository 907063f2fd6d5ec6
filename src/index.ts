/** The library: read a problem, plan it, judge the plan, draw it. */
export { audit } from './audit/audit.js';
export { type PlanDocument, planDocument } from './plan/document.js';
export { type Message, showMessage } from './problem/message.js';
export type { Problem } from './problem/problem.js';
export { readProblem, readProblemFile } from './problem/read.js';
export { problemJsonSchema } from './problem/schema-json.js';
export { type Solved, type SolveOptions, solve } from './solve/solve.js';
