/** The small supper with other steps in its last dish. */
import type { OptionAsRead as Option } from '../../../src/problem/problem.js';
import { changed, messagesOf, optionsOf } from './small-supper.js';

type Changes = readonly (readonly [from: string, to: string])[];

/** A last step that keeps the component in use. */
export const OIL = '- { step: dress, work: finish, takes: 3 min, after: [Herb oil/strain] }';

/** The steps of the last dish replaced, which then has no hold. */
export function rootsWith(steps: string, ...changes: Changes): string {
  const [before] = changed(...changes)
    .replace(/ {4}hold: .*\n/, '')
    .split('      - { step: cut');
  return `${before}${steps.trim().replaceAll(/^/gm, '      ')}\n`;
}

const withStep = (step: string, changes: Changes): string =>
  rootsWith(
    `- { step: do, ${step} }\n- { step: oil, work: finish, takes: 1 min, after: [do, Herb oil/strain] }`,
    ...changes,
  );

/** Options of one step, written as it stands in a flow map. */
export const optionsWith = (step: string, ...changes: Changes): readonly Option[] =>
  optionsOf(withStep(step, changes), 'Roots/do');

export const optionWith = (step: string, ...changes: Changes): Option => optionsWith(step, ...changes)[0]!;

/** What is said of one step. */
export const complaintsOf = (step: string, ...changes: Changes): string[] =>
  messagesOf(withStep(step, changes)).map((message) => message.say);
