/** Claims: stretches of time, between moments of the network, on things of which there are only so many. */
import type { Model } from '../../kernel/model.js';

/** A moment of the network, some minutes later. */
export interface Moment {
  readonly node: number;
  readonly offset: number;
}

export interface Claim {
  readonly activity: number;
  readonly from: Moment;
  /** Ends with the last of these. */
  readonly to: readonly Moment[];
}

/** Things that claims share. */
export interface Pool {
  readonly claims: readonly Claim[];
  /** Whether these cannot all be on at one instant. */
  readonly clash: (claims: readonly Claim[]) => boolean;
  /**
   * Null where more claims never take a clash away. Else some claims of a set may clash though all together do not, and this says
   * which claims can be in such a set of three or fewer.
   */
  readonly narrow: ((claim: Claim) => boolean) | null;
  /** Two can be too near each other without being on at once: `apart` is more than 0 for some. */
  readonly spaced: boolean;
  /** Least minutes from the end of one to the start of another with which it clashes. */
  readonly apart: (before: Claim, after: Claim) => number;
}

/** A claim that must lie within one of these windows. */
export interface Stay {
  readonly claim: Claim;
  readonly windows: readonly { readonly from: number; readonly to: number }[];
}

export const ZERO = 0;
export const startOf = (activity: number): number => 1 + 2 * activity;
export const endOf = (activity: number): number => 2 + 2 * activity;
export const landingOf = (model: Model, group: number): number => 1 + 2 * model.activities.length + group;
export const momentsOf = (model: Model): number => 1 + 2 * model.activities.length + model.groups.length;

export const moment = (node: number, offset = 0): Moment => ({ node, offset });

export const during = (activity: number): Claim => ({
  activity,
  from: moment(startOf(activity)),
  to: [moment(endOf(activity))],
});
