import type { CellHours } from '@tackboard/contract';

const msPerMin = 60_000;
/** A window that is thinned out is cut into pieces of this length, so that its breaks lie all over it. */
const pieceMin = 60;

export interface PlannedHours {
  /** Job minutes per minute of the clock while the cell is at its best; 0 for a cell without hours. */
  readonly pace: number;
  /** Open stretches in whole minutes from the start of the plan. */
  readonly hours: readonly { fromMin: number; toMin: number }[];
}

/**
 * The working windows of a cell as stretches that are open or not. Work is stretched by the best share of the cell;
 * windows with a smaller share are open for the rest of each hour only. Exact within a few minutes.
 */
export function plannedHours(windows: CellHours['windows'], start: Date): PlannedHours {
  const pace = Math.max(0, ...windows.map(({ share }) => share));
  const minuteOf = (at: string) => Math.round((Date.parse(at) - start.getTime()) / msPerMin);
  const hours: { fromMin: number; toMin: number }[] = [];
  for (const { from, to, share } of windows) {
    const [fromMin, toMin] = [minuteOf(from), minuteOf(to)];
    const open = share / pace;
    for (let at = fromMin; at < toMin; at += open < 1 ? pieceMin : toMin - fromMin) {
      const end = open < 1 ? Math.min(at + pieceMin, toMin) : toMin;
      // The minutes open so far are rounded, not those of the piece: nothing is lost over a shift.
      const before = Math.round((at - fromMin) * open);
      const openMin = Math.round((end - fromMin) * open) - before;
      if (openMin > 0) hours.push({ fromMin: at, toMin: at + openMin });
    }
  }
  return { pace, hours };
}

export function openMinutes({ hours }: PlannedHours): number {
  return hours.reduce((sum, { fromMin, toMin }) => sum + toMin - fromMin, 0);
}
