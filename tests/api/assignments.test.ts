import { createContext } from '@tackboard/api';
import type { Assignment, Job, OrderCheck } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { openBracketShop, type BracketShop } from '../support/bracket-shop.js';
import { firstFour } from '../support/first-four.js';
import { unknownId } from '../support/guarded.js';
import { signedIn } from '../support/signed-in.js';

let shop: TestShop;
let desk: BracketShop;

beforeAll(async () => {
  shop = await startTestShop();
  desk = await openBracketShop(shop);
});
afterAll(async () => shop.close());

async function setFixture(condition: 'good' | 'missing' | 'repair'): Promise<void> {
  const { parts } = shop.context.services;
  const { fixtures } = await parts.fixtures();
  const fixture = fixtures.find(({ code }) => code === 'FX-031');
  await parts.editFixture(shop.actor('manager'), fixture?.id ?? '', {
    ...{ condition, expectedVersion: fixture?.version ?? 0 },
  });
}

const ofJob = async ({ id }: Pick<Job, 'id'>): Promise<Assignment[]> =>
  (await desk.office.get(`/api/assignments?jobId=${id}`)).body.assignments;

/** An order taken while the fixture is missing: one assignment for the office. */
async function shortOfFixture(changes = {}): Promise<{ job: Job; given: Assignment }> {
  await setFixture('missing');
  const job = await desk.take(desk.customers.alder, changes);
  const given = (await ofJob(job)).find(({ topic }) => topic === 'fixture');
  if (given === undefined) throw new Error('The missing fixture is given to nobody.');
  return { job, given };
}

const settled = async (job: Job, topic = 'fixture') =>
  vi.waitFor(
    async () => {
      const found = (await ofJob(job)).find((each) => each.topic === topic);
      expect(found?.closedAt).not.toBeNull();
      return found;
    },
    { timeout: 5_000 },
  );

const board = async (job: Job) =>
  (await desk.office.get('/api/board')).body.toClear.find(
    ({ jobId }: { jobId: string }) => jobId === job.id,
  );

describe('what a confirmed line lacks', () => {
  it('is nothing where everything is there', async () => {
    await setFixture('good');
    expect((await desk.check()).assignments).toEqual([]);
    const job = await desk.take(desk.customers.alder);
    expect(await ofJob(job)).toEqual([]);
    expect(await board(job)).toBeUndefined();
    await desk.cancel(job);
  });

  it('is no spool and no cylinder that lies in store: they are changed at the cell', async () => {
    await setFixture('good');
    const { consumables } = shop.context.services;
    const cored = await consumables.addItem(shop.actor('office'), {
      ...{ kind: 'wire', designation: 'T 46 4 M M 1 H5', name: 'Cored wire 1.2', unit: 'kg' },
      wireDiameterMm: 1.2,
    });
    const lot = await consumables.addLot(shop.actor('office'), {
      ...{ itemId: cored.id, number: 'L-C1', receivedOn: '2026-10-01', receivedAmount: 15 },
      certificate: null,
    });
    await consumables.load(shop.actor('welder'), shop.cells.R1.id, { lotId: lot.id, amount: 15 });
    const check: OrderCheck = await desk.check();
    const wire = check.notes.find(({ topic }) => topic === 'wire');
    expect(wire).toMatchObject({ state: 'ok', clearedBy: null });
    expect(wire?.text).toMatch(
      /1\.77 kg needed, Cored wire 1\.2 loaded at R1, .* kg in store: the spool is changed before the start$/,
    );
    expect(check.assignments).toEqual([]);
  });

  it('goes to who can clear it, due on the working day before the planned start', async () => {
    // 900 min in front of it: two and a half days of 360 min, so that it starts on Wednesday 7 October.
    const filler = await desk.filler('F-900', 900);
    const before = await desk.take(desk.customers.birch, { partId: filler, quantity: 1 });
    await setFixture('missing');
    const check: OrderCheck = await desk.check({ dueOn: '2026-10-09' });
    const { code, name } = shop.people.office;
    expect(check.assignments).toEqual([
      {
        ...{ stepNumber: 1, topic: 'fixture', dueOn: '2026-10-06' },
        ...{ personCode: code, personName: name },
      },
    ]);
    const job = await desk.take(desk.customers.alder, { dueOn: '2026-10-09' });
    expect(await ofJob(job)).toMatchObject([
      {
        ...{ topic: 'fixture', stepNumber: 1, personCode: code, dueOn: '2026-10-06' },
        ...{ text: 'step 1: FX-031 at B2-3, missing', overdue: false, closedAt: null },
        ...{ jobNumber: job.number, partNumber: 'X-210-01', customerName: 'Alder', version: 1 },
      },
    ]);
    expect(await board(job)).toMatchObject({ open: 1, until: '2026-10-06', overdue: 0 });
    await desk.cancel(job);
    await desk.cancel(before);
  });

  it('is the comparison for the coordinator where another revision is ordered, until it is signed', async () => {
    await setFixture('good');
    const job = await desk.take(desk.customers.alder, { orderedRevision: 'C' });
    const [compare] = await ofJob(job);
    const { code } = shop.people.coordinator;
    expect(compare).toMatchObject({ topic: 'revision', stepNumber: null, personCode: code });
    expect(compare?.text).toBe('revision B made last, C ordered: compare before release');
    const coordinator = await signedIn(shop, 'coordinator');
    const signed = { changeNote: 'hole moved, welds same', expectedVersion: job.version };
    await coordinator.post(`/api/jobs/${job.id}/release`).send(signed).expect(200);
    expect(await settled(job, 'revision')).toMatchObject({ closedAs: 'met', closedBy: null });
    await desk.cancel(job);
  });
});

describe('an assignment', () => {
  it('closes by itself once the thing is there, with an event of the service', async () => {
    const { job, given } = await shortOfFixture();
    await setFixture('good');
    expect(await settled(job)).toMatchObject({ closedAs: 'met', closedBy: null, version: 2 });
    expect(await board(job)).toBeUndefined();
    const { entries } = (await desk.office.get(`/api/history/assignment/${given.id}`)).body;
    expect(entries.map(({ type }: { type: string }) => type)).toEqual([
      'assignment.met',
      'assignment.opened',
    ]);
    expect(entries[0].actorName).toBeNull();
    await desk.cancel(job);
  });

  it('closes at the next start where the thing came while the service stood still', async () => {
    const own = await startTestShop();
    try {
      const there = await openBracketShop(own);
      const fixture = async (condition: 'good' | 'missing') => {
        const { fixtures } = await own.context.services.parts.fixtures();
        const { id = '', version: expectedVersion = 0 } = fixtures[0] ?? {};
        await own.context.services.parts.editFixture(own.actor('manager'), id, {
          ...{ condition, expectedVersion },
        });
      };
      await fixture('missing');
      const job = await there.take(there.customers.alder);
      // Closed before the look that follows a change, and opened again on the same file.
      await fixture('good');
      await own.context.services.assignments.close();
      const open = async ({ services }: typeof own.context) =>
        (await services.assignments.list({ jobId: job.id })).assignments.filter(
          ({ closedAt }) => closedAt === null,
        );
      expect(await open(own.context)).toHaveLength(1);
      const again = await createContext(own.context.config, own.clock);
      await vi.waitFor(async () => expect(await open(again)).toEqual([]), { timeout: 5_000 });
      await again.close();
    } finally {
      await own.close();
    }
  });

  it('stays open while something else changes', async () => {
    const { job } = await shortOfFixture();
    await setFixture('repair');
    expect(await shop.context.services.assignments.settle()).toBe(0);
    expect((await ofJob(job))[0]?.closedAt).toBeNull();
    await desk.cancel(job);
  });

  it('ends with its job', async () => {
    const { job } = await shortOfFixture();
    await desk.cancel(job);
    expect(await settled(job)).toMatchObject({ closedAs: 'ended' });
  });

  it('is given to somebody else for another day, and is overdue when that day is over', async () => {
    const { job, given } = await shortOfFixture();
    const { qa } = shop.people;
    const body = { personId: qa.id, dueOn: '2026-10-06', reason: 'is at the store anyway' };
    const at = `/api/assignments/${given.id}`;
    const changed = await desk.office.patch(at).send({ ...body, expectedVersion: 1 });
    expect(changed.body).toMatchObject({ personCode: qa.code, dueOn: '2026-10-06', version: 2 });
    const own = (await desk.office.get(`/api/assignments?personId=${qa.id}`)).body.assignments;
    expect(own.map(({ id }: Assignment) => id)).toContain(given.id);
    const { entries } = (await desk.office.get(`/api/history/assignment/${given.id}`)).body;
    expect(entries[0]).toMatchObject({
      ...{ type: 'assignment.changed', reason: body.reason },
      before: { person: shop.people.office.code },
      after: { person: qa.code, dueOn: '2026-10-06' },
    });
    const late = await desk.office.patch(at).send({ dueOn: '2026-10-01', expectedVersion: 2 });
    expect(late.body).toMatchObject({ overdue: true });
    expect(await board(job)).toMatchObject({ open: 1, overdue: 1, until: '2026-10-01' });
    await desk.cancel(job);
  });

  it('shows the row as it stands to whoever comes second', async () => {
    const { job, given } = await shortOfFixture();
    const at = `/api/assignments/${given.id}`;
    await desk.office.patch(at).send({ dueOn: '2026-10-09', expectedVersion: 1 }).expect(200);
    for (const stale of [
      await desk.office.patch(at).send({ dueOn: '2026-10-08', expectedVersion: 1 }),
      await desk.office.post(`${at}/clear`).send({ expectedVersion: 1 }),
    ]) {
      expect([stale.status, stale.body.code]).toEqual([409, 'STALE']);
      expect(stale.body.current).toMatchObject({ dueOn: '2026-10-09', version: 2 });
    }
    await desk.cancel(job);
  });

  it('is closed by its person or by the office, and by nobody else, and only once', async () => {
    const { job, given } = await shortOfFixture();
    const at = `/api/assignments/${given.id}/clear`;
    const welder = await signedIn(shop, 'welder');
    const stranger = await welder.post(at).send({ expectedVersion: 1 });
    expect([stranger.status, stranger.body.code]).toEqual([403, 'NOT_ALLOWED']);
    expect(stranger.body.message).toContain(given.personName);
    const edit = { personId: shop.people.welder.id, expectedVersion: 1 };
    await desk.office.patch(`/api/assignments/${given.id}`).send(edit).expect(200);
    const note = 'found behind M2';
    const cleared = await welder.post(at).send({ note, expectedVersion: 2 });
    expect(cleared.body).toMatchObject({
      ...{ closedAs: 'cleared', note, closedBy: shop.people.welder.name },
    });
    const again = await desk.office.post(at).send({ expectedVersion: 3 });
    expect([again.status, again.body.code]).toEqual([409, 'NOT_NOW']);
    expect(again.body.message).toContain('is cleared already');
    await desk.cancel(job);
  });

  it('is not given to somebody who is not there', async () => {
    const { job, given } = await shortOfFixture();
    const at = `/api/assignments/${given.id}`;
    const nobody = await desk.office.patch(at).send({ personId: unknownId, expectedVersion: 1 });
    expect([nobody.status, nobody.body.fields[0].field]).toEqual([404, 'body.personId']);
    const gone = await desk.robot.addPerson('W99', 'Sanna Ekwall');
    const { people } = shop.context.services;
    await people.edit(shop.actor('manager'), gone.id, {
      ...{ active: false, expectedVersion: gone.version + 1 },
    });
    const left = await desk.office.patch(at).send({ personId: gone.id, expectedVersion: 1 });
    expect([left.status, left.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect((await ofJob(job))[0]).toMatchObject({ version: 1 });
    await desk.cancel(job);
  });
});

describe('doors', () => {
  let given: Assignment;
  let other: Assignment;
  beforeAll(async () => {
    ({ given } = await shortOfFixture());
    ({ given: other } = await shortOfFixture());
  });
  const doors = () => shop;

  firstFour('assignments', doors, {
    method: 'get',
    path: () => '/api/assignments',
    allowed: 'welder',
    malformed: { path: '/api/assignments?jobId=7', field: 'query.jobId' },
  });
  firstFour('give an assignment to another', doors, {
    method: 'patch',
    path: () => `/api/assignments/${given.id}`,
    body: () => ({ dueOn: '2026-10-08', expectedVersion: 1 }),
    allowed: 'qa',
    refused: 'welder',
    malformed: { body: { dueOn: '31 Feb', expectedVersion: 1 }, field: 'body.dueOn' },
  });
  firstFour('clear an assignment', doors, {
    method: 'post',
    path: () => `/api/assignments/${other.id}/clear`,
    body: () => ({ expectedVersion: 1 }),
    allowed: 'office',
    malformed: { body: { note: 'done' }, field: 'body.expectedVersion' },
  });

  it.each([
    ['patch', '', { dueOn: '2026-10-08', expectedVersion: 1 }],
    ['post', '/clear', { expectedVersion: 1 }],
  ] as const)('%s %s names what is not there', async (method, door, sent) => {
    const answer = await desk.office[method](`/api/assignments/${unknownId}${door}`).send(sent);
    expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
  });
});
