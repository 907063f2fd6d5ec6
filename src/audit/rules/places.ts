/**
 * Rule 3: a place holds what fits. On a rack or grate footprints do not overlap (rectangles may turn by 90°; round pans are
 * circles) and positions are part of the plan; a burner takes one pan that it carries; at every instant the loaded
 * levels' tallest loads, each with its clearance, sum to no more than the cavity's height; lit zones stay free.
 *
 * A row takes its place from its start to its end, half-open. Each board takes one step at a time.
 */
import type { Burners, Grate, Racks } from '../../problem/problem.js';
import { meet, type Reading, type Row } from '../reading.js';
import {
  freeZones,
  isCarried,
  overlap,
  type Shape,
  SLACK,
  type Strip,
  shapeAt,
  stripsUnder,
  withinCircle,
  withinStrips,
} from '../shapes.js';
import { standingOf } from '../standing.js';
import type { Violation } from '../violation.js';

/** One of the loads of a row, where it stands. */
interface Placed {
  readonly row: Row;
  readonly level: number | null;
  readonly shape: Shape;
  readonly height: number;
}

type Tell = (code: string, say: string, ...rows: readonly Row[]) => void;

export function checkPlaces(reading: Reading): Violation[] {
  const found: Violation[] = [];
  const tell: Tell = (code, say, ...rows) => {
    found.push({ rule: 3, code, say, steps: [...new Set(rows.map((row) => row.label))] });
  };
  checkForm(reading, tell);
  checkBoards(reading, tell);
  for (const appliance of reading.problem.kitchen.appliances) {
    const rows = reading.rows.filter((row) => row.appliance === appliance);
    const { surface } = appliance;
    if (surface.kind === 'burners') {
      checkBurners(reading, surface, rows, tell);
      continue;
    }
    const placed = rows.flatMap((row) => placedOf(reading, surface, row, tell));
    for (const each of placed) {
      if (reading.past.has(each.row)) continue;
      if (surface.kind === 'grate') checkOnGrate(surface, each, tell);
      else checkOnRack(surface, each, tell);
      const limit = each.row.mode?.height ?? Number.POSITIVE_INFINITY;
      if (each.height > limit + SLACK)
        tell('height', `${each.row.label} is too tall for ${each.row.raw.mode}.`, each.row);
    }
    checkOverlaps(reading, placed, tell);
    if (surface.kind === 'racks') checkHeights(reading, surface, placed, tell);
  }
  return found;
}

/** Lists stand where there are several pans and only there; spots and levels only where there is such a thing. */
function checkForm(reading: Reading, tell: Tell): void {
  for (const row of reading.rows) {
    const { place, spot, level } = row.raw;
    const kind = row.appliance?.surface.kind ?? null;
    const several = row.places.length > 1;
    const lists = [place, spot, level].filter((each) => each !== null).map((each) => Array.isArray(each));
    if (lists.some((list) => list !== several)) tell('form', `${row.label} names its places in an uneven way.`, row);
    const hasSpot = kind === 'racks' || kind === 'grate';
    if (!hasSpot && spot !== null) tell('form', `${row.label} has a spot on something that has none.`, row);
    if (kind !== 'racks' && level !== null) tell('form', `${row.label} has a level on something that has none.`, row);
  }
}

function checkBoards(reading: Reading, tell: Tell): void {
  const taken = new Map<string, Row[]>();
  for (const row of reading.rows) {
    if (row.option?.place.kind !== 'board') continue;
    for (const name of new Set(row.places)) {
      const number = /^board ([1-9]\d*)$/.exec(name)?.[1];
      const isThere = number !== undefined && Number(number) <= reading.problem.kitchen.boards;
      if (!isThere && !reading.past.has(row)) {
        tell('board', `${row.label} is on ${name}, which this kitchen does not have.`, row);
      }
      for (const other of taken.get(name) ?? []) {
        if (meet(row, other) && !happened(reading, row, other))
          tell('board', `${row.label} and ${other.label} are on ${name} at once.`, row, other);
      }
      taken.set(name, [...(taken.get(name) ?? []), row]);
    }
  }
}

function checkBurners(reading: Reading, surface: Burners, rows: readonly Row[], tell: Tell): void {
  const taken = new Map<string, Row[]>();
  for (const row of rows) {
    const load = standingOf(reading, row)?.load ?? null;
    for (const name of row.places) {
      const burner = surface.burners.find((each) => each.name === name);
      if (burner === undefined) {
        tell('place', `${row.label} is on ${name}, which is no burner of ${row.raw.appliance}.`, row);
        continue;
      }
      if (!isCarried(load, burner.carries) && !reading.past.has(row)) {
        tell('burner', `${name} does not carry the pan of ${row.label}.`, row);
      }
      for (const other of taken.get(name) ?? []) {
        if (meet(row, other) && !happened(reading, row, other))
          tell('burner', `${row.label} and ${other.label} are on ${name} at once.`, row, other);
      }
      taken.set(name, [...(taken.get(name) ?? []), row]);
    }
  }
}

/** The loads of a row with their shapes; told and left out where the plan does not say where they stand. */
function placedOf(reading: Reading, surface: Grate | Racks, row: Row, tell: Tell): Placed[] {
  const standing = standingOf(reading, row);
  if (standing === null || standing.load === null) return [];
  const { footprint, height } = standing.load;
  const levels = surface.kind === 'racks' ? row.levels : row.places.map(() => null);
  if (row.spots.length !== standing.pans || levels.length !== standing.pans || row.places.length !== standing.pans) {
    tell('spot', `${row.label} does not say where each of its pans stands.`, row);
    return [];
  }
  return row.spots.map((spot, index) => {
    const level = levels[index] ?? null;
    const shape = shapeAt(footprint, spot);
    const name = row.places[index];
    const rightName = surface.kind === 'racks' ? `rack ${level}` : zoneNames(surface, shape);
    if (name !== rightName) tell('place', `${row.label} stands on ${rightName}, the plan says ${name}.`, row);
    return { row, level, shape, height };
  });
}

function zoneNames(surface: Grate, shape: Shape): string {
  return stripsUnder(shape, surface.zones)
    .map((zone) => zone.name)
    .join(' + ');
}

function checkOnGrate(surface: Grate, { row, shape }: Placed, tell: Tell): void {
  const lit = row.mode?.lit ?? [];
  const burning = stripsUnder(shape, surface.zones).filter((zone) => lit.includes(zone.name));
  if (burning.length > 0) {
    tell('lit', `${row.label} stands on ${burning[0]?.name}, which is lit in ${row.raw.mode}.`, row);
  } else if (!withinStrips(shape, freeZones(surface, lit))) {
    tell('outside', `${row.label} stands over the edge of ${row.raw.appliance}.`, row);
  } else if (surface.round !== null && !withinCircle(shape, surface.round)) {
    tell('outside', `${row.label} stands over the round edge of ${row.raw.appliance}.`, row);
  }
}

function checkOnRack(surface: Racks, { row, level, shape }: Placed, tell: Tell): void {
  if (level === null || level < 1 || level > surface.count) {
    tell('level', `${row.label} is on level ${level} of ${row.raw.appliance}, which has ${surface.count}.`, row);
  }
  const rack: Strip = { name: 'rack', x: 0, width: surface.width, depth: surface.depth };
  if (!withinStrips(shape, [rack])) tell('outside', `${row.label} stands over the edge of its rack.`, row);
}

/** Two facts may clash: that has happened. */
const happened = ({ past }: Reading, one: Row, two: Row): boolean => past.has(one) && past.has(two);

function checkOverlaps(reading: Reading, placed: readonly Placed[], tell: Tell): void {
  for (const [index, one] of placed.entries()) {
    for (const two of placed.slice(index + 1)) {
      if (one.level !== two.level || !meet(one.row, two.row) || !overlap(one.shape, two.shape)) continue;
      if (one.row !== two.row && happened(reading, one.row, two.row)) continue;
      const say =
        one.row === two.row
          ? `Two pans of ${one.row.label} stand on one another.`
          : `${one.row.label} and ${two.row.label} stand on one another.`;
      tell('overlap', say, one.row, two.row);
    }
  }
}

/** The sum can only grow when something is put in, so it is enough to look at the starts. */
function checkHeights(reading: Reading, surface: Racks, placed: readonly Placed[], tell: Tell): void {
  for (const start of new Set(placed.map((each) => each.row.start))) {
    const inside = placed.filter((each) => each.row.start <= start && start < each.row.end);
    const tallest = new Map<number | null, number>();
    for (const each of inside) tallest.set(each.level, Math.max(tallest.get(each.level) ?? 0, each.height));
    const needed = [...tallest.values()].reduce((sum, height) => sum + height + surface.clearance, 0);
    if (needed <= surface.height + SLACK || inside.every((each) => reading.past.has(each.row))) continue;
    const rows = [...new Set(inside.map((each) => each.row))];
    const names = rows.map((row) => row.label).join(', ');
    tell('heights', `${names} are too tall for ${rows[0]?.raw.appliance} together.`, ...rows);
  }
}
