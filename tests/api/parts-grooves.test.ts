import type { Revision, SetUpCard } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { fillet } from '../support/repeat-part.js';
import { robotShop, type RobotShop } from '../support/robot-shop.js';

let shop: TestShop;
let office: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  office = await shop.as('office');
});
afterAll(async () => shop.close());

describe('groove preparation', () => {
  const preparation = {
    ...{ kind: 'singleV' as const, gapMm: 2, rootFaceMm: 2, angleDeg: 60 },
    ...{ rootRadiusMm: 0, capHeightMm: 1, backing: 'none' },
  };
  const butt = {
    ...fillet,
    ...{ jointType: 'butt', throatMm: null, grooveDepthMm: 12, thicknessAMm: 12, thicknessBMm: 12 },
    preparation,
  };
  let serial = 0;
  async function fresh(): Promise<Revision> {
    const part = { number: `GRV-${(serial += 1)}`, name: 'Bracket' };
    const { id } = (await office.post('/api/parts').send(part).expect(200)).body;
    const label = { label: 'A', drawingNumber: 'D-1' };
    return (await office.post(`/api/parts/${id}/revisions`).send(label).expect(200)).body;
  }
  const put = async (draft: Revision, welds: object[]) =>
    office.put(`/api/revisions/${draft.id}/welds`).send({ expectedVersion: draft.version, welds });
  const revision = async (id: string): Promise<Revision> =>
    (await office.get(`/api/revisions/${id}`).expect(200)).body;

  it('is stored with its weld, and a weld without one has none', async () => {
    const answer = await put(await fresh(), [butt, { ...fillet, number: 2 }]);
    expect(answer.status, answer.body.message).toBe(200);
    const { welds } = await revision(answer.body.id);
    expect(welds.map((one) => one.preparation)).toEqual([preparation, null]);
  });

  it.each([
    ['a root face thicker than the plate', { rootFaceMm: 13 }, 'rootFaceMm', 'root face of 13'],
    ['an angle of 180 degrees', { angleDeg: 180 }, 'angleDeg', 'angle of 180'],
    [
      'a radius deeper than the cut',
      { kind: 'singleJ', angleDeg: 0, rootRadiusMm: 11 },
      'rootRadiusMm',
      'root radius of 11',
    ],
  ])('refuses %s in words, and stores nothing', async (_what, changes, field, said) => {
    const draft = await fresh();
    const impossible = { ...butt, preparation: { ...preparation, ...changes } };
    const answer = await put(draft, [impossible]);
    expect([answer.status, answer.body.code]).toEqual([400, 'INVALID']);
    expect(answer.body.fields[0].field).toBe(`body.welds.0.preparation.${field}`);
    expect(answer.body.message).toContain(`${said} does not go with a plate of 12 mm`);
    expect((await revision(draft.id)).welds).toEqual([]);
  });

  it('stores the hole of a plug weld, and refuses one that is wider than long or of another joint', async () => {
    const plug = { ...fillet, jointType: 'plug', throatMm: null, lengthMm: 20, holeWidthMm: 20 };
    const answer = await put(await fresh(), [plug]);
    expect(answer.status, answer.body.message).toBe(200);
    expect((await revision(answer.body.id)).welds[0]).toMatchObject({ holeWidthMm: 20 });
    for (const impossible of [
      { ...plug, holeWidthMm: 21 },
      { ...fillet, holeWidthMm: 20 },
    ]) {
      const refused = await put(await fresh(), [impossible]);
      expect([refused.status, refused.body.fields[0].field]).toEqual([
        400,
        'body.welds.0.holeWidthMm',
      ]);
    }
  });

  it('refuses one of a fillet', async () => {
    const answer = await put(await fresh(), [{ ...fillet, preparation }]);
    expect(answer.body.fields[0].field).toBe('body.welds.0.preparation');
  });
});

describe('the card of a step with a prepared groove', () => {
  const preparation = {
    ...{ kind: 'singleV' as const, gapMm: 2, rootFaceMm: 2, angleDeg: 60 },
    ...{ rootRadiusMm: 0, capHeightMm: 0, backing: 'none' as const },
  } as const;
  const butt = {
    ...{ ...fillet, jointType: 'butt' as const, throatMm: null, preparation },
    ...{ thicknessAMm: 8, thicknessBMm: 8, lengthMm: 300, count: 2 },
  } as const;

  let robot: RobotShop;
  beforeAll(async () => {
    robot = await robotShop(shop);
  });

  it('independent: gives arc time and wire of the runs that fill it, as the weld list on screen does', async () => {
    const job = await robot.job({ welds: [butt], quantity: 10, setUp: { travelMmMin: 600 } });
    const answer = await office.get(`/api/job-steps/${job.steps[0]?.id}/card`).expect(200);
    const { figures } = answer.body as SetUpCard;
    // 36.785 mm² at 16.286 mm² a run: 2.2587 runs over 600 mm at 600 mm/min.
    expect(figures.arcSPerPart).toBeCloseTo(60 * (36.785 / 16.286), 2);
    // What stays is 36.785 mm² x 600 mm x 7850e-9 kg/mm³ = 173.26 g a part; 0.96 of the wire stays.
    expect(figures.wireKgBatch).toBeCloseTo((10 * 0.17326) / 0.96, 3);
  });

  it('cannot say either while the wire speed is not on file', async () => {
    const job = await robot.job({ welds: [butt], setUp: { wireSpeedMMin: null } });
    const answer = await office.get(`/api/job-steps/${job.steps[0]?.id}/card`).expect(200);
    expect((answer.body as SetUpCard).figures).toMatchObject({
      ...{ arcSPerPart: null, wireKgBatch: null, gasLBatch: null },
    });
  });
});
