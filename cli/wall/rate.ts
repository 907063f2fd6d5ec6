/** How often may be tapped: more than any hand does, and too little to fill a disk. */
import type { Right } from '../../src/wall/rights.js';

const MOST = 40;
/** Milliseconds. */
const WITHIN = 10_000;

export class Rate {
  private readonly taps = new Map<Right, number[]>();

  allows(right: Right, now: number): boolean {
    const recent = (this.taps.get(right) ?? []).filter((at) => now - at < WITHIN);
    if (recent.length < MOST) recent.push(now);
    else return false;
    this.taps.set(right, recent);
    return true;
  }
}
