import type { BodyOf, qualification, Suggestions } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { wpqrBody } from '../support/procedures.js';
import { bracketWeld, certifyWelder, robotShop, type RobotShop } from '../support/robot-shop.js';
import { signedIn } from '../support/signed-in.js';

type WpqrTyped = BodyOf<typeof qualification.suggestWpqr>;

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let robot: RobotShop;
let qa: Agent;
let wpsId: string;
let revisionId: string;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  qa = await signedIn(shop, 'qa');
  const thick = { ...bracketWeld, thicknessAMm: 15, thicknessBMm: 15 };
  const job = await robot.job({ number: 'X-300', welds: [thick], setUp: null });
  revisionId = job.revisionId;
  wpsId = (await qa.get('/api/wpss').expect(200)).body.wpss[0].id;
});
afterAll(async () => shop.close());

/** A butt weld of 12 mm, several runs, no impact demanded, as QA types it from the signed record. */
const butt = {
  ...{ code: 'ISO 15614-1', edition: '2017', level: '2', process: '135' },
  mechanisation: 'partlyMechanised',
  testPiece: {
    ...{ jointType: 'butt', thicknessMm: 12, runs: 'multi', position: 'PF', materialGroup: '1.2' },
    ...{ impactRequired: false, impactTested: false, hardnessRequired: false },
  },
  testedValues: { heatInputKjMm: 1.2, preheatC: 20 },
  ranges: { thicknessMm: { min: 3, max: 30 }, preheatMinC: 20 },
} satisfies object as unknown as WpqrTyped;

const certificate = {
  ...{ kind: 'welder', code: 'ISO 9606-1', edition: '2012', process: '135' },
  ...{ testedOn: '2026-06-02', renewalRoute: '9.3 a' },
  testPiece: { jointType: 'butt', depositedMm: 10, position: 'PF', product: 'plate' },
  ...{ positions: ['PA', 'PF', 'PE'], thicknessMm: { min: 3, max: 20 } },
};

describe('doors', () => {
  const doors = () => shop;
  firstFour('suggest for a record', doors, {
    ...{ method: 'post', path: () => '/api/wpqrs/suggest', body: () => butt },
    ...{ allowed: 'qa', refused: 'welder' },
    malformed: {
      body: { ...butt, ranges: { thicknessMm: { min: 30, max: 3 } } },
      field: 'body.ranges.thicknessMm',
    },
  });
  firstFour('suggest for a certificate', doors, {
    ...{ method: 'post', path: () => '/api/certificates/suggest', body: () => certificate },
    ...{ allowed: 'qa', refused: 'manager' },
    malformed: { body: { ...certificate, testedOn: '2026-02-31' }, field: 'body.testedOn' },
  });
  firstFour('touched by a procedure', doors, {
    ...{ method: 'get', path: () => `/api/wpss/${wpsId}/touched`, allowed: 'welder' },
    malformed: { path: '/api/wpss/14/touched', field: 'params.wpsId' },
  });
  firstFour('procedures for a revision', doors, {
    ...{ method: 'get', path: () => `/api/revisions/${revisionId}/procedures`, allowed: 'office' },
    malformed: { path: '/api/revisions/B/procedures', field: 'params.revisionId' },
  });
  firstFour('coverage', doors, {
    ...{ method: 'get', path: () => '/api/procedures/coverage', allowed: 'welder' },
  });
  firstFour('lapses', doors, {
    ...{ method: 'get', path: () => '/api/lapses', allowed: 'manager', refused: 'office' },
  });
  firstFour('policy', doors, {
    ...{ method: 'get', path: () => '/api/policy', allowed: 'welder' },
  });

  it('answers not found for an unknown procedure, revision and cell', async () => {
    await qa.get(`/api/wpss/${unknownId}/touched`).expect(404);
    await qa.get(`/api/revisions/${unknownId}/procedures`).expect(404);
    const answer = await qa
      .post('/api/certificates/suggest')
      .send({ ...certificate, kind: 'operator', code: 'ISO 14732', cellId: unknownId });
    expect([answer.status, answer.body.fields[0].field]).toEqual([404, 'body.cellId']);
  });
});

const suggest = async (changes: object = {}): Promise<Suggestions> =>
  (
    await qa
      .post('/api/wpqrs/suggest')
      .send({ ...butt, ...changes })
      .expect(200)
  ).body;
const of = ({ ranges }: Pick<Suggestions, 'ranges'>, field: string) =>
  ranges.find((each) => each.field === field);

describe('suggestions for a procedure test', () => {
  // ISO 15614-1:2017, Table 7, from memory: multi-run, 3 < t <= 12, gives 3 to 2 t.
  it('give the range with its rule, and ask about a wider one that was typed', async () => {
    expect(of(await suggest(), 'thicknessMm')).toMatchObject({
      ...{ answer: 'range', min: 3, max: 24, words: '3 to 24 mm', confidence: 'medium' },
      rule: 'ISO 15614-1:2017 8.3.2, Table 7',
      check: { answer: 'ask', words: 'printed 3 to 30 mm, the rule gives 3 to 24 mm' },
    });
    const narrow = await suggest({ ranges: { thicknessMm: { min: 3, max: 24 } } });
    expect(of(narrow, 'thicknessMm')?.check?.answer).toBe('agrees');
  });

  it('cannot say to level 1, for an unknown edition, another code or aluminium', async () => {
    expect((await suggest({ level: '1' })).cannotSay).toContain('level 2 only');
    expect((await suggest({ edition: '1997' })).cannotSay).toContain('1997');
    expect((await suggest({ code: 'ISO 15609-1' })).cannotSay).toContain('no range rules');
    const aluminium = { testPiece: { ...butt.testPiece, materialGroup: '22.1' } };
    expect((await suggest(aluminium)).cannotSay).toContain('ISO 15614-2');
  });

  it('cannot say without an input, and never reads a missing one as given', async () => {
    const { impactRequired: _impact, ...silent } = butt.testPiece;
    const answer = of(await suggest({ testPiece: silent }), 'thicknessMm');
    expect(answer).toMatchObject({ max: 12, unsure: '3 to 24 mm' });
    const bare = of(await suggest({ testPiece: { jointType: 'butt' } }), 'thicknessMm');
    expect(bare).toMatchObject({ answer: 'cannotSay', check: { answer: 'cannotSay' } });
  });

  it('stores nothing', async () => {
    const before = (await qa.get('/api/wpqrs').expect(200)).body.wpqrs.length;
    await suggest();
    expect((await qa.get('/api/wpqrs').expect(200)).body.wpqrs).toHaveLength(before);
  });

  it('keep what a record says of its test piece', async () => {
    const testPiece = { ...wpqrBody.testPiece, impactRequired: false, maxPassMm: 4 };
    const { body } = await qa
      .post('/api/wpqrs')
      .send({ ...wpqrBody, number: 'WPQR-900', testPiece })
      .expect(200);
    expect(body.testPiece).toEqual(testPiece);
  });
});

describe('suggestions for a certificate', () => {
  // ISO 9606-1:2012, Table 6 (3 to 2 s, from memory), Table 9 (PF: PA, PF) and 9.3 a) (three years).
  it('give ranges and dates, and ask about what was typed too wide', async () => {
    const { body } = await qa.post('/api/certificates/suggest').send(certificate).expect(200);
    expect(of(body, 'thicknessMm')).toMatchObject({ min: 3, max: 20, check: { answer: 'agrees' } });
    expect(of(body, 'positions')).toMatchObject({ check: { answer: 'ask' } });
    expect(body.dates).toMatchObject({ validUntil: '2029-06-01', confirmedUntil: '2026-12-02' });
  });

  it("bind an operator's certificate to its unit", async () => {
    const { body } = await qa
      .post('/api/certificates/suggest')
      .send({
        ...{ kind: 'operator', code: 'ISO 14732', edition: '2013', process: '135' },
        ...{ cellId: shop.cells.R1.id, testPiece: {} },
      })
      .expect(200);
    const unit = body.ranges.find((each: { variable: string }) => each.variable === 'unit');
    expect(unit).toMatchObject({ answer: 'list', values: ['R1'], confidence: 'high' });
  });
});

describe('finding procedures', () => {
  it('names what misses by one variable, with its distance', async () => {
    const { body } = await qa.get(`/api/revisions/${revisionId}/procedures`).expect(200);
    expect(body.welds).toMatchObject([
      {
        ...{ weldNumber: 1, named: 'WPS-014', covering: [] },
        nearestMisses: [
          {
            ...{ label: 'WPS-014 r1', variable: 'thickness', distance: 3, unit: 'mm' },
            words: 'thickness 15 mm is above 12',
          },
        ],
      },
    ]);
  });

  it('names what covers, the limit included', async () => {
    const limit = { ...bracketWeld, thicknessAMm: 12, thicknessBMm: 12 };
    const job = await robot.job({ number: 'X-301', welds: [limit] });
    const { body } = await qa.get(`/api/revisions/${job.revisionId}/procedures`).expect(200);
    expect(body.welds[0].covering).toEqual([{ wpsId, label: 'WPS-014 r1' }]);
  });

  it('draws who holds a step and which welds nobody holds', async () => {
    await certifyWelder(shop, shop.people.welder);
    const { body } = await qa.get('/api/procedures/coverage').expect(200);
    const [process] = body.processes;
    const step = (fromMm: number, position: string) =>
      process.cells.find(
        (cell: { fromMm: number; position: string }) =>
          cell.fromMm === fromMm && cell.position === position,
      );
    expect(process.process).toBe('135');
    expect(step(3, 'PB')).toMatchObject({ procedures: ['WPS-014 r1'], withoutProcedure: [] });
    expect(step(12, 'PB')).toMatchObject({
      ...{ procedures: [], withoutProcedure: ['X-300 B, weld 1'] },
      people: expect.arrayContaining(['O03', 'W07']),
    });
  });
});

describe('the policy', () => {
  it('says what each answer does, for procedures and for people', async () => {
    const { body } = await qa.get('/api/policy').expect(200);
    const line = (subject: string, variable: string) =>
      body.lines.find(
        (each: { subject: string; variable: string }) =>
          each.subject === subject && each.variable === variable,
      );
    expect(line('procedure', 'thickness')).toMatchObject({
      ...{ outside: 'gate', outsideCoded: 'refuse', cannotSay: 'gate' },
    });
    expect(line('person', 'transfer')).toMatchObject({ cannotSay: 'tell' });
    expect(body).toMatchObject({ from: '2026-10-05', overrides: [] });
  });

  it('lists the overrides of the week with how often the rule was passed', async () => {
    const thick = { ...bracketWeld, thicknessAMm: 15, thicknessBMm: 15 };
    const [jobStep] = (await robot.job({ number: 'X-302', welds: [thick] })).steps;
    const coordinator = await signedIn(shop, 'coordinator');
    await coordinator
      .post(`/api/job-steps/${jobStep?.id}/overrides`)
      .send({
        ...{ rule: 'thickness', reason: 'macro of the first piece was sound', days: 2 },
        forPersonId: robot.operator.id,
      })
      .expect(200);
    const { body } = await qa.get('/api/policy').expect(200);
    expect(body.overrides).toMatchObject([
      { rule: 'thickness', signedBy: 'C01', forPerson: 'O03', timesInMonth: 1 },
    ]);
  });
});
