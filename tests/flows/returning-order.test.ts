import type { CellView, Job, OrderCheck, Place } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { monday, startTestShop, type TestShop } from '../support/app.js';
import { openBracketShop, type BracketShop } from '../support/bracket-shop.js';
import { finishRun } from '../support/make-batch.js';
import { addReleasedPart, boothStep } from '../support/repeat-part.js';
import { bracketWeld, certifyWelder, robotStep } from '../support/robot-shop.js';

// The shop, its part and its numbers are invented; what follows from them is worked out beside each check.
let shop: TestShop;
let desk: BracketShop;

beforeAll(async () => {
  shop = await startTestShop();
  desk = await openBracketShop(shop);
});
afterAll(async () => shop.close());

const note = (check: OrderCheck, topic: string) =>
  check.notes.find((each) => each.topic === topic)?.text ?? '';

/** Minutes of work that a place leaves on its last day, by the clock of the shop (UTC+2 in October). */
function finishOf(place: Place | undefined) {
  const at = new Date(place?.finishAt ?? '');
  const clockMin = (at.getUTCHours() + 2) * 60 + at.getUTCMinutes() + at.getUTCSeconds() / 60 - 420;
  return { on: place?.finishOn, workMin: Math.round(clockMin * (450 / 480) * 0.8) };
}

describe('the bracket comes back', () => {
  it('says unchanged, what is ready, 90.8 minutes and where it goes', async () => {
    const check = await desk.check();
    expect(check).toMatchObject({ revisionState: 'unchanged', lastMade: '2026-03-14' });
    expect(note(check, 'revision')).toBe('unchanged since 14 Mar 2026');
    // 25 + 15 + 12 x 253.8 s = 90.8 min
    expect(check.cells).toMatchObject([
      { cellCode: 'R1', plannedMin: 90.8, basis: 'calculation', runs: 1 },
    ]);
    expect(note(check, 'fixture')).toBe('step 1: FX-031 at B2-3, good');
    expect(note(check, 'program')).toBe('step 1: P-143 revision 4, backup at shelf 2');
    expect(note(check, 'fit')).toMatch(/^step 1: All welds fit WPS-014 r\d$/);
    expect(note(check, 'people')).toContain('O03 Orla Winterbeck holds');
    // 110.8 s x 9 m/min x 8.88 g/m = 147.5 g each, 1.77 kg; (110.8 + 8) s x 15 l/min = 29.7 l each, 356 l
    expect(note(check, 'wire')).toMatch(/: 1\.77 kg needed, 13\.2\d kg on the feeder$/);
    expect(note(check, 'gas')).toContain(': 356 l needed,');
    expect(check.notes.filter(({ state }) => state !== 'ok')).toEqual([]);
    expect(check.places[0]).toMatchObject({ cellCode: 'R1', chosen: true, displaces: [] });
    const job = await desk.take(desk.customers.alder);
    expect(job.steps).toMatchObject([{ cellCode: 'R1', state: 'waiting', plannedMin: 90.8 }]);
    await desk.cancel(job);
  });

  it('waits for the comparison where another revision is ordered', async () => {
    expect(await desk.check({ orderedRevision: 'C' })).toMatchObject({
      revisionState: 'different',
    });
    const job = await desk.take(desk.customers.alder, { orderedRevision: 'C' });
    expect(job).toMatchObject({
      ...{ released: false },
      holdReason: 'revision B made last, C ordered: compare before release',
    });
    const operator = await desk.operator();
    const pull = `/api/cells/${shop.cells.R1.id}/pull`;
    const refused = await operator.post(pull).send({ jobStepId: job.steps[0]?.id });
    expect([refused.status, refused.body.message]).toEqual([
      409,
      expect.stringContaining('not released'),
    ]);
    const coordinator = await shop.as('coordinator');
    const released = await coordinator
      .post(`/api/jobs/${job.id}/release`)
      .send({ changeNote: 'hole moved, welds same', expectedVersion: job.version });
    expect(released.body).toMatchObject({ released: true });
    await desk.cancel(job);
  });

  it('waits for the comparison where the same revision comes as a different file', async () => {
    const { parts } = shop.context.services;
    const { id, revision } = await addReleasedPart(shop, { number: 'X-212' });
    const draft = await parts.addRevision(shop.actor('manager'), id, {
      ...{ label: 'D', drawingNumber: 'D-1', drawingPrint: 'A1F0', changeNote: 'print kept' },
      copyFromRevisionId: revision.id,
    });
    const released = { expectedVersion: draft.version, changeNote: 'checked' };
    const asked = { partId: id, orderedRevision: 'D' };
    await parts.releaseRevision(shop.actor('manager'), draft.id, released);
    // Without a file nothing can differ, and the very same file does not.
    for (const drawingPrint of [null, 'a1f0'])
      expect(await desk.check({ ...asked, drawingPrint })).toMatchObject({
        revisionState: 'firstTime',
      });
    const other = { ...asked, drawingPrint: 'b2e9' };
    const words = 'same revision D, different file: compare before release';
    expect(note(await desk.check(other), 'revision')).toBe(words);
    const job = await desk.take(desk.customers.alder, other);
    expect(job).toMatchObject({ released: false, holdReason: words });
    const coordinator = await shop.as('coordinator');
    const signed = { changeNote: 'file saved anew, nothing moved', expectedVersion: job.version };
    const answer = await coordinator.post(`/api/jobs/${job.id}/release`).send(signed);
    expect(answer.body).toMatchObject({ released: true, revision: 'D' });
    await desk.cancel(job);
  });

  it('is found by the name another customer has for it', async () => {
    const named = { alias: 'Y-88', customerId: desk.customers.birch };
    await desk.office.post(`/api/parts/${desk.bracket.id}/aliases`).send(named).expect(200);
    const { parts } = (await desk.office.get('/api/parts?search=y-88')).body;
    expect(parts).toMatchObject([{ number: 'X-210-01', aliases: ['Y-88'] }]);
    const { lastMade } = (await desk.office.get(`/api/parts/${desk.bracket.id}`)).body;
    expect(lastMade).toMatchObject([{ customerName: 'Alder', on: '2026-03-14', quantity: 12 }]);
  });

  it('takes three measured runs of the step over the calculation', async () => {
    const step = { ...boothStep, unitMin: 9.5 };
    await certifyWelder(shop, shop.people.welder);
    const welder = await shop.as('welder');
    const { id } = await addReleasedPart(shop, { number: 'H-1', steps: [step] });
    for (const minutes of [50, 60, 70]) {
      const job = await desk.take(desk.customers.cedar, { partId: id, quantity: 10 });
      const pulled = await welder
        .post(`/api/cells/${shop.cells.M1.id}/pull`)
        .send({ jobStepId: job.steps[0]?.id });
      expect(pulled.status, pulled.body.message).toBe(200);
      shop.clock.set(new Date(Date.parse(monday) + minutes * 60_000).toISOString());
      await finishRun(welder, pulled.body.run.id, 10);
      shop.clock.set(monday);
    }
    // 5, 6 and 7 min a part: median 6, middle four fifths 5.2 to 6.8; 40 min before, 12 parts
    expect((await desk.check({ partId: id })).cells).toMatchObject([
      { basis: 'history', runs: 3, plannedMin: 112, lowMin: 102.4, highMin: 121.6 },
    ]);
  });

  it('asks whether the part of one customer is what another orders, once, and shows what both had', async () => {
    const { alder, birch } = desk.customers;
    const { id } = await addReleasedPart(shop, { number: 'X-213' });
    const { version } = (await desk.office.get(`/api/parts/${id}`)).body;
    const keep = { customerId: alder, expectedVersion: version };
    await desk.office.patch(`/api/parts/${id}`).send(keep).expect(200);
    const asks = async (customerId: string | null) =>
      (await desk.check({ partId: id, customerId })).questions.map(({ field }) => field);
    expect([await asks(null), await asks(alder), await asks(birch)]).toEqual([[], [], ['partId']]);
    const refused = await desk.send(birch, { partId: id });
    expect([refused.status, refused.body.code]).toEqual([422, 'NEEDS_CONFIRMATION']);
    expect(refused.body.fields[0].field).toBe('body.lines.0.partId');
    expect(refused.body.message).toContain('X-213 is kept for Alder');
    const jobs = [
      await desk.take(alder, { partId: id }),
      await desk.take(birch, { partId: id, partConfirmed: true }),
    ];
    expect(await asks(birch)).toEqual([]);
    const welder = await shop.as('welder');
    for (const { steps } of jobs) {
      const pull = `/api/cells/${shop.cells.M1.id}/pull`;
      const { body } = await welder.post(pull).send({ jobStepId: steps[0]?.id }).expect(200);
      await finishRun(welder, body.run.id, 12);
    }
    const { lastMade } = (await desk.office.get(`/api/parts/${id}`)).body;
    expect(lastMade.map((each: { customerName: string }) => each.customerName).toSorted()).toEqual([
      'Alder',
      'Birch',
    ]);
  });
});

describe('places in a run queue', () => {
  let waiting: Job[];
  beforeAll(async () => {
    waiting = [
      await desk.take(desk.customers.birch, {
        ...{ partId: await desk.filler('F-250', 250), quantity: 1, dueOn: '2026-10-05' },
      }),
      await desk.take(desk.customers.cedar, {
        ...{ partId: await desk.filler('F-185', 185), quantity: 1, dueOn: '2026-10-06' },
      }),
    ];
  });
  afterAll(async () => {
    for (const job of waiting) await desk.cancel(job);
  });

  it('ends on Tuesday after 166 of 360 minutes behind 250 and 185, in time and at nobody’s cost', async () => {
    const { places, promise } = await desk.check();
    // 250 + 185 + 90.8 = 525.8 = 360 + 165.8
    expect(finishOf(places[0])).toEqual({ on: '2026-10-06', workMin: 166 });
    expect(places[0]).toMatchObject({ beforeStepId: null, displaces: [] });
    expect(places[0]?.spareMin).toBeGreaterThan(1440);
    expect(promise.text).toMatch(/^Tue 6 Oct 2026, morning, 1\.\d days spare;/);
  });

  it('names every customer that a rush job in front makes later, before it is taken', async () => {
    const bracket = await desk.take(desk.customers.alder);
    const rush = await desk.filler('F-300', 300);
    const asked = { partId: rush, quantity: 1, dueOn: '2026-10-05' };
    const { places } = await desk.check(asked);
    const end = places.find(({ beforeStepId }) => beforeStepId === null);
    expect(end?.spareMin).toBeLessThan(0);
    const front = places.find(({ beforeJobNumber }) => beforeJobNumber === waiting[0]?.number);
    expect(finishOf(front)).toEqual({ on: '2026-10-05', workMin: 300 });
    const displaced = new Map(front?.displaces.map((each) => [each.customerName, each]));
    expect([...displaced.keys()].toSorted()).toEqual(['Alder', 'Birch', 'Cedar']);
    // 300 + 250 ends on Tuesday, past Monday; 735 on Wednesday, past Tuesday; 825.8 still on Wednesday.
    expect(displaced.get('Birch')?.lateJobNumbers).toEqual([waiting[0]?.number]);
    expect(displaced.get('Cedar')?.lateJobNumbers).toEqual([waiting[1]?.number]);
    expect(displaced.get('Alder')?.lateJobNumbers).toEqual([]);

    const cells = [
      { stepNumber: 1, cellId: shop.cells.R1.id, beforeStepId: front?.beforeStepId ?? null },
    ];
    const taken = await desk.take(desk.customers.cedar, { ...asked, cells });
    const lane = await desk.lane('R1');
    expect(lane.steps[0]).toMatchObject({ jobId: taken.id });
    // The bracket is now behind 735: 825.8 = 2 x 360 + 105.8, Wednesday after 106.
    const { jobs } = (await desk.office.get('/api/late-jobs')).body;
    expect(jobs.map(({ number }: Job) => number).toSorted()).toEqual(
      waiting.map(({ number }) => number),
    );
    const { promise } = (await desk.office.get(`/api/jobs/${bracket.id}/readiness`)).body;
    expect(finishOf({ finishAt: promise.finishAt } as Place).workMin).toBe(106);
    expect(promise.text).toMatch(/^Wed 7 Oct 2026, morning, 0\.\d days spare;/);
    await desk.cancel(taken);
    await desk.cancel(bracket);
  });

  it('refuses a place before a step that has left the queue, and keeps the queue', async () => {
    const gone = await desk.take(desk.customers.alder);
    await desk.cancel(gone);
    const before = (await desk.lane('R1')).steps.map(({ id }) => id);
    const beforeStepId = gone.steps[0]?.id ?? '';
    const cells = [{ stepNumber: 1, cellId: shop.cells.R1.id, beforeStepId }];
    const answer = await desk.send(desk.customers.alder, { cells });
    expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
    expect(answer.body.fields[0].field).toBe('body.lines.0.cells.0.beforeStepId');
    expect((await desk.lane('R1')).steps.map(({ id }) => id)).toEqual(before);
  });
});

describe('robot or booth', () => {
  it('chooses the robot from 4 parts on where the program is proven', async () => {
    await addWay(desk.bracket.id, { ...boothStep, setUpMin: 20, firstPieceMin: 0, unitMin: 9.5 });
    const { robotOrBooth } = await desk.check();
    // 40 + 12 x 4.229 = 90.8 against 20 + 12 x 9.5 = 134; 20 / (9.5 - 4.229) = 3.8, so 4
    expect(robotOrBooth).toMatchObject({ better: 'robot', breakEvenParts: 4, boothMin: 134 });
    expect(robotOrBooth?.robotMin).toBeCloseTo(90.8, 1);
    expect(robotOrBooth?.text).toContain('counted as one batch');
  });

  it('chooses the booth at 12 parts where programming takes 150 minutes, and says from which batch on not', async () => {
    const { id } = await addReleasedPart(shop, {
      ...{ number: 'X-211', steps: [robotStep], welds: [bracketWeld], label: 'B' },
    });
    await addWay(id, { ...boothStep, setUpMin: 20, firstPieceMin: 0, unitMin: 9.5 });
    const asked = { partId: id, programmingMin: 150 };
    const { robotOrBooth } = await desk.check(asked);
    // (20 + 150) / 5.27 = 32.3, so 33; (20 + 150 / 4) / 5.27 = 10.9, so 12 parts pay from 4 batches on
    expect(robotOrBooth).toMatchObject({ better: 'booth', breakEvenParts: 33 });
    expect(robotOrBooth?.text).toContain('or from 4 batches of 12');
    const unsaid = (await desk.check({ partId: id })).robotOrBooth;
    expect(unsaid).toMatchObject({ better: 'cannotSay', robotMin: null, asksProgramming: true });
    expect(unsaid?.text).toContain('the minutes to program it');
  });

  /** The other way to make a part stands in a draft revision. */
  async function addWay(partId: string, step: typeof boothStep): Promise<void> {
    const { office } = desk;
    const draft = (
      await office.post(`/api/parts/${partId}/revisions`).send({ label: 'M', drawingNumber: 'D-M' })
    ).body;
    await office
      .put(`/api/revisions/${draft.id}/steps`)
      .send({ expectedVersion: draft.version, steps: [step] })
      .expect(200);
  }
});

describe('wire, quantity and date', () => {
  it('has wire for 12 and not for 27 with 3.2 kg on the feeder', async () => {
    const { consumables } = shop.context.services;
    const { lots } = await consumables.lots();
    const lotId = lots.find(({ kind }) => kind === 'wire')?.id ?? '';
    await consumables.load(shop.actor('manager'), shop.cells.R1.id, { lotId, amount: 3.2 });
    expect(note(await desk.check(), 'wire')).toContain('1.77 kg needed, 3.20 kg on the feeder');
    // 27 x 147.5 g = 3.98 kg; 3.2 kg are good for 21 parts, so the spool is changed at part 22.
    const both = await desk.check({ quantity: 27, quantityConfirmed: true });
    // The rest lies in store: a change of the spool that the welder makes, and nobody's errand.
    expect(both.notes.find(({ topic }) => topic === 'wire')).toMatchObject({ state: 'ok' });
    expect(note(both, 'wire')).toContain('3.98 kg needed, 3.20 kg on the feeder');
    expect(note(both, 'wire')).toContain('the spool is changed at part 22');
  });

  it.each([0, -3, 12.5])('refuses a quantity of %j in words', async (quantity) => {
    const answer = await desk.send(desk.customers.alder, { quantity });
    expect([answer.status, answer.body.fields[0].field]).toEqual([400, 'body.lines.0.quantity']);
  });

  it('asks about 1200 where 12 are usual', async () => {
    const { questions } = await desk.check({ quantity: 1200 });
    expect(questions[0]?.text).toContain('100 times the usual 12?');
  });

  it('asks about a date that has passed, refuses one that is none, and reads a date back', async () => {
    const past = await desk.check({ dueOn: '2026-10-02' });
    expect(past.questions.map(({ field }) => field)).toEqual(['pastDueReason']);
    const none = await desk.send(desk.customers.alder, { dueOn: '2026-02-31' });
    expect([none.status, none.body.fields[0].field]).toEqual([400, 'body.lines.0.dueOn']);
    expect((await desk.check({ dueOn: '2026-10-05' })).dueEcho).toBe('Mon 5 Oct 2026');
  });
});

describe('torch', () => {
  it('is refused a place where its rating does not carry the current at the duty of the cycle', async () => {
    const { cells, parts } = shop.context.services;
    const manager = shop.actor('manager');
    const { processes, sourceRatingA, sourceRatingPct, torchRatingGas } = shop.cells.R1;
    const twoStations = {
      ...{ processes, sourceRatingA, sourceRatingPct, torchRatingGas, stations: 2 },
      ...{ kind: 'robot' as const, name: 'Robot, two stations', travelUnit: 'mm/min' as const },
      ...{ mechanisation: 'fullyMechanised' as const, reachMm: null, loadKg: null },
      ...{ planningFactor: 0.8, gasLossFactor: 1, extraction: '' },
    };
    const small = { torchRatingA: 250, torchRatingPct: 60, torchMaxA: 300 };
    const added = [
      await cells.add(manager, {
        ...{ ...twoStations, code: 'R2', torchRatingA: 450, torchRatingPct: 100, torchMaxA: 450 },
      }),
      await cells.add(manager, { ...twoStations, ...small, code: 'R3' }),
    ];
    const stepId = desk.bracket.revision.steps[0]?.id ?? '';
    for (const { id } of added) {
      await parts.freezeSetUp(manager, stepId, desk.robot.setUp({ cellId: id, programId: null }));
    }
    const torchAt = async (cellId: string) =>
      (await desk.check({ cells: [{ stepNumber: 1, cellId, beforeStepId: null }] })).notes.find(
        ({ topic }) => topic === 'torch',
      );
    const [r2, r3] = added.map(({ id }) => id);
    // Two stations: 110.8 s of arc in 158.8 s, 69.8 %; 250 A x sqrt(60 / 69.8) = 231.8 A
    expect(await torchAt(r2 ?? '')).toMatchObject({ state: 'ok' });
    expect(await torchAt(r3 ?? '')).toMatchObject({ state: 'stop', clearedBy: 'coordinator' });
    expect((await torchAt(r3 ?? ''))?.text).toMatch(/carries 23\d A at a duty of (69|70)\.\d %/);
  });
});

describe('pull', () => {
  it('hands out the first ready job and says why the one before it was passed over', async () => {
    const partId = (await addReleasedPart(shop, { number: 'K-1' })).id;
    const first = await desk.take(desk.customers.alder, { partId });
    const second = await desk.take(desk.customers.birch, { partId });
    const welder = await shop.as('welder');
    await welder
      .post(`/api/job-steps/${first.steps[0]?.id}/kit`)
      .send({ complete: false })
      .expect(200);
    const at = `/api/cells/${shop.cells.M1.id}`;
    const view: CellView = (await welder.get(`${at}/view`)).body;
    expect(view.passedOver).toMatchObject([
      { jobNumber: first.number, text: expect.stringContaining('kit is not complete') },
    ]);
    const pulled = await welder.post(`${at}/pull`).send({ jobStepId: null });
    expect(pulled.body.run).toMatchObject({ jobNumber: second.number });
  });
});
