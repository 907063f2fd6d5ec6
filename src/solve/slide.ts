/** Sliding window minima: the inner step of the dynamic programmes over time. */

/** Work space for `slideMinimum`; as long as the horizon plus two. */
export interface SlideSpace {
  readonly deque: Int32Array;
}

export interface Window {
  /** The window for place e is [e + low, min(e + high, cap[e] - tail)]. */
  readonly low: number;
  readonly high: number;
  readonly cap: Int32Array | null;
  readonly tail: number;
  /** Added for each minute beyond e + low; may be negative. */
  readonly rate: number;
  /** Added in any case. */
  readonly base: number;
}

/**
 * For each e in [eLow, eHigh]: out[e] = min(out[e], min over t in e's window, cut to [from, to], of source[t] + base + rate (t - e - low)),
 * where arg[e] becomes that t and tag[e] becomes `mark`. Linear in the lengths: both ends of the window never move back.
 * `cap`, where given, does not fall.
 */
export function slideMinimum(
  space: SlideSpace,
  source: Float64Array,
  from: number,
  to: number,
  window: Window,
  eLow: number,
  eHigh: number,
  out: Float64Array,
  arg: Int32Array,
  tag: Int16Array,
  mark: number,
): void {
  const { deque } = space;
  const { low, high, cap, tail, rate, base } = window;
  let head = 0;
  let size = 0;
  let next = Math.max(from, eLow + low);
  for (let e = eLow; e <= eHigh; e++) {
    const left = e + low;
    if (left > to) break;
    let right = high === Number.POSITIVE_INFINITY ? to : e + high;
    if (cap !== null && cap[e]! - tail < right) right = cap[e]! - tail;
    if (right > to) right = to;
    for (; next <= right; next++) {
      const value = source[next]!;
      if (value === Number.POSITIVE_INFINITY) continue;
      const key = value + rate * next;
      while (size > head && source[deque[size - 1]!]! + rate * deque[size - 1]! >= key) size--;
      deque[size++] = next;
    }
    while (head < size && deque[head]! < left) head++;
    if (head < size && deque[head]! <= right) {
      const t = deque[head]!;
      const value = source[t]! + base + rate * (t - left);
      if (value < out[e]!) {
        out[e] = value;
        arg[e] = t;
        tag[e] = mark;
      }
    }
  }
}
