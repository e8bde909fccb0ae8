import { systemActor, type Actor } from '@tackboard/api';
import type { BodyOf, Job, parts, Person, procedures, Role, WpsRanges } from '@tackboard/contract';
import { testPassword, type TestShop } from './app.js';
import { wpqrBody, wpsBody } from './procedures.js';
import { addCustomer, boothStep, fillet } from './repeat-part.js';

type StepBody = BodyOf<typeof parts.setSteps>['steps'][number];
type WeldBody = BodyOf<typeof parts.setWelds>['welds'][number];
type SetUpBody = BodyOf<typeof parts.freezeSetUp>;

/** An invented fillet procedure for the robot: t 3 to 12 mm, a 3 to 6 mm. */
const robotRanges: WpsRanges = {
  process: '135',
  mechanisations: ['fullyMechanised'],
  materialGroups: ['1.1', '1.2'],
  jointTypes: ['fillet'],
  positions: ['PA', 'PB'],
  fillers: ['G3Si1'],
  gases: ['M21'],
  thicknessMm: { min: 3, max: 12 },
  throatMm: { min: 3, max: 6 },
  wireDiameterMm: { min: 1.2, max: 1.2 },
  currentA: { min: 230, max: 280 },
  voltageV: { min: 25, max: 28 },
  wireSpeedMMin: { min: 8, max: 10 },
  travelMmMin: { min: 450, max: 600 },
  heatInputKjMm: { min: 0.45, max: 0.95 },
  heatInputBasis: 'heatInput',
  preheatMinC: null,
  interpassMaxC: 250,
};

/** Eight fillets of 120 mm: 960 mm of weld. */
export const bracketWeld: WeldBody = { ...fillet, lengthMm: 120, count: 8 };

export const robotStep: StepBody = {
  ...boothStep,
  cellKind: 'robot',
  wpsNumber: 'WPS-014',
  setUpMin: 25,
  firstPieceMin: 15,
  unitMin: 4.23,
  airMovesS: 30,
  cleaningS: 6,
  loadS: 95,
};

export interface RobotShop {
  readonly shop: TestShop;
  /** Holds an operator's certificate for R1 that is confirmed. */
  readonly operator: Person;
  readonly wireItemId: string;
  readonly gasItemId: string;
  readonly programId: string;
  readonly fixtureId: string;
  setUp(changes?: Partial<SetUpBody>): SetUpBody;
  addPerson(code: string, name: string, role?: Role): Promise<Person>;
  by(person: Person): Actor;
  /** A job of a part of its own, its set-up kept at R1 unless told otherwise. */
  job(options?: JobOptions): Promise<Job>;
}

interface JobOptions {
  readonly number?: string;
  readonly coded?: boolean;
  readonly twoPersons?: boolean;
  readonly steps?: StepBody[];
  readonly welds?: WeldBody[];
  readonly quantity?: number;
  readonly dueOn?: string;
  readonly setUp?: Partial<SetUpBody> | null;
}

/** A shop with one robot that is ready to weld: procedure, wire, gas, program, fixture, operator. */
export async function robotShop(shop: TestShop): Promise<RobotShop> {
  const { context, people, cells } = shop;
  const { services } = context;
  const by = (person: Person): Actor => ({ ...systemActor, person });
  const manager = by(people.manager);
  const customer = await addCustomer(shop, 'Nordhang Conveyors');
  await approveWps(shop, { number: 'WPS-014', ranges: robotRanges });
  const { wireItemId, gasItemId } = await loadCell(shop, cells.R1.id);
  const fixture = await services.parts.addFixture(manager, {
    code: 'FX-031',
    place: 'B2-3',
    condition: 'good',
    notes: '',
    lastCheckOn: null,
  });
  const program = await services.parts.addProgram(manager, {
    name: 'P-143',
    revision: '4',
    cellId: cells.R1.id,
    author: 'O03',
    writtenOn: '2026-03-01',
    backupPlace: 'shelf 2',
    notes: '',
  });
  const setUp = (changes: Partial<SetUpBody> = {}): SetUpBody => ({
    cellId: cells.R1.id,
    wireItemId,
    gasItemId,
    torch: 'straight neck',
    mechanisation: 'fullyMechanised',
    currentA: 255,
    voltageV: 26.5,
    wireSpeedMMin: 9,
    travelMmMin: 520,
    gasFlowLMin: 15,
    contactTipMm: 15,
    preheatC: null,
    programId: program.id,
    programRevision: '4',
    fixtureId: fixture.id,
    watchOuts: [],
    ...changes,
  });
  const addPerson = async (code: string, name: string, role: Role = 'welder') => {
    const person = await services.people.add(manager, {
      ...{ code, name, role, coordinator: false, language: 'en' },
    });
    await services.people.setPassword(manager, person.id, testPassword);
    return person;
  };
  const operator = await addPerson('O03', 'Orla Winterbeck');
  await certifyOperator(shop, operator, { cellId: cells.R1.id, confirmedOn: '2026-08-12' });
  let serial = 0;
  return {
    ...{ shop, operator, wireItemId, gasItemId, setUp, addPerson, by },
    ...{ programId: program.id, fixtureId: fixture.id },
    async job(options = {}) {
      const { number = `X-${(serial += 1)}`, coded = false, quantity = 12 } = options;
      const { twoPersons = false } = options;
      const { steps = [robotStep], welds = [bracketWeld], dueOn = '2026-10-07' } = options;
      const part = await services.parts.add(manager, {
        ...{ number, name: 'Bracket', coded, customerId: customer.id },
        ...{ traceability: 'batch', returnChance: 'maybe', twoPersons, notes: '' },
        ...{ outsideWork: '', outsideDays: 0 },
      });
      const draft = await services.parts.addRevision(manager, part.id, {
        ...{ label: 'B', drawingNumber: `D-${number}`, drawingPrint: null },
        ...{ copyFromRevisionId: null, changeNote: '' },
      });
      const withSteps = await services.parts.setSteps(manager, draft.id, {
        ...{ expectedVersion: draft.version, steps },
      });
      const withWelds = await services.parts.setWelds(manager, draft.id, {
        ...{ expectedVersion: withSteps.version, welds },
      });
      const revision = await services.parts.releaseRevision(manager, draft.id, {
        ...{ expectedVersion: withWelds.version, changeNote: 'checked' },
      });
      const robot = revision.steps.find(({ cellKind }) => cellKind === 'robot');
      if (robot && options.setUp !== null) {
        await services.parts.freezeSetUp(manager, robot.id, setUp(options.setUp));
      }
      const order = await services.orders.add(manager, {
        ...{ customerId: customer.id, customerOrder: '4711', entryMs: 42_000 },
        lines: [
          {
            ...{ partId: part.id, orderedRevision: 'B', quantity, dueOn },
            ...{
              pastDueReason: null,
              drawingPrint: null,
              quantityConfirmed: true,
              partConfirmed: true,
              cells: [],
            },
          },
        ],
      });
      const [job] = order.jobs;
      if (job === undefined) throw new Error('The order has no job.');
      return job;
    },
  };
}

export async function approveWps(
  { context, people }: TestShop,
  wps: { number: string; ranges: WpsRanges },
): Promise<void> {
  const { procedures: service } = context.services;
  const by = (person: Person): Actor => ({ ...systemActor, person });
  const record: BodyOf<typeof procedures.addWpqr> = {
    ...wpqrBody,
    number: `PQ-${wps.number}`,
    mechanisation: wps.ranges.mechanisations[0] ?? 'manual',
    testedValues: {
      ...wpqrBody.testedValues,
      ...{ currentA: null, voltageV: null, wireSpeedMMin: null, travelMmMin: null },
      ...{ heatInputKjMm: null, preheatC: null, interpassC: null },
    },
    ranges: wps.ranges,
  };
  const { id: wpqrId } = await service.addWpqr(by(people.qa), record);
  const draft = await service.add(by(people.qa), { ...wpsBody, ...wps, wpqrIds: [wpqrId] });
  await service.approve(by(people.coordinator), draft.id, { expectedVersion: draft.version });
}

/** Wire and gas as the procedure asks, loaded at the cell: 15 kg on the feeder. */
async function loadCell(shop: TestShop, cellId: string) {
  const { consumables } = shop.context.services;
  const manager = shop.actor('manager');
  const wire = await consumables.addItem(manager, {
    ...{ kind: 'wire', designation: 'G3Si1', name: 'Solid wire 1.2', wireDiameterMm: 1.2 },
    unit: 'kg',
  });
  const gas = await consumables.addItem(manager, {
    ...{ kind: 'gas', designation: 'M21', name: 'Mixed gas', wireDiameterMm: null, unit: 'l' },
  });
  for (const [itemId, number, amount] of [
    [wire.id, 'L-77', 15],
    [gas.id, 'G-201', 9000],
  ] as const) {
    const lot = await consumables.addLot(manager, {
      ...{ itemId, number, receivedOn: '2026-09-01', certificate: `3.1 ${number}` },
      receivedAmount: amount * 10,
    });
    await consumables.load(manager, cellId, { lotId: lot.id, amount });
  }
  return { wireItemId: wire.id, gasItemId: gas.id };
}

export async function certifyOperator(
  shop: TestShop,
  person: Person,
  at: { cellId: string; confirmedOn: string | null },
): Promise<void> {
  await certifyAs(shop, person, { kind: 'operator', cellId: at.cellId }, at.confirmedOn);
}

export async function certifyWelder(
  shop: TestShop,
  person: Person,
  ranges: { positions?: string[]; confirmedOn?: string } = {},
): Promise<void> {
  const { positions = ['PA', 'PB'], confirmedOn = '2026-07-02' } = ranges;
  await certifyAs(shop, person, { kind: 'welder', cellId: null, positions }, confirmedOn);
}

async function certifyAs(
  shop: TestShop,
  person: Person,
  as: { kind: 'welder' | 'operator'; cellId: string | null; positions?: string[] },
  confirmedOn: string | null,
): Promise<void> {
  const { people } = shop.context.services;
  const { positions = ['PA', 'PB'], kind, cellId } = as;
  const number = `C-${person.code}${cellId === null ? '' : `-${cellId.slice(-6)}`}`;
  const certificate = await people.addCertificate(shop.actor('qa'), person.id, {
    ...{ kind, number, process: '135', cellId },
    ...(kind === 'welder'
      ? { code: 'ISO 9606-1', edition: '2012' }
      : { code: 'ISO 14732', edition: '2013' }),
    ...{ jointTypes: ['fillet'], positions, materialGroups: [], fillerGroups: [] },
    ...{ thicknessMm: { min: 3, max: null }, diameterMm: null, testedOn: '2025-09-01' },
    ...{ validUntil: '2028-09-01', renewalRoute: null, examiner: null },
    functionTestOn: kind === 'welder' ? null : '2025-09-01',
  });
  if (confirmedOn === null) return;
  await people.confirmCertificate(shop.actor('coordinator'), certificate.id, {
    ...{ confirmedOn, evidence: 'jobs of the last six months' },
  });
}
