/** Dishes and steps as far as they are known before links and options are read. */
import type { DishEntry, StepEntry } from './schema.js';

export interface StepDraft {
  readonly id: number;
  /** Index of its dish. */
  readonly dish: number;
  readonly name: string;
  readonly entry: StepEntry;
  readonly keeps: number | null;
}

export interface DishDraft {
  readonly name: string;
  readonly served: boolean;
  readonly entry: DishEntry;
  readonly steps: readonly StepDraft[];
}
