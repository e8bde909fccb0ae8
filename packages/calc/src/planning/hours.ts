import type { OpenHours } from './problem.js';

/** Open stretches as tables, with the open minutes that lie before each of them. */
export interface HoursTable {
  from: Float64Array;
  to: Float64Array;
  openBefore: Float64Array;
}

export function hoursTable(hours: readonly OpenHours[]): HoursTable {
  const openBefore = new Float64Array(hours.length);
  let open = 0;
  hours.forEach((stretch, index) => {
    openBefore[index] = open;
    open += stretch.toMin - stretch.fromMin;
  });
  return {
    from: Float64Array.from(hours, (stretch) => stretch.fromMin),
    to: Float64Array.from(hours, (stretch) => stretch.toMin),
    openBefore,
  };
}

/** The stretch in which a minute of work can begin at `time`, or the number of stretches when none is left. */
function stretchAt(table: HoursTable, time: number): number {
  let low = 0;
  let high = table.to.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (table.to[middle]! > time) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** The first open minute from `time` on. After the last stretch the cell counts as open without a gap. */
export function openFrom(table: HoursTable, time: number): number {
  const stretch = stretchAt(table, time);
  return stretch < table.from.length ? Math.max(time, table.from[stretch]!) : time;
}

/**
 * When work of `minutes` that may begin at `time` is finished, counting open minutes alone. The finish never falls
 * inside a gap: work that fills a stretch ends with it.
 */
export function finishOf(table: HoursTable, time: number, minutes: number): number {
  let stretch = stretchAt(table, time);
  const last = table.from.length - 1;
  if (stretch > last) return time + minutes;
  const open = table.openBefore[stretch]! + Math.max(time - table.from[stretch]!, 0) + minutes;
  while (stretch < last && table.openBefore[stretch + 1]! < open) stretch += 1;
  return table.from[stretch]! + open - table.openBefore[stretch]!;
}
