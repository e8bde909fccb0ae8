import type { TestsToMake } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, testPassword, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { addReleasedPart, boothStep } from '../support/repeat-part.js';
import { bracketWeld, certifyWelder, robotShop, type RobotShop } from '../support/robot-shop.js';
import { signedIn } from '../support/signed-in.js';

const at = '/api/procedures/tests-that-pay';
let shop: TestShop;
let robot: RobotShop;
let qa: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  qa = await signedIn(shop, 'qa');
});
afterAll(async () => shop.close());

async function asked(query: Record<string, string | number> = {}): Promise<TestsToMake> {
  const answer = await qa.get(at).query(query);
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body;
}

describe('doors', () => {
  firstFour('tests that pay', () => shop, {
    ...{ method: 'get', path: () => at, allowed: 'manager', refused: 'office' },
    malformed: { path: `${at}?budget=0`, field: 'query.budget' },
  });
  it('are open to the coordinator in another role, and to no one else of that role', async () => {
    const { services } = shop.context;
    const { id } = await services.people.add(shop.actor('manager'), {
      ...{ code: 'S77', name: 'Odile Farrowby', role: 'office', coordinator: true },
      language: 'en',
    });
    await services.people.setPassword(shop.actor('manager'), id, testPassword);
    const agent = shop.stranger();
    await agent.post('/api/session').send({ code: 'S77', password: testPassword }).expect(200);
    for (const path of [at, '/api/lapses']) await agent.get(path).expect(200);
    const office = await signedIn(shop, 'office');
    const refusal = await office.get(at).expect(403);
    expect(refusal.body.message).toContain("or the welding coordinator's authority");
  });
  it('names the codes that there are rules for', async () => {
    const answer = await qa.get(at).query({ code: 'ISO 15614-9' }).expect(400);
    expect(answer.body).toMatchObject({ code: 'INVALID', fields: [{ field: 'query.code' }] });
    expect(answer.body.message).toContain('ISO 15614-1:2017');
  });
});

describe('tests that pay', () => {
  it('proposes none while procedures cover every weld', async () => {
    expect(await asked()).toMatchObject({
      ...{ code: 'ISO 15614-1', edition: '2017', for: 'procedures', open: 0, tests: [] },
      fewest: { tests: [], welds: 0, proven: true, bound: 0 },
      notHeld: [],
    });
  });

  it('one weld beyond the procedures is held by one piece, with the queued job that it frees', async () => {
    const thick = { ...bracketWeld, thicknessAMm: 15, thicknessBMm: 15 };
    const job = await robot.job({ number: 'X-300', welds: [thick] });
    const found = await asked();
    expect(found.open).toBe(1);
    expect(found.fewest).toEqual({ tests: [0], welds: 1, proven: true, bound: 1 });
    // By the fillet table of ISO 15614-1 15 mm holds 7.5 to 18 mm; 30 mm would hold it too, the thinner is taken.
    expect(found.tests[0]).toMatchObject({
      ...{ process: '135', jointType: 'fillet', position: 'PB', mechanisation: 'fullyMechanised' },
      ...{ thicknessMm: 15, throatMm: 4, materials: ['1.2 S355J2', '1.2 S355J2'], unit: null },
      parts: [{ partNumber: 'X-300', held: 1, of: 1 }],
      jobs: [{ jobNumber: job.number, partNumber: 'X-300', held: 1, of: 1 }],
    });
    expect(found.tests[0]?.welds).toEqual(['X-300 B, weld 1']);
    const range = found.tests[0]?.ranges.find(({ variable }) => variable === 'thickness');
    expect(range).toMatchObject({ min: 7.5, max: 18 });
  });

  it('many welds: fewest for all, the best within a budget, and why the rest is not held', async () => {
    const fillet = (number: number, mm: number, position: 'PB' | 'PF' = 'PB') => ({
      ...{ ...bracketWeld, number, position, thicknessAMm: mm, thicknessBMm: mm },
    });
    await addReleasedPart(shop, {
      ...{ number: 'X-301', steps: [boothStep], label: 'B' },
      welds: [
        ...[fillet(1, 10), fillet(2, 11), fillet(3, 12), fillet(4, 10, 'PF')],
        { ...fillet(5, 10), jointType: 'lap', throatMm: null },
      ],
    });
    const found = await asked({ budget: 1, properties: 'demanded' });
    expect(found.open).toBe(6);
    expect(found.fewest).toMatchObject({ welds: 5, proven: true, bound: 3 });
    expect(found.best).toMatchObject({ welds: 3, proven: true });
    expect(found.best.tests).toHaveLength(1);
    expect(found.notHeld).toEqual([
      {
        ...{ weld: 'X-301 B, weld 5', variable: 'joint' },
        words: 'ISO 15614-1 as on file has no test piece for lap welds',
      },
    ]);
    const freely = await asked({ budget: 1, properties: 'notDemanded' });
    expect(freely.fewest).toMatchObject({ welds: 5, bound: 2 });
  });

  it('for people: nobody may weld at the booth, until somebody is certified', async () => {
    const before = await asked({ for: 'people', code: 'ISO 9606-1' });
    // The four fillets by one piece in PF; the lap joint is none that the code tests.
    expect(before.fewest).toMatchObject({ welds: 4, proven: true, bound: 1 });
    expect(before.tests[0]).toMatchObject({ position: 'PF', jointType: 'fillet', unit: null });
    const welder = await robot.addPerson('W01', 'Wim Oakfield');
    await certifyWelder(shop, welder, { positions: ['PA', 'PB'] });
    const after = await asked({ for: 'people', code: 'ISO 9606-1' });
    expect(after.fewest).toMatchObject({ welds: 1, bound: 1 });
    // One person alone is too few where nobody may stand in.
    const alone = await asked({ for: 'people', code: 'ISO 9606-1', gap: 'one' });
    expect(alone.fewest).toMatchObject({ welds: 4, bound: 1 });
  });

  it('for operators: bound to the cell of the queued job', async () => {
    const found = await asked({ for: 'people', code: 'ISO 14732', gap: 'one' });
    expect(found.tests.map(({ unit, welds }) => [unit, welds])).toEqual([
      ['R1', ['X-300 B, weld 1 at R1']],
    ]);
  });

  it('answers several who ask at once, each in turn', async () => {
    const answers = await Promise.all([asked(), asked({ budget: 2 }), asked()]);
    expect(answers[2]).toEqual(answers[0]);
  });
});
