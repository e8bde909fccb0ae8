import type { FirstPiece, Job, Ncr, Run } from '@tackboard/contract';
import { expect } from 'vitest';
import { testPassword, type Agent, type TestShop } from './app.js';
import { putDown, startRun } from './make-batch.js';
import { robotShop, type RobotShop } from './robot-shop.js';
import { signedIn } from './signed-in.js';

export type QualityFloor = Awaited<ReturnType<typeof openQualityFloor>>;

/** A robot that is ready to weld, its operator, and the people who decide. */
export async function openQualityFloor(shop: TestShop) {
  const robot: RobotShop = await robotShop(shop);
  const operator = shop.stranger();
  await operator.post('/api/session').send({ code: 'O03', password: testPassword }).expect(200);
  const qa = await signedIn(shop, 'qa');
  const coordinator = await signedIn(shop, 'coordinator');

  async function done<T>(answer: PromiseLike<{ status: number; body: T }>): Promise<T> {
    const { status, body } = await answer;
    expect(status, JSON.stringify(body)).toBe(200);
    return body;
  }

  return {
    ...{ robot, operator, qa, coordinator, done },
    /** Pulled, and started as shown. */
    async pulled(job: Job, at = 0, agent: Agent = operator): Promise<Run> {
      const step = job.steps[at];
      const path = `/api/cells/${step?.cellId}/pull`;
      const { run } = await done<{ run: Run }>(agent.post(path).send({ jobStepId: step?.id }));
      await startRun(agent, run.id);
      return run;
    },
    act: async (run: Pick<Run, 'id'>, what: string, body: object = {}, agent: Agent = operator) =>
      what === 'put-down'
        ? putDown(agent, run.id, body)
        : agent.post(`/api/runs/${run.id}/${what}`).send(body),
    /** Measures weld 1 by its leg; drawn is a throat of 4 mm, a leg of 5.66 mm. */
    check: async (run: Pick<Run, 'id'>, legMm: number, body: object = {}): Promise<FirstPiece> =>
      done(
        operator.post(`/api/runs/${run.id}/first-piece`).send({
          ...{ sizes: [{ weldNumber: 1, measure: 'leg', measuredMm: legMm }], visual: 'accepted' },
          ...body,
        }),
      ),
    raise: async (job: Job, body: object = {}, agent: Agent = operator): Promise<Ncr> =>
      done(
        agent.post(`/api/job-steps/${job.steps[0]?.id}/ncrs`).send({
          ...{ defect: 'surfacePore', quantity: 2, counted: true, ...body },
        }),
      ),
    runNow: async ({ id }: Pick<Run, 'id'>): Promise<Run> => done(operator.get(`/api/runs/${id}`)),
    jobNow: async ({ id }: Pick<Job, 'id'>): Promise<Job> => done(operator.get(`/api/jobs/${id}`)),
  };
}
