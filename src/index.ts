/** The library: read a problem, have its minutes reckoned (`withHeat`), plan it, judge the plan. */
export { audit } from './audit/audit.js';
export { type Asking, type Chances, chancesOf } from './chance/chances.js';
export { askedOf } from './estimate/asked.js';
export { type Estimate, estimate as estimateDocument } from './estimate/document.js';
export { estimateOf } from './estimate/estimate.js';
export { withHeat } from './heat/meal.js';
export { type PlanDocument, planDocument } from './plan/document.js';
export { type Message, showMessage } from './problem/message.js';
export type { Problem, ProblemAsRead } from './problem/problem.js';
export { readProblem, readProblemFile } from './problem/read.js';
export { problemJsonSchema } from './problem/schema-json.js';
export { type Solved, type SolveOptions, solve } from './solve/solve.js';
