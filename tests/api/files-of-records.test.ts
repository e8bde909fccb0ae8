import { attachRoutes, files, type FileSubjectType, type StoredFile } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { expectGuarded, signedIn as everybody, unknownId } from '../support/guarded.js';
import { pdf, png } from '../support/pictures.js';
import { openQualityFloor, type QualityFloor } from '../support/quality-floor.js';
import { readPdf } from '../support/read-pdf.js';
import { signedIn } from '../support/signed-in.js';

let shop: TestShop;
let floor: QualityFloor;
let manager: Agent;
let office: Agent;
let tablet: Agent;
let size = 10;

beforeAll(async () => {
  shop = await startTestShop();
  floor = await openQualityFloor(shop);
  manager = await signedIn(shop, 'manager');
  office = await signedIn(shop, 'office');
  tablet = await shop.tablet('R1');
});
afterAll(async () => shop.close());

/** A picture that no other test has sent. */
const photo = () => png((size += 1), 5);

async function stored(agent: Agent, content = photo(), name = 'photo.png'): Promise<StoredFile> {
  const { status, body } = await agent.post('/api/files').attach('file', content, name);
  expect(status, JSON.stringify(body)).toBe(200);
  return body as StoredFile;
}

async function filesOf(type: FileSubjectType, id: string, agent = office): Promise<StoredFile[]> {
  const query = { subjectType: type, subjectId: id };
  return (await agent.get('/api/files').query(query).expect(200)).body.files;
}

async function idOf(type: FileSubjectType): Promise<string> {
  const { reader: db } = shop.context.database;
  switch (type) {
    case 'nonconformance': {
      const job = await floor.robot.job({ quantity: 4 });
      return (await floor.raise(job, { counted: false })).id;
    }
    case 'firstPiece': {
      const run = await floor.pulled(await floor.robot.job({ quantity: 4 }));
      return (await floor.check(run, 5.7)).id;
    }
    case 'setUp':
      return (await db.setUp.findFirstOrThrow()).id;
    case 'fixture':
      return (await db.fixture.findFirstOrThrow()).id;
    case 'wpqr':
      return (await db.wpqr.findFirstOrThrow()).id;
    case 'certificate':
      return (await db.certificate.findFirstOrThrow()).id;
    case 'lot':
      return (await db.lot.findFirstOrThrow()).id;
    case 'revision':
      return (await db.revision.findFirstOrThrow({ where: { state: 'released' } })).id;
  }
}

const types = Object.keys(attachRoutes) as FileSubjectType[];

describe.sequential('a file', () => {
  it.each(types)('is added to a %s, once, with its event', async (type) => {
    await floor.robot.job({ quantity: 1 });
    const id = await idOf(type);
    const route = attachRoutes[type];
    const agent = type === 'wpqr' || type === 'certificate' ? floor.qa : manager;
    const file = await stored(agent);
    const path = route.path.replace(':subjectId', id);
    const added = await agent.post(path).send({ fileId: file.id });
    expect(added.status, JSON.stringify(added.body)).toBe(200);
    expect(added.body).toEqual(file);
    expect(await filesOf(type, id)).toEqual([file]);
    await office.get(`/api/files/${file.id}`).expect(200);
    const { body } = await office.get(`/api/history/${type}/${id}`).expect(200);
    expect(body.entries[0].after).toMatchObject({ fileId: file.id, sha256: file.sha256 });
    const again = await agent.post(path).send({ fileId: file.id }).expect(409);
    expect(again.body).toMatchObject({ code: 'DUPLICATE' });
    expect(await filesOf(type, id)).toHaveLength(1);
  });

  it('that is a paper goes to papers, not to photos', async () => {
    const paper = await stored(floor.qa, pdf(), 'WPQR-7.pdf');
    const ncr = await idOf('nonconformance');
    const refusal = await floor.qa.post(`/api/files/ncrs/${ncr}`).send({ fileId: paper.id });
    expect(refusal.body).toMatchObject({
      code: 'DOES_NOT_FIT',
      fields: [{ field: 'body.fileId' }],
    });
    const wpqr = await idOf('wpqr');
    await floor.qa.post(`/api/files/wpqrs/${wpqr}`).send({ fileId: paper.id }).expect(200);
  });

  it('of somebody else that belongs to nothing cannot be used', async () => {
    const { id: fileId } = await stored(office);
    const path = `/api/files/fixtures/${await idOf('fixture')}`;
    const refusal = await manager.post(path).send({ fileId }).expect(404);
    expect(refusal.body).toMatchObject({ code: 'NOT_FOUND', fields: [{ field: 'body.fileId' }] });
  });
});

describe('photos of an act', () => {
  it('come with the NCR that is raised, or nothing is raised', async () => {
    const job = await floor.robot.job({ quantity: 4 });
    const [one, two] = [await stored(floor.operator), await stored(floor.operator)];
    const ncr = await floor.raise(job, { counted: false, photoIds: [one.id, two.id] });
    expect(await filesOf('nonconformance', ncr.id)).toEqual([one, two]);
    const path = `/api/job-steps/${job.steps[0]?.id}/ncrs`;
    const body = { defect: 'crack', quantity: 1, counted: false, photoIds: [job.id] };
    const refusal = await floor.operator.post(path).send(body).expect(404);
    expect(refusal.body).toMatchObject({ code: 'NOT_FOUND', message: /file/ });
    const { ncrs } = (await office.get('/api/ncrs').query({ jobId: job.id }).expect(200)).body;
    expect(ncrs).toHaveLength(1);
  });

  it('come with the first piece', async () => {
    const job = await floor.robot.job({ quantity: 4 });
    await floor.operator.post(`/api/runs/${await heldRun()}/put-down`).send({});
    const run = await floor.pulled(job);
    const one = await stored(floor.operator);
    const piece = await floor.check(run, 5.7, { photoIds: [one.id] });
    expect(await filesOf('firstPiece', piece.id)).toEqual([one]);
  });

  async function heldRun(): Promise<string> {
    const held = await shop.context.database.reader.holding.findFirst();
    return held?.runId ?? '00000000-0000-7000-8000-000000000000';
  }
});

describe('the photos of a set-up', () => {
  it('are seen at the tablet before anybody signs in; those of an NCR are not', async () => {
    const setUp = await shop.context.database.reader.setUp.findFirstOrThrow();
    const file = await stored(floor.operator);
    await floor.operator.post(`/api/files/set-ups/${setUp.id}`).send({ fileId: file.id });
    expect(await filesOf('setUp', setUp.id, tablet)).toContainEqual(file);
    await tablet.get(`/api/files/${file.id}`).expect(200);
    const hidden = await stored(floor.operator);
    const ncr = await floor.raise(await floor.robot.job({ quantity: 2 }), {
      ...{ counted: false, photoIds: [hidden.id] },
    });
    expect(await filesOf('nonconformance', ncr.id, tablet)).toEqual([]);
    await tablet.get(`/api/files/${hidden.id}`).expect(404);
  });

  it('go along to the set-up that is kept after it, and to the next revision', async () => {
    const db = shop.context.database.reader;
    await floor.robot.job({ quantity: 1 });
    const before = await db.setUp.findFirstOrThrow({
      where: { current: true },
      orderBy: { frozenAt: 'desc' },
    });
    const file = await stored(manager);
    await manager.post(`/api/files/set-ups/${before.id}`).send({ fileId: file.id }).expect(200);
    const frozen = await manager
      .post(`/api/steps/${before.stepId}/set-ups`)
      .send(floor.robot.setUp({ travelMmMin: 431 }))
      .expect(200);
    expect(frozen.body.id).not.toBe(before.id);
    const kept = await filesOf('setUp', before.id);
    expect(kept).toContainEqual(file);
    expect(await filesOf('setUp', frozen.body.id)).toEqual(kept);
    const { revisionId } = await db.step.findUniqueOrThrow({ where: { id: before.stepId } });
    const { partId } = await db.revision.findUniqueOrThrow({ where: { id: revisionId } });
    const next = await office
      .post(`/api/parts/${partId}/revisions`)
      .send({ label: 'C', drawingNumber: 'D-9', copyFromRevisionId: revisionId })
      .expect(200);
    const copied = next.body.steps.flatMap(({ setUps }: { setUps: { id: string }[] }) => setUps);
    const ofCopies = await Promise.all(
      copied.map(async ({ id }: { id: string }) => filesOf('setUp', id)),
    );
    expect(ofCopies.flat()).toContainEqual(file);
  });
});

describe('the files of a job', () => {
  it('are for whoever is signed in', async () =>
    expectGuarded(shop, files.ofJob, {
      allowed: everybody,
      malformed: [{ params: { jobId: 'x' }, field: 'params.jobId' }],
    }));

  it('are those of its records, by their names; another job has none of them', async () => {
    const db = shop.context.database.reader;
    const held = await db.holding.findFirst();
    if (held !== null) await floor.operator.post(`/api/runs/${held.runId}/put-down`).send({});
    const [job, other] = [await floor.robot.job({ quantity: 4 }), await floor.robot.job({})];
    const run = await floor.pulled(job);
    const [one, two] = [await stored(floor.operator), await stored(floor.operator)];
    await floor.check(run, 5.7, { photoIds: [one.id] });
    const ncr = await floor.raise(job, { counted: false, photoIds: [two.id] });
    const paper = await stored(manager, pdf(800), 'L-77.pdf');
    const lot = await db.lot.findFirstOrThrow({ where: { number: 'L-77' } });
    await manager.post(`/api/files/lots/${lot.id}`).send({ fileId: paper.id }).expect(200);
    const ofJob = async (id: string) =>
      (await office.get(`/api/jobs/${id}/files`).expect(200)).body.records;
    const records = await ofJob(job.id);
    expect(records).toContainEqual({
      name: `First piece, step ${job.steps[0]?.number}`,
      files: [one],
    });
    expect(records).toContainEqual({ name: `NCR ${ncr.number}`, files: [two] });
    const lots = records.find(({ name }: { name: string }) => name === 'Lot L-77');
    expect(lots.files).toContainEqual(paper);
    expect(JSON.stringify(await ofJob(other.id))).not.toContain(one.id);
    await office.get(`/api/jobs/${unknownId}/files`).expect(404);
  });
});

describe('the set-up sheet', () => {
  it('is printed with its photos, and also when the printer cannot read one', async () => {
    const db = shop.context.database.reader;
    await floor.robot.job({ quantity: 1 });
    const setUp = await db.setUp.findFirstOrThrow({
      ...{ where: { current: true, fixtureId: { not: null } }, include: { step: true } },
      orderBy: { frozenAt: 'desc' },
    });
    const path = `/api/revisions/${setUp.step.revisionId}/set-ups/${setUp.id}/sheet.pdf`;
    const text = async () => {
      const { body, status } = await office.get(path).buffer(true);
      expect(status).toBe(200);
      return readPdf(new Uint8Array(body as Buffer));
    };
    const sound = await stored(manager, photo(), 'clamped.png');
    await manager.post(`/api/files/set-ups/${setUp.id}`).send({ fileId: sound.id }).expect(200);
    const whole = await text();
    expect(whole.text).toContain('Set-up: clamped.png');
    expect(whole.pages.reduce((sum, { images }) => sum + images, 0)).toBeGreaterThan(0);
    const broken = await stored(manager, photo().subarray(0, 45), 'broken.png');
    await manager.post(`/api/files/set-ups/${setUp.id}`).send({ fileId: broken.id }).expect(200);
    expect((await text()).text).toContain('Set-up: broken.png');
  });
});

describe('the drawing file of a revision', () => {
  it('gives its fingerprint to a draft', async () => {
    const db = shop.context.database.reader;
    const { id: partId } = await db.part.findFirstOrThrow();
    const draft = await office
      .post(`/api/parts/${partId}/revisions`)
      .send({ label: 'X', drawingNumber: 'D-77' })
      .expect(200);
    const { id } = draft.body as { id: string };
    const give = async (content: Buffer, name: string) => {
      const { id: fileId, sha256 } = await stored(office, content, name);
      const reply = await office.post(`/api/files/revisions/${id}`).send({ fileId });
      return {
        sha256,
        status: reply.status,
        body: reply.body as { code?: string; message?: string },
      };
    };
    const print = async () => (await office.get(`/api/revisions/${id}`).expect(200)).body;
    const first = await give(pdf(400), 'D-77.pdf');
    expect(await print()).toMatchObject({ drawingPrint: first.sha256, version: 2 });
    const second = await give(pdf(500), 'D-77 corrected.pdf');
    expect(await print()).toMatchObject({ drawingPrint: second.sha256, version: 3 });
  });

  it('of a released revision is refused when it is another one', async () => {
    const db = shop.context.database.reader;
    await floor.robot.job({ quantity: 1 });
    const { id } = await db.revision.findFirstOrThrow({
      where: { state: 'released', drawingPrint: null },
    });
    const [first, other] = [
      await stored(office, pdf(600), 'a.pdf'),
      await stored(office, pdf(700), 'b.pdf'),
    ];
    const path = `/api/files/revisions/${id}`;
    await office.post(path).send({ fileId: first.id }).expect(200);
    const refusal = await office.post(path).send({ fileId: other.id }).expect(409);
    expect(refusal.body).toMatchObject({ code: 'NOT_NOW' });
    expect(refusal.body.message).toContain('Same revision, different file');
    expect(await filesOf('revision', id)).toEqual([first]);
  });
});
