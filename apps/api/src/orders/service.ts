import type { Job, Order } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import { notFound } from '../refusal.js';
import { batchService } from './batch-service.js';
import { changeService } from './change-service.js';
import { checkService } from './check-service.js';
import { jobService, writtenJob } from './job-service.js';
import { jobsNowService } from './jobs-now.js';
import { readinessService } from './readiness-service.js';
import { releaseService } from './release-service.js';
import { ordersReader, type OrderFilter, type OrderRecord } from './store.js';
import type { OtherAreas } from './surroundings.js';
import { takeService } from './take-service.js';
import { toOrderView } from './views.js';

export type OrdersService = ReturnType<typeof createOrdersService>;

export function createOrdersService(foundation: Foundation, others: OtherAreas) {
  return {
    ...readService(foundation),
    ...checkService(foundation, others),
    ...takeService(foundation, others),
    ...jobService(foundation),
    ...releaseService(foundation),
    ...batchService(foundation),
    ...readinessService(foundation, others),
    ...jobsNowService(foundation, others),
    ...changeService(foundation, others),
  };
}

function readService({ database, clock, timeZone }: Foundation) {
  const store = ordersReader(database.reader);
  const today = () => ({ now: clock.now(), timeZone });

  async function viewsOf(orders: readonly OrderRecord[]): Promise<Order[]> {
    const names = await store.names(orders.map(({ createdBy }) => createdBy));
    return orders.map((order) => toOrderView(order, { names, today: today() }));
  }

  return {
    async list(filter: OrderFilter): Promise<{ orders: Order[]; total: number }> {
      const { orders, total } = await store.orders(filter);
      return { orders: await viewsOf(orders), total };
    },
    async get(id: string): Promise<Order> {
      const order = await store.order(id);
      const [view] = order === null ? [] : await viewsOf([order]);
      if (view === undefined) throw notFound('order', id);
      return view;
    },
    async job(id: string): Promise<Job> {
      return writtenJob(store, id, today());
    },
  };
}
