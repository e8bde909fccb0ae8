import type { BodyOf, parts, Revision } from '@tackboard/contract';
import type { Agent, TestShop } from './app.js';
import { signedIn } from './signed-in.js';

type StepBody = BodyOf<typeof parts.setSteps>['steps'][number];
type WeldBody = BodyOf<typeof parts.setWelds>['welds'][number];

/** 30 + 10 + quantity x 4 minutes, at a booth, under no procedure. */
export const boothStep: StepBody = {
  number: 1,
  name: 'Weld',
  cellKind: 'booth',
  wpsNumber: null,
  setUpMin: 30,
  firstPieceMin: 10,
  unitMin: 4,
  startStopS: 1.5,
  airMovesS: 0,
  cleaningS: 0,
  loadS: 0,
  massKg: null,
  reachMm: null,
  instructions: '',
  holdPoint: false,
  witnessMin: null,
};

export const fillet: WeldBody = {
  number: 1,
  jointType: 'fillet',
  throatMm: 4,
  legMm: null,
  grooveDepthMm: null,
  holeWidthMm: null,
  preparation: null,
  lengthMm: 500,
  count: 2,
  thicknessAMm: 6,
  thicknessBMm: 6,
  materialA: 'S355J2',
  materialB: 'S355J2',
  materialGroupA: '1.2',
  materialGroupB: '1.2',
  position: 'PB',
  process: '135',
  stepNumber: 1,
  qualityLevel: 'C',
  sizeUnderMm: null,
  sizeOverMm: null,
  notes: '',
};

async function done<T>(answer: PromiseLike<{ status: number; body: T }>): Promise<T> {
  const { status, body } = await answer;
  if (status !== 200) throw new Error(`${status}: ${JSON.stringify(body)}`);
  return body;
}

export async function addCustomer(shop: TestShop, name: string): Promise<{ id: string }> {
  return done((await signedIn(shop, 'office')).post('/api/customers').send({ name }));
}

/** A part with one released revision. */
export async function addReleasedPart(
  shop: TestShop,
  part: { number: string; coded?: boolean; steps?: StepBody[]; welds?: WeldBody[]; label?: string },
): Promise<{ id: string; revision: Revision }> {
  const office = await signedIn(shop, 'office');
  const { number, coded = false } = part;
  const made = await done(
    office.post('/api/parts').send({ number, name: `Part ${number}`, coded }),
  );
  return { id: made.id, revision: await releaseRevision(office, made.id, part) };
}

export async function releaseRevision(
  office: Agent,
  partId: string,
  revision: { steps?: StepBody[]; welds?: WeldBody[]; label?: string },
): Promise<Revision> {
  const { steps = [boothStep], welds = [fillet], label = 'B' } = revision;
  const draft = await done(
    office.post(`/api/parts/${partId}/revisions`).send({ label, drawingNumber: `D-${label}` }),
  );
  const at = `/api/revisions/${draft.id}`;
  const withSteps = await done(
    office.put(`${at}/steps`).send({ expectedVersion: draft.version, steps }),
  );
  const withWelds = await done(
    office.put(`${at}/welds`).send({ expectedVersion: withSteps.version, welds }),
  );
  return done(
    office
      .post(`${at}/release`)
      .send({ expectedVersion: withWelds.version, changeNote: 'checked' }),
  );
}

/** A welder's certificate that holds the fillet above, confirmed on the day of the test shop. */
export async function certify(shop: TestShop, personId: string): Promise<void> {
  const qa = await signedIn(shop, 'qa');
  const coordinator = await signedIn(shop, 'coordinator');
  const certificate = await done(
    qa.post(`/api/people/${personId}/certificates`).send({
      kind: 'welder',
      number: `C-${personId.slice(-6)}`,
      code: 'ISO 9606-1',
      edition: '2017',
      process: '135',
      jointTypes: ['fillet'],
      positions: ['PA', 'PB'],
      thicknessMm: { min: 3, max: null },
      testedOn: '2025-09-01',
      validUntil: '2028-09-01',
    }),
  );
  await done(
    coordinator
      .post(`/api/certificates/${certificate.id}/confirmations`)
      .send({ confirmedOn: '2026-09-01', evidence: 'welded fillets every week' }),
  );
}
