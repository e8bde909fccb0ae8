import type {
  BodyOf,
  consumables,
  PartDetail,
  parts,
  ReplyOf,
  Revision,
} from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { boothStep, fillet } from '../support/repeat-part.js';

type Item = ReplyOf<typeof consumables.addItem>;
type Rows = { steps?: object[]; welds?: object[] };

const unknownId = '00000000-0000-4000-8000-000000000000';
let shop: TestShop;
let office: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  office = await shop.as('office');
});
afterAll(async () => shop.close());

const step: BodyOf<typeof parts.setSteps>['steps'][number] = boothStep;
const weld: BodyOf<typeof parts.setWelds>['welds'][number] = fillet;
const setUp: BodyOf<typeof parts.freezeSetUp> = {
  cellId: '',
  ...{ wireItemId: null, gasItemId: null, torch: '', mechanisation: 'partlyMechanised' },
  ...{ currentA: 240, voltageV: 26, wireSpeedMMin: 8.4, travelMmMin: 420, gasFlowLMin: 15 },
  ...{ contactTipMm: null, preheatC: null, programId: null, programRevision: null },
  ...{ fixtureId: null, watchOuts: ['Clamp 3 first'] },
};

let serial = 0;
async function newPart(): Promise<PartDetail> {
  const body = { number: `REV-${(serial += 1)}`, name: 'Bracket' };
  return (await office.post('/api/parts').send(body).expect(200)).body;
}
const add = async (partId: string, changes: object = {}) =>
  office
    .post(`/api/parts/${partId}/revisions`)
    .send({ label: 'A', drawingNumber: 'D-1', ...changes });
const put = async (revision: Revision, list: 'welds' | 'steps', rows: object[]) =>
  office
    .put(`/api/revisions/${revision.id}/${list}`)
    .send({ expectedVersion: revision.version, [list]: rows });
const release = async ({ id, version }: Revision, changeNote = 'checked by two') =>
  office.post(`/api/revisions/${id}/release`).send({ expectedVersion: version, changeNote });
const revision = async (id: string): Promise<Revision> =>
  (await office.get(`/api/revisions/${id}`).expect(200)).body;
const freeze = async (stepId: string, changes: object = {}) =>
  office
    .post(`/api/steps/${stepId}/set-ups`)
    .send({ ...setUp, cellId: shop.cells.M1.id, ...changes });

/** A draft of a part with its lists set, one weld in one step unless told otherwise. */
async function draft(
  rows: Rows = {},
  { partId, label = 'A' }: { partId?: string; label?: string } = {},
): Promise<Revision> {
  const { steps = [step], welds = [weld] } = rows;
  const { body } = await add(partId ?? (await newPart()).id, { label });
  const withSteps = steps.length === 0 ? body : (await put(body, 'steps', steps)).body;
  const withWelds = await put(withSteps, 'welds', welds);
  expect(withWelds.status, withWelds.body.message).toBe(200);
  return withWelds.body;
}
async function released(rows: Rows = {}): Promise<Revision> {
  const answer = await release(await draft(rows));
  expect(answer.status, answer.body.message).toBe(200);
  return answer.body;
}
const stepOf = ({ steps }: Revision): string => steps[0]?.id ?? '';

describe('doors', () => {
  let open: Revision;
  let complete: Revision;
  let partId: string;
  beforeAll(async () => {
    partId = (await newPart()).id;
    open = (await add(partId)).body;
    complete = await draft();
  });
  const doors = () => shop;
  firstFour('start a revision', doors, {
    method: 'post',
    path: () => `/api/parts/${partId}/revisions`,
    body: () => ({ label: 'B', drawingNumber: 'D-1' }),
    allowed: 'qa',
    refused: 'welder',
    malformed: { body: { label: 'B' }, field: 'body.drawingNumber' },
  });
  firstFour('revision', doors, {
    method: 'get',
    path: () => `/api/revisions/${open.id}`,
    allowed: 'welder',
    malformed: { path: '/api/revisions/A', field: 'params.revisionId' },
  });
  firstFour('set welds', doors, {
    method: 'put',
    path: () => `/api/revisions/${open.id}/welds`,
    body: () => ({ expectedVersion: 1, welds: [weld] }),
    allowed: 'office',
    refused: 'welder',
    malformed: {
      body: { expectedVersion: 1, welds: [{ ...weld, throatMm: null }] },
      field: 'body.welds.0.throatMm',
    },
  });
  firstFour('set steps', doors, {
    method: 'put',
    path: () => `/api/revisions/${open.id}/steps`,
    body: () => ({ expectedVersion: 2, steps: [step] }),
    allowed: 'office',
    refused: 'welder',
    malformed: { body: { expectedVersion: 2, steps: [] }, field: 'body.steps' },
  });
  firstFour('release', doors, {
    method: 'post',
    path: () => `/api/revisions/${complete.id}/release`,
    body: () => ({ expectedVersion: complete.version, changeNote: 'first release' }),
    allowed: 'qa',
    refused: 'welder',
    malformed: { body: { expectedVersion: 3, changeNote: 'ok' }, field: 'body.changeNote' },
  });
  firstFour('keep a set-up', doors, {
    method: 'post',
    path: () => `/api/steps/${stepOf(complete)}/set-ups`,
    body: () => ({ ...setUp, cellId: shop.cells.M1.id }),
    allowed: 'welder',
    malformed: {
      body: { ...setUp, cellId: unknownId, watchOuts: ['1', '2', '3', '4'] },
      field: 'body.watchOuts',
    },
  });
});

describe('a draft', () => {
  it('has its lists replaced as a whole, in the order of their numbers', async () => {
    const made = await draft({
      steps: [
        { ...step, number: 2, name: 'Weld' },
        { ...step, name: 'Tack <b>' },
      ],
      welds: [{ ...weld, number: 20, stepNumber: 2 }, weld],
    });
    expect(made.version).toBe(3);
    expect(made.steps.map(({ number, name }) => [number, name])).toEqual([
      [1, 'Tack <b>'],
      [2, 'Weld'],
    ]);
    expect(made.welds.map(({ number }) => number)).toEqual([1, 20]);
    const answer = await put(made, 'welds', [{ ...weld, number: 7 }]);
    expect(answer.body.welds).toMatchObject([{ ...weld, number: 7 }]);
    expect(await revision(made.id)).toEqual(answer.body);
    const { body } = await office.get(`/api/history/revision/${made.id}`);
    expect(body.entries[0]).toMatchObject({
      type: 'revision.weldsSet',
      before: { welds: [{ number: 1 }, { number: 20 }] },
      after: { welds: [{ number: 7 }] },
    });
    expect(body.entries[0].after).not.toHaveProperty('steps');
  });
  it.each([
    ['welds', [weld, { ...weld, number: 2 }, weld], 'body.welds.2.number'],
    ['steps', [step, step], 'body.steps.1.number'],
  ] as const)('has no number of its %s twice', async (list, rows, field) => {
    const answer = await put(await draft(), list, [...rows]);
    expect([answer.status, answer.body.code]).toEqual([400, 'INVALID']);
    expect(answer.body.fields).toMatchObject([{ field, given: '1' }]);
  });
  it.each(['welds', 'steps'] as const)('answers a stale list of %s as it stands', async (list) => {
    const made = await draft();
    await put(made, 'welds', [{ ...weld, lengthMm: 90 }]);
    const late = await put(made, list, list === 'welds' ? [weld] : [step]);
    expect([late.status, late.body.code]).toEqual([409, 'STALE']);
    expect(late.body.current).toMatchObject({ version: 4, welds: [{ lengthMm: 90 }] });
  });
  it('keeps the set-ups of a step that keeps its number, and drops those of one that goes', async () => {
    const made = await draft({ steps: [step, { ...step, number: 2 }] });
    const [one = '', two = ''] = made.steps.map(({ id }) => id);
    await freeze(one);
    await freeze(two);
    const answer = await put(made, 'steps', [
      { ...step, name: 'Tack' },
      { ...step, number: 3 },
    ]);
    expect(answer.body.steps).toMatchObject([
      { id: one, number: 1, name: 'Tack', version: 2, setUps: [{ currentA: 240 }] },
      { number: 3, version: 1, setUps: [] },
    ]);
    expect((await freeze(two)).status).toBe(404);
  });
  it('is told apart from one that does not exist', async () => {
    const none = { ...(await draft()), id: unknownId };
    for (const answer of [
      await office.get(`/api/revisions/${unknownId}`),
      await put(none, 'welds', [weld]),
      await put(none, 'steps', [step]),
      await release(none),
      await add(unknownId),
    ]) {
      expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
    }
  });
  it.each([
    ['control characters', 'weld\u0008s'],
    ['too much text', 'x'.repeat(501)],
  ])('refuses %s in a note', async (_case, notes) => {
    const answer = await put(await draft(), 'welds', [{ ...weld, notes }]);
    expect([answer.status, answer.body.fields[0].field]).toEqual([400, 'body.welds.0.notes']);
  });
});

describe('releasing', () => {
  it('names who and when, and closes the revision for good', async () => {
    const made = await released();
    expect(made).toMatchObject({
      ...{ state: 'released', version: 4, changeNote: 'checked by two' },
      ...{ releasedBy: shop.people.office.name, releasedAt: shop.clock.now().toISOString() },
    });
    for (const answer of [
      await put(made, 'welds', [weld]),
      await put(made, 'steps', [step]),
      await release(made),
    ]) {
      expect([answer.status, answer.body.code]).toEqual([409, 'NOT_NOW']);
      expect(answer.body.message).toContain('is released and stays as it is');
    }
    expect(await revision(made.id)).toEqual(made);
  });
  it('takes the former one out of use; the part then shows the new one', async () => {
    const former = await released();
    const next = await draft({}, { partId: former.partId, label: 'B' });
    expect((await office.get(`/api/parts/${former.partId}`)).body).toMatchObject({
      ...{ latestRevision: 'B', releasedRevision: 'A' },
    });
    await release(next);
    expect((await revision(former.id)).state).toBe('superseded');
    const part = (await office.get(`/api/parts/${former.partId}`)).body;
    expect(part).toMatchObject({ latestRevision: 'B', releasedRevision: 'B' });
    expect(part.revisions).toMatchObject([
      { label: 'B', state: 'released', weldCount: 1 },
      { label: 'A', state: 'superseded', weldCount: 1 },
    ]);
    const { parts: service } = shop.context.services;
    expect(await service.releasedRevision(former.partId, 'a')).toBeNull();
    expect((await service.releasedRevision(former.partId, 'b'))?.id).toBe(next.id);
  });
  it.each([
    ['no weld', { welds: [] }, 'it has no weld'],
    ['no step', { steps: [] }, 'it has no step'],
    [
      'a weld in a step that is not there',
      { welds: [weld, { ...weld, number: 2, stepNumber: 4 }] },
      'weld 2 is made in step 4, which is not among the steps (1)',
    ],
  ])('waits while there is %s', async (_case, rows, words) => {
    const made = await draft(rows);
    const answer = await release(made);
    expect([answer.status, answer.body.code]).toEqual([409, 'NOT_NOW']);
    expect(answer.body.message).toContain(words);
    expect((await revision(made.id)).state).toBe('draft');
  });
  it('of an older version is not done', async () => {
    const made = await draft();
    await put(made, 'welds', [{ ...weld, count: 3 }]);
    const late = await release(made);
    expect([late.status, late.body.code]).toEqual([409, 'STALE']);
    expect(late.body.current.welds).toMatchObject([{ count: 3 }]);
  });
});

describe('a new revision', () => {
  it('takes over welds, steps and the set-ups of today from the one named', async () => {
    const former = await released({ steps: [step, { ...step, number: 2, name: 'Clean' }] });
    await freeze(stepOf(former), { currentA: 230 });
    await freeze(stepOf(former), { currentA: 245 });
    const answer = await add(former.partId, {
      ...{ label: 'B', drawingNumber: 'D-2', drawingPrint: 'f00d', changeNote: 'hole added' },
      copyFromRevisionId: former.id,
    });
    expect(answer.body).toMatchObject({
      ...{ version: 1, state: 'draft', label: 'B', drawingNumber: 'D-2', drawingPrint: 'f00d' },
      welds: [weld],
      steps: [
        { ...step, setUps: [{ currentA: 245 }] },
        { name: 'Clean', setUps: [] },
      ],
    });
    // The copy stands by itself.
    await put(answer.body, 'welds', [{ ...weld, lengthMm: 1 }]);
    await freeze(stepOf(answer.body), { currentA: 260 });
    expect(await revision(former.id)).toMatchObject({
      welds: [weld],
      steps: [{ setUps: [{ currentA: 245 }] }, {}],
    });
  });
  it('has a label of its own, whatever the case, and a source on file', async () => {
    const { id } = await newPart();
    await add(id, { label: 'a' });
    const again = await add(id, { label: 'A' });
    expect([again.status, again.body.code]).toEqual([409, 'DUPLICATE']);
    expect(again.body.fields[0].field).toBe('body.label');
    const nowhere = await add(id, { label: 'B', copyFromRevisionId: unknownId });
    expect([nowhere.status, nowhere.body.fields[0].field]).toEqual([
      404,
      'body.copyFromRevisionId',
    ]);
    expect((await office.get(`/api/parts/${id}`)).body.revisions).toHaveLength(1);
  });
});

describe('a set-up', () => {
  let wire: Item;
  let gas: Item;
  beforeAll(async () => {
    const base = { wireDiameterMm: 1.2, unit: 'kg' };
    const add = async (body: object): Promise<Item> =>
      (await office.post('/api/items').send(body).expect(200)).body;
    wire = await add({ ...base, kind: 'wire', designation: 'G3Si1', name: 'Solid wire' });
    gas = await add({ kind: 'gas', designation: 'M21', name: 'Mixed gas', unit: 'l' });
  });

  it('is kept with the names of what it points at; the former one is no longer shown', async () => {
    const made = await released();
    await freeze(stepOf(made), { torch: 'old' });
    const fixture = await office.post('/api/fixtures').send({ code: 'FX-1', place: 'B2-3' });
    const answer = await freeze(stepOf(made), {
      ...{ wireItemId: wire.id, gasItemId: gas.id, fixtureId: fixture.body.id, torch: "O'Neil" },
    });
    expect(answer.body).toMatchObject({
      ...{ wireName: 'Solid wire', wireDesignation: 'G3Si1', wireDiameterMm: 1.2 },
      ...{ gasName: 'Mixed gas', gasDesignation: 'M21', torch: "O'Neil", cellCode: 'M1' },
      ...{ fixtureCode: 'FX-1', fixturePlace: 'B2-3', fixtureCondition: 'good' },
      ...{ frozenBy: shop.people.office.name, frozenAt: shop.clock.now().toISOString() },
      ...{ watchOuts: ['Clamp 3 first'], programId: null, frozenFromRunId: null },
    });
    expect((await revision(made.id)).steps[0]?.setUps).toEqual([answer.body]);
    const { body } = await office.get(`/api/history/setUp/${answer.body.id}`);
    expect(body.entries[0]).toMatchObject({
      type: 'setUp.frozen',
      before: { torch: 'old', wireItemId: null },
      after: { torch: "O'Neil", wireItemId: wire.id },
    });
    expect(body.entries[0].after).not.toHaveProperty('currentA');
  });
  it('names a program of its own cell', async () => {
    const robotStep = { ...step, cellKind: 'robot' };
    const made = await released({ steps: [robotStep] });
    const program = async (cellId: string) => {
      const body = { name: 'P-143', revision: '4', author: 'Olaf', writtenOn: '2026-03-14' };
      const answer = await office
        .post('/api/programs')
        .send({ ...body, cellId, backupPlace: 'shelf 2' });
      return answer.body.id;
    };
    const { R1, M1 } = shop.cells;
    const own = await program(R1.id);
    const answer = await freeze(stepOf(made), {
      ...{ cellId: R1.id, programId: own, programRevision: '3' },
    });
    expect(answer.body).toMatchObject({ programName: 'P-143', programRevision: '3' });
    const foreign = await freeze(stepOf(made), { cellId: R1.id, programId: await program(M1.id) });
    expect([foreign.status, foreign.body.fields[0].field]).toEqual([400, 'body.programId']);
  });
  it.each(['cellId', 'wireItemId', 'gasItemId', 'programId', 'fixtureId'])(
    'does not point at a %s that is not on file',
    async (name) => {
      const made = await released();
      const answer = await freeze(stepOf(made), { [name]: unknownId });
      expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
      expect(answer.body.fields[0]).toMatchObject({ field: `body.${name}`, given: unknownId });
      expect((await revision(made.id)).steps[0]?.setUps).toEqual([]);
    },
  );
  it('belongs to a step on file, at a cell of its kind, with wire for wire and gas for gas', async () => {
    const stepId = stepOf(await released());
    const noStep = await freeze(unknownId);
    const robot = await freeze(stepId, { cellId: shop.cells.R1.id });
    const gasForWire = await freeze(stepId, { wireItemId: gas.id });
    const wireForGas = await freeze(stepId, { gasItemId: wire.id });
    const places = [noStep, robot, gasForWire, wireForGas].map(({ status, body }) => [
      status,
      body.fields[0].field,
    ]);
    expect(places).toEqual([
      [404, 'params.stepId'],
      [400, 'body.cellId'],
      [400, 'body.wireItemId'],
      [400, 'body.gasItemId'],
    ]);
  });
});
