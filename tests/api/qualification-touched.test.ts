import type { Touched, Wps } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { bracketWeld, robotShop, type RobotShop } from '../support/robot-shop.js';
import { signedIn } from '../support/signed-in.js';

let shop: TestShop;
let robot: RobotShop;
let qa: Agent;
let coordinator: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  qa = await signedIn(shop, 'qa');
  coordinator = await signedIn(shop, 'coordinator');
});
afterAll(async () => shop.close());

const touched = async (wpsId: string): Promise<Touched> =>
  (await qa.get(`/api/wpss/${wpsId}/touched`).expect(200)).body;

describe('a procedure revised while work goes on', () => {
  let before: Wps;
  let next: Wps;
  let running: string;

  beforeAll(async () => {
    const plates = (mm: number) => [{ ...bracketWeld, thicknessAMm: mm, thicknessBMm: mm }];
    const thick = await robot.job({ number: 'X-1', welds: plates(12) });
    await robot.job({ number: 'X-2', welds: plates(12) });
    await robot.job({ number: 'X-3', welds: plates(8) });
    running = thick.steps[0]?.id ?? '';
    const operator = shop.stranger();
    await operator.post('/api/session').send({ code: 'O03', password: testPassword }).expect(200);
    await operator
      .post(`/api/cells/${shop.cells.R1.id}/pull`)
      .send({ jobStepId: running })
      .expect(200);
    const [listed] = (await qa.get('/api/wpss')).body.wpss;
    before = (await qa.get(`/api/wpss/${listed.id}`)).body;
    const draft: Wps = (
      await qa
        .post(`/api/wpss/${before.id}/revise`)
        .send({ changeNote: 'thinner plates only' })
        .expect(200)
    ).body;
    const { title, code, joint, technique, wpqrIds, changeNote, version } = draft;
    next = (
      await qa
        .put(`/api/wpss/${draft.id}`)
        .send({
          ...{ title, code, joint, technique, wpqrIds, changeNote, expectedVersion: version },
          ranges: { ...draft.ranges, thicknessMm: { min: 3, max: 10 } },
        })
        .expect(200)
    ).body;
  });

  it('shows before the approval which jobs would no longer be covered', async () => {
    const found = await touched(next.id);
    expect(found).toMatchObject({ number: 'WPS-014', revision: 2, state: 'draft', pastSteps: 0 });
    expect(found.parts.map(({ partNumber }) => partNumber)).toEqual(['X-1', 'X-2', 'X-3']);
    expect(found.jobs).toMatchObject([
      { partNumber: 'X-1', state: 'held', underRevision: 1, result: 'outside' },
      { partNumber: 'X-2', state: 'waiting', underRevision: null, result: 'outside' },
      { partNumber: 'X-3', state: 'waiting', result: 'inside', words: 'covered' },
    ]);
    expect(found.jobs[1]?.words).toBe('weld 1: thickness 12 mm is above 10');
  });

  it('tells the running job, keeps it under its revision, and judges the waiting ones anew', async () => {
    await coordinator
      .post(`/api/wpss/${next.id}/approve`)
      .send({ expectedVersion: next.version })
      .expect(200);
    const { body: history } = await qa.get(`/api/history/jobStep/${running}`).expect(200);
    expect(history.entries[0]).toMatchObject({
      type: 'jobStep.procedureRevised',
      before: { procedure: 'WPS-014 r1' },
      after: { procedure: 'WPS-014 r2' },
      reason: 'thinner plates only',
    });
    const { body: view } = await qa.get(`/api/cells/${shop.cells.R1.id}/view`).expect(200);
    expect(view.held.wps).toMatchObject({ id: before.id, revision: 1 });
    const { body: operated } = await qa.get(`/api/cells/${shop.cells.R1.id}/view`);
    expect(JSON.stringify(operated.passedOver)).toContain('thickness 12 mm is above 10');
  });
});
