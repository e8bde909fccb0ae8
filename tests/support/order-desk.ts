import type { BodyOf, Cell, cells, Job, Order } from '@tackboard/contract';
import { expect } from 'vitest';
import type { Agent, TestShop } from './app.js';
import { finishRun, passFirstPiece } from './make-batch.js';
import { addCustomer, addReleasedPart, certify } from './repeat-part.js';
import { signedIn } from './signed-in.js';

export type OrderDesk = Awaited<ReturnType<typeof openOrderDesk>>;

/** Another booth, like the one of the test shop but for what is said of it. */
export async function addBooth(
  { cells: { M1 }, context, actor }: TestShop,
  changes: Partial<BodyOf<typeof cells.add>>,
): Promise<Cell> {
  const { id: _id, version: _version, active: _active, calendar: _calendar, ...booth } = M1;
  return context.services.cells.add(actor('manager'), { ...booth, ...changes });
}

/** Everything it takes to order parts and to have them made by the welder at the booth. */
export async function openOrderDesk(shop: TestShop) {
  const office: Agent = await signedIn(shop, 'office');
  const coordinator = await signedIn(shop, 'coordinator');
  const welder = await signedIn(shop, 'welder');
  const customerId = (await addCustomer(shop, 'Nordhang Conveyors')).id;
  await certify(shop, shop.people.welder.id);
  let serial = 0;

  const line = (partId: string, changes: object = {}) => ({
    ...{ partId, orderedRevision: 'B', quantity: 12, dueOn: '2026-10-30' },
    ...changes,
  });
  const body = (...lines: object[]) => ({
    ...{ customerId, customerOrder: 'PO-4711', lines, entryMs: 41_000 },
  });
  const send = async (...lines: object[]) => office.post('/api/orders').send(body(...lines));

  async function take(...lines: object[]): Promise<Order> {
    const answer = await send(...lines);
    expect(answer.status, answer.body.message).toBe(200);
    return answer.body;
  }

  /** Pulled, and its first piece checked. */
  async function pull({ steps: [step] }: Job): Promise<string> {
    const at = `/api/cells/${step?.cellId}/pull`;
    const answer = await welder.post(at).send({ jobStepId: step?.id });
    expect(answer.status, answer.body.message).toBe(200);
    await passFirstPiece(welder, answer.body.run.id);
    return answer.body.run.id;
  }

  return {
    ...{ office, coordinator, welder, line, body, send, take, pull },
    /** A released part under a number of its own. */
    part: async (options: Partial<Parameters<typeof addReleasedPart>[1]> = {}) =>
      addReleasedPart(shop, { number: `P-${(serial += 1)}`, ...options }),
    async takeJob(...lines: object[]): Promise<Job> {
      const [job] = (await take(...lines)).jobs;
      if (job === undefined) throw new Error('An order has a job for each line.');
      return job;
    },
    jobNow: async (id: string): Promise<Job> => (await office.get(`/api/jobs/${id}`)).body,
    /** From pull to put-down. */
    async make(job: Job): Promise<void> {
      await finishRun(welder, await pull(job), job.quantity);
    },
  };
}
