/** What the cook is told when there is no plan. */
import type { WayRow } from '../../plan/why-document.js';

export interface Reason {
  /** One sentence with its full stop. */
  readonly say: string;
  /** `why`: what stands in the way. `way`: a change of the meal or kitchen with which everything fits. */
  readonly kind: 'why' | 'way';
  /** Of a way out: what was found with it. */
  readonly way?: WayRow;
}
