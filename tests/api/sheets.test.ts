import { jobNamedBy, type Job, type Revision, type Wpqr, type Wps } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { shopName, startTestShop, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { unknownId } from '../support/guarded.js';
import { wpsBody } from '../support/procedures.js';
import { readPdf, scanned } from '../support/read-pdf.js';
import { bracketWeld, robotShop, robotStep, type RobotShop } from '../support/robot-shop.js';
import { signedIn, type Who } from '../support/signed-in.js';

const typedName = `O'Neil <b>`;
const foreignLetters = 'Łódź, Größe, façade';
const longWord = 'W'.repeat(300);
const decides =
  'The governing code, the signed record and the responsible welding coordinator decide.';

let shop: TestShop;
let robot: RobotShop;
let job: Job;
let revision: Revision;
let wps: Wps;
let record: Wpqr;

beforeAll(async () => {
  shop = await startTestShop();
  robot = await robotShop(shop);
  const { services } = shop.context;
  job = await robot.job({
    ...{ number: 'X-210-01', coded: true },
    steps: [{ ...robotStep, holdPoint: true, instructions: `${typedName} ${foreignLetters}` }],
    welds: [bracketWeld, { ...bracketWeld, number: 2, throatMm: null, legMm: 6, notes: longWord }],
    setUp: { watchOuts: [`${typedName}: tack z1 first`, foreignLetters] },
  });
  revision = await services.parts.revision(job.revisionId);
  const [listed] = (await services.procedures.list({ state: 'approved' })).wpss;
  wps = await services.procedures.get(listed?.id ?? '');
  record = await services.procedures.wpqr(wps.wpqrIds[0] ?? '');
});
afterAll(async () => shop.close());

const setUpId = () => revision.steps[0]?.setUps[0]?.id ?? '';
interface Door {
  readonly path: () => string;
  readonly unknown: string;
  /** The parameter that names what is printed. */
  readonly param: string;
  readonly title: string;
}
const doors: Readonly<Record<string, Door>> = {
  'WPS sheet': {
    path: () => `/api/wpss/${wps.id}/sheet.pdf`,
    unknown: `/api/wpss/${unknownId}/sheet.pdf`,
    param: 'wpsId',
    title: 'Welding procedure specification',
  },
  'WPQR sheet': {
    path: () => `/api/wpqrs/${record.id}/sheet.pdf`,
    unknown: `/api/wpqrs/${unknownId}/sheet.pdf`,
    param: 'wpqrId',
    title: 'Procedure qualification record',
  },
  'certificates of a person': {
    path: () => `/api/people/${robot.operator.id}/certificates.pdf`,
    unknown: `/api/people/${unknownId}/certificates.pdf`,
    param: 'personId',
    title: 'Certificates of a person',
  },
  traveler: {
    path: () => `/api/jobs/${job.id}/traveler.pdf`,
    unknown: `/api/jobs/${unknownId}/traveler.pdf`,
    param: 'jobId',
    title: 'Traveler',
  },
  dossier: {
    path: () => `/api/jobs/${job.id}/dossier.pdf`,
    unknown: `/api/jobs/${unknownId}/dossier.pdf`,
    param: 'jobId',
    title: 'Job dossier',
  },
  'set-up sheet': {
    path: () => `/api/revisions/${revision.id}/set-ups/${setUpId()}/sheet.pdf`,
    unknown: `/api/revisions/${unknownId}/set-ups/${unknownId}/sheet.pdf`,
    param: 'setUpId',
    title: 'Set-up sheet',
  },
};

async function sheet(path: string, who: Who = 'qa') {
  const answer = await (await signedIn(shop, who)).get(path);
  expect(answer.status, answer.text).toBe(200);
  return readPdf(answer.body as Uint8Array);
}

/** Each of the words, and each after the one before it. */
function expectInOrder(text: string, words: readonly string[]): void {
  let from = 0;
  for (const word of words) {
    const at = text.indexOf(word, from);
    expect(at, `${word} after position ${from} in ${text}`).toBeGreaterThanOrEqual(0);
    from = at + word.length;
  }
}

for (const [name, { path, unknown, param, title }] of Object.entries(doors)) {
  firstFour(name, () => shop, {
    ...{ method: 'get', path, allowed: 'welder' },
    malformed: {
      path: unknown.replaceAll(unknownId, 'none'),
      field: `params.${param}`,
    },
  });

  it(`${name}: an unknown id is answered in words`, async () => {
    const answer = await (await signedIn(shop, 'welder')).get(unknown);
    expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
    expect(answer.body.message).toContain(unknownId);
  });

  it(`${name}: shop, title, page count, who printed and who decides stand on every page`, async () => {
    const { pages } = await sheet(path());
    pages.forEach(({ text, rightmost }, at) => {
      for (const words of [
        ...[shopName, title, `Page ${at + 1} of ${pages.length}`, decides],
        'Printed Mon 5 Oct 2026, 07:00 by Quenna Harrowind (Q02)',
      ])
        expect(text, `page ${at + 1}`).toContain(words);
      expect(rightmost, `page ${at + 1}`).toBeLessThan(0.95);
    });
  });
}

it('is shown in the browser under a name of its own, and the viewer may work', async () => {
  const { headers } = await (await signedIn(shop, 'office')).get(doors.traveler!.path());
  expect(headers['content-type']).toBe('application/pdf');
  expect(headers['content-disposition']).toBe('inline; filename="traveler-1.pdf"');
  expect(headers['cache-control']).toBe('no-store');
  expect(headers['content-security-policy']).toMatch(/^default-src 'none'; object-src 'self'/);
});

it('answers a link that leads nowhere as a sentence to read', async () => {
  const answer = await (
    await signedIn(shop, 'office')
  )
    .get(`/api/jobs/${unknownId}/traveler.pdf`)
    .set('accept', 'text/html,application/xhtml+xml');
  expect(answer.status).toBe(404);
  expect(answer.headers['content-type']).toContain('text/plain');
  expect(answer.text).toBe(`There is no job ${unknownId}.`);
});

describe('the WPS sheet', () => {
  it('memory, headings of ISO 15609-1: has the fields in their order', async () => {
    const { text, pages } = await sheet(doors['WPS sheet']!.path());
    expectInOrder(text, [
      ...['1 Manufacturer', shopName, '2 WPS number', 'WPS-014', 'Revision 1, approved'],
      ...['Approved by Conrad Velleby, Mon 5 Oct 2026, 07:00', '3 Supporting WPQR', record.number],
      ...['4 Base material', '1.1, 1.2', '5 Dimensions', '3 to 12 mm; tested 6 mm'],
      ...['6 Joint design', 'T-joint', 'drawn a 4 mm, z 5.7 mm, 16 mm²', '7 Process', '135'],
      ...['fully mechanised', '8 Position', 'PA, PB', '9 Preparation and backing'],
      ...['clean and dry', '10 Technique', 'Stringer bead', '11 Filler', 'G3Si1'],
      ...['12 Electrical parameters', '230 to 280 A'],
    ]);
    expectInOrder(text, [
      ...['25 to 28 V', '8 to 10 m/min', '13 Mechanised welding', '450 to 600 mm/min'],
      ...['14 Preheat and interpass', 'at most 250 °C', '15 Post-heat', 'not stated'],
      ...['16 Shielding gas', 'M21', '17 Heat input', '0.45 to 0.95 kJ/mm'],
    ]);
    expect(pages.every(({ text: page }) => page.includes('Rev. 1'))).toBe(true);
    expect(text).toContain('Before the arc:');
    expect(text).not.toContain('NOT FOR USE');
    // Eight strips with a band, two limits and the line, and the joint: drawn as lines, so they print sharp.
    const drawn = pages.reduce((sum, { paths }) => sum + paths, 0);
    expect(drawn).toBeGreaterThan(8 * 4);
    expect(pages.every(({ images }) => images === 0)).toBe(true);
  });

  it('marks a draft and a superseded revision on every page', async () => {
    const { procedures } = shop.context.services;
    const draft = await procedures.add(shop.actor('qa'), {
      ...{ ...wpsBody, number: 'WPS-015', technique: `${typedName}\n${longWord}` },
      wpqrIds: [record.id],
    });
    const drafted = await sheet(`/api/wpss/${draft.id}/sheet.pdf`);
    expect(drafted.text).toContain('DRAFT, NOT FOR USE');
    for (const { text } of drafted.pages) expect(text).toContain('DRAFT');
    expect(drafted.text).toContain('Approved by not stated');
    expect(drafted.text.replaceAll(' ', '')).toContain(longWord);
    // The ranges are wider than what the one record covers: the sheet says so as the screen does.
    expect(drafted.text).toContain('Beyond the records behind it');

    await procedures.revise(shop.actor('qa'), wps.id, { changeNote: 'travel narrowed' });
    const next = (await procedures.get(wps.id)).revisions.find(({ state }) => state === 'draft');
    const { version } = await procedures.get(next?.id ?? '');
    await procedures.approve(shop.actor('coordinator'), next?.id ?? '', {
      expectedVersion: version,
    });
    const old = await sheet(`/api/wpss/${wps.id}/sheet.pdf`);
    expect(old.text).toContain('SUPERSEDED, NOT FOR USE');
    for (const { text } of old.pages) expect(text).toContain('SUPERSEDED');
  });
});

it('sums a procedure test up with its results and its printed range', async () => {
  const { text } = await sheet(doors['WPQR sheet']!.path());
  expectInOrder(text, [
    ...[record.number, 'ISO 15614-1:2017', 'Tested on 18 Mar 2024', 'Works examiner'],
    ...['Test piece', 'S355J2, group 1.2', '355 MPa', 'Values of the test', 'Results'],
    ...['Visual passed', 'Range printed on the record', '230 to 280 A'],
  ]);
  expect(text).toContain('This summary does not replace the signed record.');
});

it('lists the certificates of a person with each confirmation', async () => {
  const { text } = await sheet(doors['certificates of a person']!.path());
  expectInOrder(text, [
    ...['Orla Winterbeck, O03', 'Standing as of 5 Oct 2026', 'operator, current'],
    ...['Cell R1', 'Thickness at least 3 mm', 'Confirmed until', 'Confirmed on By Entered'],
    ...['12 Aug 2026 C01 5 Oct 2026', 'jobs of the last six months'],
  ]);
  const none = await sheet(`/api/people/${shop.people.office.id}/certificates.pdf`);
  expect(none.text).toContain('No certificate is on file.');
});

describe('the traveler', () => {
  it('carries steps, cell, quantity, revision, due day, procedure per weld and holds', async () => {
    const { text, pages } = await sheet(doors.traveler!.path());
    expectInOrder(text, [
      ...['Job 1, X-210-01', 'Revision to make B', 'Quantity 12', 'Due Wed 7 Oct 2026'],
      ...['coded: qualified people and procedures', 'Holds', 'Hold point: step 1 Weld'],
      ...['Steps', '1 Weld R1 WPS-014', `Step 1: ${typedName} ${foreignLetters}`, 'Welds'],
      ...['8 x a4 x 120 mm', 'WPS-014', '8 x z6 x 120 mm'],
    ]);
    expect(text.replaceAll(' ', '')).toContain(longWord);
    expect(pages[0]?.text).toContain('Rev. B');
  });

  it('independent, read back by another decoder: its code opens the job', async () => {
    const { pages } = await sheet(doors.traveler!.path());
    const code = scanned(pages[0]?.squares ?? []);
    expect(code).toBe(`/orders/jobs/${job.id}`);
    expect(jobNamedBy(code ?? '')).toEqual({ jobId: job.id });
  });

  it('says large that nothing is made by a cancelled job', async () => {
    const gone = await robot.job({ setUp: null });
    await shop.context.services.orders.cancelJob(shop.actor('office'), gone.id, {
      ...{ reason: 'not wanted any more', expectedVersion: gone.version },
    });
    const { text } = await sheet(`/api/jobs/${gone.id}/traveler.pdf`);
    expect(text).toContain('CANCELLED, MAKE NOTHING BY THIS');
  });
});

describe('the set-up sheet', () => {
  it('has everything to dial, to fit and to watch', async () => {
    const { text } = await sheet(doors['set-up sheet']!.path());
    expectInOrder(text, [
      ...['X-210-01, step 1 Weld at R1', 'Wire speed 9 m/min 8 to 10 m/min', '26.5 V 25 to 28 V'],
      ...['255 A 230 to 280 A', '520 mm/min 450 to 600 mm/min', 'Solid wire 1.2', 'M21'],
    ]);
    for (const words of [
      ...['15 l/min', 'straight neck', 'FX-031', 'B2-3', 'P-143', 'Program revision 4'],
      ...[`${typedName}: tack z1 first`, foreignLetters, 'drawn a 4 mm', 'Before the arc:'],
      // 1.131 mm2 x 9000 x 0.96 / 520 = 18.79 mm2, of which the root is 4.33 mm.
      'The settings lay 18.8 mm², about a 4.3 mm',
    ])
      expect(text).toContain(words);
  });

  it('is refused once another set-up has taken its place', async () => {
    const { parts } = shop.context.services;
    const path = doors['set-up sheet']!.path();
    const step = revision.steps[0]?.id ?? '';
    await parts.freezeSetUp(shop.actor('manager'), step, robot.setUp({ voltageV: 26 }));
    const answer = await (await signedIn(shop, 'qa')).get(path);
    expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
  });
});
