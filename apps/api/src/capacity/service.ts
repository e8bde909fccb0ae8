import {
  capacityWeeks,
  type Capacity,
  type CellHours,
  type QueryOf,
  type capacity,
  type Takt,
} from '@tackboard/contract';
import { Temporal } from 'temporal-polyfill';
import type { CellsService } from '../cells/service.js';
import { shopDay } from '../clock.js';
import type { ConsumablesService } from '../consumables/service.js';
import type { Foundation } from '../foundation.js';
import type { OrdersService } from '../orders/service.js';
import type { Assessment } from '../queue/assess.js';
import type { QueueService } from '../queue/service.js';
import { weekOf, type WeekSpan } from '../week/span.js';
import { loadOfCell } from './cell-load.js';
import { shortagesOf, type Draw } from './shortages.js';
import { capacityReader } from './store.js';
import { familyOf, taktOfCells } from './takt.js';

export type CapacityService = ReturnType<typeof createCapacityService>;

interface OtherAreas {
  readonly cells: Pick<CellsService, 'hours' | 'list'>;
  readonly consumables: Pick<ConsumablesService, 'items' | 'loads'>;
  readonly orders: Pick<OrdersService, 'queues'>;
  readonly queue: Pick<QueueService, 'assess'>;
}

const msPerMin = 60_000;
const daysPerWeek = 7;
/** The night in which the clock changes makes a week an hour longer: a day more is read, and cut off. */
const daysRead = daysPerWeek + 1;

/** Load against capacity, takt beside cycle, and whether the consumables reach: read only. */
export function createCapacityService(foundation: Foundation, others: OtherAreas) {
  const { database, shared, clock, timeZone } = foundation;
  const read = capacityReader(database.reader);

  async function readCapacity(): Promise<Capacity> {
    const now = clock.now();
    const weeks = weeksFrom(shopDay(now, timeZone), timeZone);
    const queues = await others.orders.queues(capacityWeeks * daysPerWeek);
    const { cells } = await others.cells.list();
    const judged = await others.queue.assess([...queues.steps.keys()], null);
    const { items } = await others.consumables.items();
    const drawn = drawsOf(judged, { items, times: queues.times, timeZone });
    const { loads } = await others.consumables.loads();
    return {
      from: weeks[0]?.from ?? '',
      cells: queues.lanes.flatMap((lane) => {
        const cell = cells.find(({ id }) => id === lane.cellId);
        if (cell === undefined) return [];
        const named = { cellId: cell.id, cellCode: cell.code, cellName: cell.name };
        return [loadOfCell({ ...queues, cell: named, lane, weeks })];
      }),
      consumables: shortagesOf(drawn.draws, { items, loads }),
      stepsUnknown: drawn.stepsUnknown,
    };
  }

  return {
    capacity: async () => shared('capacity', readCapacity),

    async takt({ family, week: day }: QueryOf<typeof capacity.takt>): Promise<Takt> {
      const week = weekOf(day ?? shopDay(clock.now(), timeZone), timeZone);
      const jobs = familyOf(await read.dueJobs(week), family);
      const { cells: hours } = await others.cells.hours({
        ...{ from: week.start.toISOString(), days: daysRead },
      });
      const { cells } = await others.cells.list();
      return {
        ...{ family, from: week.from, to: week.to, label: week.label, jobCount: jobs.length },
        demand: jobs.reduce((sum, { quantity }) => sum + quantity, 0),
        cells: taktOfCells(
          jobs,
          cells.map(({ id, code, name }) => {
            const own = hours.find(({ cellId }) => cellId === id);
            return { id, code, name, openMin: openIn(own?.windows ?? [], week) };
          }),
        ),
      };
    },
  };
}

function weeksFrom(today: string, timeZone: string): WeekSpan[] {
  const first = Temporal.PlainDate.from(today);
  return Array.from({ length: capacityWeeks }, (_, at) =>
    weekOf(first.add({ days: at * daysPerWeek }).toString(), timeZone),
  );
}

function openIn(windows: CellHours['windows'], { start, end }: WeekSpan): number {
  return windows.reduce((sum, { from, to, share }) => {
    const fromMs = Math.max(Date.parse(from), start.getTime());
    const toMs = Math.min(Date.parse(to), end.getTime());
    return sum + (Math.max(0, toMs - fromMs) / msPerMin) * share;
  }, 0);
}

/** Wire and gas of the queued steps in the order in which they begin. */
function drawsOf(
  judged: readonly Assessment[],
  {
    items,
    times,
    timeZone,
  }: {
    readonly items: readonly { readonly id: string; readonly unit: string }[];
    readonly times: ReadonlyMap<string, { readonly startMin: number | null }>;
    readonly timeZone: string;
  },
): { draws: Draw[]; stepsUnknown: number } {
  let stepsUnknown = 0;
  const draws = judged.flatMap(({ facts, readiness }) => {
    const startMin = times.get(facts.record.id)?.startMin ?? null;
    const at = {
      ...{ cellId: facts.cell.id, cellCode: facts.cell.code, jobNumber: facts.record.jobNumber },
      ...{ startMin: startMin ?? Infinity },
      day: startMin === null ? null : shopDay(new Date(startMin * msPerMin), timeZone),
    };
    const { wireKgBatch, gasLBatch } = readiness.figures;
    const wanted = [
      { itemId: facts.setUp?.wireItemId ?? null, amount: wireKgBatch, unit: 'kg' },
      { itemId: facts.setUp?.gasItemId ?? null, amount: gasLBatch, unit: 'l' },
    ].filter(({ itemId }) => itemId !== null);
    const known = wanted.flatMap(({ itemId, amount, unit }) => {
      // An item that is counted in pieces says nothing about kilograms.
      const item = items.find((each) => each.id === itemId && each.unit === unit);
      return item === undefined || amount === null ? [] : [{ ...at, itemId: item.id, amount }];
    });
    if (known.length === 0 || known.length < wanted.length) stepsUnknown += 1;
    return known.filter(({ amount }) => amount > 0);
  });
  return { draws: draws.toSorted((a, b) => a.startMin - b.startMin), stepsUnknown };
}
