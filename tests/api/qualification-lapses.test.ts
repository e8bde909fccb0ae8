import type { Lapse, ProposedConfirmation } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { passFirstPiece, putDown } from '../support/make-batch.js';
import { robotShop, type RobotShop } from '../support/robot-shop.js';

let shop: TestShop;
let robot: RobotShop;
let coordinator: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  coordinator = await shop.as('coordinator');
});
afterAll(async () => shop.close());

/** Sessions end with the days, so that everybody signs in anew. */
async function moveTo(iso: string): Promise<void> {
  shop.clock.set(iso);
  coordinator = await shop.as('coordinator');
}

interface LookAhead {
  readonly lapses: Lapse[];
  readonly confirmations: ProposedConfirmation[];
}
const lookAhead = async (): Promise<LookAhead> =>
  (await coordinator.get('/api/lapses').expect(200)).body;

describe('looking ahead', () => {
  // The operator's confirmation of 12 August 2026 holds until 12 February 2027: ISO 14732, six months.
  it('names what lapses in ninety days, and the jobs that nothing else carries then', async () => {
    await moveTo('2026-12-01T06:00:00.000Z');
    const early = await robot.job({ number: 'X-1', dueOn: '2027-02-12' });
    const late = await robot.job({ number: 'X-2', dueOn: '2027-02-15' });
    const { lapses } = await lookAhead();
    const own = lapses.find(({ personId }) => personId === robot.operator.id);
    expect(own).toMatchObject({
      ...{ kind: 'confirmation', lastDay: '2027-02-12', daysLeft: 73, within: '90' },
      stops: [{ jobNumber: late.number, partNumber: 'X-2', dueOn: '2027-02-15' }],
    });
    expect(own?.stops.map(({ jobNumber }) => jobNumber)).not.toContain(early.number);
  });

  it('stops nothing that somebody else may weld', async () => {
    const other = await robot.addPerson('O05', 'Osric Tallow');
    const { people } = shop.context.services;
    await people.addCertificate(shop.actor('qa'), other.id, {
      ...{ kind: 'operator', number: 'C-O05', code: 'ISO 14732', edition: '2013', process: '135' },
      ...{ cellId: shop.cells.R1.id, jointTypes: ['fillet'], positions: ['PA', 'PB'] },
      ...{ materialGroups: [], fillerGroups: [], thicknessMm: { min: 3, max: null } },
      ...{ diameterMm: null, testedOn: '2026-11-20', validUntil: '2032-11-19' },
      ...{ renewalRoute: null, examiner: null, functionTestOn: '2026-11-20' },
    });
    const { lapses } = await lookAhead();
    expect(lapses.find(({ personId }) => personId === robot.operator.id)?.stops).toEqual([]);
  });
});

describe('confirmations and their proof', () => {
  it('are proposed without any run, so that only a test helps', async () => {
    const { confirmations } = await lookAhead();
    const own = confirmations.find(({ personId }) => personId === robot.operator.id);
    expect(own).toMatchObject({ runs: [], confirmedOn: null, evidence: '' });
  });

  /** One good part on a job of the operator at R1. */
  async function weldOne(number: string): Promise<{ runId: string; jobNumber: number }> {
    const job = await robot.job({ number, quantity: 1, dueOn: '2026-12-31' });
    const agent = shop.stranger();
    await agent.post('/api/session').send({ code: 'O03', password: testPassword }).expect(200);
    const pull = await agent
      .post(`/api/cells/${shop.cells.R1.id}/pull`)
      .send({ jobStepId: job.steps[0]?.id });
    expect(pull.status, pull.body.message).toBe(200);
    const runId: string = pull.body.run.id;
    await passFirstPiece(agent, runId);
    await agent.post(`/api/runs/${runId}/counts`).send({ good: 1 }).expect(200);
    expect((await putDown(agent, runId)).status).toBe(200);
    return { runId, jobNumber: job.number };
  }
  const ofOperator = async (): Promise<ProposedConfirmation | undefined> =>
    (await lookAhead()).confirmations.find(({ personId }) => personId === robot.operator.id);
  const confirm = (certificateId: string, body: object) =>
    coordinator
      .post(`/api/certificates/${certificateId}/confirmations`)
      .send({ evidence: 'parts and records of these jobs seen', ...body });

  it('rest on the real runs of the person with the process, named one by one', async () => {
    await moveTo('2026-12-07T06:00:00.000Z');
    const first = await weldOne('X-10');
    await moveTo('2026-12-08T06:00:00.000Z');
    const second = await weldOne('X-11');
    const proposed = await ofOperator();
    expect(proposed).toMatchObject({
      confirmedOn: '2026-12-08',
      evidence: `2 runs with 135 from 7 Dec 2026 to 8 Dec 2026: jobs ${second.jobNumber}, ${first.jobNumber}`,
      runs: [
        { runId: second.runId, partNumber: 'X-11', on: '2026-12-08', goodCount: 1 },
        { runId: first.runId, partNumber: 'X-10', on: '2026-12-07', goodCount: 1 },
      ],
    });
    const signed = await confirm(proposed?.certificateId ?? '', {
      confirmedOn: '2026-12-08',
      runIds: [second.runId],
    });
    expect(signed.status, signed.body.message).toBe(200);
    expect(signed.body).toMatchObject({ confirmedUntil: '2027-06-08' });
    expect(signed.body.confirmations[0].evidence).toContain('2 runs with 135');
  });

  it('are refused for runs that prove nothing', async () => {
    const { certificates } = (await coordinator.get('/api/certificates')).body;
    const other = certificates.find(({ number }: { number: string }) => number === 'C-O05');
    const unknown = '00000000-0000-4000-8000-000000000000';
    const answer = await confirm(other.id, {
      ...{ confirmedOn: '2026-12-08', runIds: [unknown] },
    });
    expect([answer.status, answer.body.fields[0].field]).toEqual([409, 'body.runIds.0']);
  });

  it('are refused without any run once the records cover the six months before', async () => {
    await moveTo('2027-07-01T06:00:00.000Z');
    const proposed = await ofOperator();
    expect(proposed?.runs).toEqual([]);
    const answer = await confirm(proposed?.certificateId ?? '', { confirmedOn: '2027-07-01' });
    expect([answer.status, answer.body.code]).toEqual([409, 'NOT_NOW']);
    expect(answer.body.message).toContain('Only a new test helps');
  });
});

describe('who may sign', () => {
  it('is the coordinator, not every inspector', async () => {
    const qa = await shop.as('qa');
    const { certificateId } = (await lookAhead()).confirmations[0] ?? {};
    const answer = await qa
      .post(`/api/certificates/${certificateId}/confirmations`)
      .send({ confirmedOn: '2027-07-01', evidence: 'seen at the cell, all of it' });
    expect([answer.status, answer.body.code]).toEqual([403, 'NOT_ALLOWED']);
  });
});
