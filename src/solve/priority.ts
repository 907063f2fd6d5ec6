/** Priority rules: the orders in which jobs are put into a first schedule. */
import type { Model } from '../kernel/model.js';

/** How long each job can wait to land before that gets dear: those that cannot wait should choose their place first. */
export const urgencyOf = (model: Model): number[] =>
  model.jobs.map((job) => (job.group < 0 ? 400 : Math.min(300, job.keeps) - 10 * job.rate));

/** Orders of all jobs: longest on a machine first, dearest to wait, most urgent, fewest choices. */
export function priorityOrders(model: Model, urgency: readonly number[]): number[][] {
  const sum = (of: (activity: Model['activities'][number]) => number): number[] =>
    model.jobs.map((job) => job.activities.reduce((total, a) => total + of(model.activities[a]!), 0));
  const length = sum((activity) => activity.shortest);
  const onMachine = sum(({ modes, shortest }) => (modes.every((mode) => mode.machine >= 0) ? shortest : 0));
  const choices = sum(({ modes }) => modes.length);
  const rules: ((j: number) => number)[] = [
    (j) => -onMachine[j]! * 1000 - length[j]!,
    (j) => -model.jobs[j]!.rate * 1e6 - onMachine[j]!,
    (j) => urgency[j]! * 1e4 - onMachine[j]!,
    (j) => (choices[j]! / model.jobs[j]!.activities.length) * 1e4 - length[j]!,
  ];
  return rules.map((rule) => model.jobs.map((job) => job.id).sort((x, y) => rule(x) - rule(y) || x - y));
}
