/** How far a core that follows a curve is rid of germs, by the published times at each temperature. */
import { celsiusOfFahrenheit } from '../units/temperature.js';
import { type Curve, checkCurve, piecesOf } from './curve.js';
import { celsiusOf, type LethalityTable } from './lethality-tables.js';

export interface Lethality {
  /** log10 reduction of Salmonella, at least: the time above the temperature that does it at once counts as its last row. */
  readonly logs: number;
  /** log10 reduction that the table asks for. */
  readonly required: number;
  /** `logs` in `required`: at 1 the published time is held. */
  readonly share: number;
  /** Minute of the curve at which that is so; null: never. */
  readonly reached: number | null;
  /** Minutes at one temperature that do the same. */
  readonly equivalent: { readonly celsius: number; readonly minutes: number };
}

/** A stretch of temperatures in which the rate, the share of the published time held per minute, is one exponential. */
interface Band {
  readonly low: number;
  readonly high: number;
  /** A minute, at `low`. */
  readonly rate: number;
  /** Growth of its logarithm, a °C. */
  readonly slope: number;
}

const bandsKnown = new WeakMap<LethalityTable, readonly Band[]>();

function bandsOf(table: LethalityTable): readonly Band[] {
  const known = bandsKnown.get(table);
  if (known !== undefined) return known;
  const bands = table.rows.map((row, at): Band => {
    const next = table.rows[at + 1];
    const low = celsiusOf(row);
    const rate = 60 / row.seconds;
    if (next === undefined) return { low, high: Number.POSITIVE_INFINITY, rate, slope: 0 };
    const high = celsiusOf(next);
    return { low, high, rate, slope: Math.log(row.seconds / next.seconds) / (high - low) };
  });
  bandsKnown.set(table, bands);
  return bands;
}

/** For a temperature that is a row's own, come by way of °F, and for a time held to the second. */
const SLACK = 1e-9;
const bandAt = (bands: readonly Band[], celsius: number): Band | undefined =>
  bands.findLast((band) => celsius >= band.low - SLACK);

/**
 * Minutes for which the table asks at a temperature in °C: Infinity below its lowest row, 0 from where it is reached at
 * once. Between two rows the logarithm of the time is linear in the temperature: each pair of neighbours has its own D and z.
 */
export function holdAt(table: LethalityTable, celsius: number): number {
  if (celsius >= celsiusOfFahrenheit(table.atOnce) - SLACK) return 0;
  const band = bandAt(bandsOf(table), celsius);
  return band === undefined
    ? Number.POSITIVE_INFINITY
    : 1 / (band.rate * Math.exp(band.slope * Math.max(0, celsius - band.low)));
}

/**
 * The published times added up along a curve of the core, the rest after the heat included (the FDA Food Code 3-401.11(B)
 * counts the rise out of the oven as well): the share of the time at each temperature, integrated. That is exact for a curve
 * that is linear between its points. Below the table's lowest row nothing is credited, however long.
 *
 * @param reference °C within the table's rows, for `equivalent`.
 * @throws RangeError where the points make no curve, or the table has no time at the reference.
 */
export function lethalityOf(curve: Curve, table: LethalityTable, reference = table.reference): Lethality {
  checkCurve(curve);
  const hold = holdAt(table, reference);
  if (hold === 0 || hold === Number.POSITIVE_INFINITY)
    throw new RangeError(`The table for ${table.food} has no time at ${reference} °C.`);
  const bands = bandsOf(table);
  const once = celsiusOfFahrenheit(table.atOnce) - SLACK;
  const isOnce = (celsius: number): boolean => celsius >= once;
  let share = 0;
  let reached: number | null = null;
  const atOnce = (minute: number): void => {
    share = Math.max(share, 1);
    reached ??= minute;
  };
  const levels = [...bands.map((band) => band.low), once];
  for (const { from, to, first, last } of piecesOf(curve, levels)) {
    if (isOnce(first)) atOnce(from);
    const band = bandAt(bands, (first + last) / 2);
    if (band !== undefined) {
      const rate = band.rate * Math.exp(band.slope * (first - band.low));
      const growth = (band.slope * (last - first)) / (to - from);
      const gained = rate * grown(growth, to - from);
      if (reached === null && share + gained >= 1 - SLACK)
        reached = Math.min(to, from + timeFor(Math.max(0, 1 - share) / rate, growth));
      share += gained;
    }
    if (isOnce(last)) atOnce(to);
  }
  const end = curve.minutes.length - 1;
  if (isOnce(curve.celsius[end]!)) atOnce(curve.minutes[end]!);
  return {
    logs: share * table.logs,
    required: table.logs,
    share,
    reached,
    equivalent: { celsius: reference, minutes: share * hold },
  };
}

/** The integral of exp(growth t) from 0 to `time`. */
const grown = (growth: number, time: number): number =>
  Math.abs(growth * time) < 1e-12 ? time : Math.expm1(growth * time) / growth;

/** The time after which that integral has grown to `wanted`. */
const timeFor = (wanted: number, growth: number): number =>
  Math.abs(growth * wanted) < 1e-12 ? wanted : Math.log1p(growth * wanted) / growth;
