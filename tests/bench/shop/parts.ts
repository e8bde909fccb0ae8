import type { ShopCell } from './base.js';
import type { Dice } from './dice.js';
import type { WriteRow } from './rows.js';

export interface ShopStep {
  readonly id: string;
  readonly number: number;
  readonly cellKind: ShopCell['kind'];
  readonly unitMin: number;
}

export interface ShopPart {
  readonly customerId: string;
  readonly revisionId: string;
  readonly label: string;
  readonly steps: readonly ShopStep[];
}

export interface Making {
  readonly write: WriteRow;
  readonly dice: Dice;
  readonly opened: Date;
  readonly by: string;
  readonly cells: readonly ShopCell[];
}

const range = (min: number, max: number) => ({ min, max });

function ranges(kind: ShopCell['kind']) {
  return {
    process: '135',
    mechanisations: [kind === 'robot' ? 'fullyMechanised' : 'partlyMechanised'],
    ...{ materialGroups: ['1.1', '1.2'], jointTypes: ['fillet'], positions: ['PA', 'PB'] },
    ...{ fillers: ['G3Si1'], gases: ['M21'] },
    ...{ thicknessMm: range(3, 20), throatMm: range(3, 8), wireDiameterMm: range(1.2, 1.2) },
    ...{ currentA: range(200, 300), voltageV: range(24, 30), wireSpeedMMin: range(7, 11) },
    ...{ travelMmMin: range(350, 650), heatInputKjMm: range(0.4, 1.4) },
    ...{ heatInputBasis: 'heatInput', preheatMinC: null, interpassMaxC: 250 },
  };
}

/** Approved procedures and the superseded ones before them; answers the approved numbers by kind of cell. */
function writeProcedures({ write, dice, opened, by }: Making) {
  const numbers = { booth: [] as string[], robot: [] as string[] };
  for (let at = 1; at <= 12; at += 1) {
    const kind = at % 2 === 0 ? 'booth' : 'robot';
    const number = `WPS-${String(at).padStart(3, '0')}`;
    numbers[kind].push(number);
    for (const revision of [1, 2, 3])
      write('Wps', {
        ...{ id: dice.id(opened), number, revision, title: `Fillet, ${kind}` },
        ...{ state: revision === 3 ? 'approved' : 'superseded', code: 'ISO 15614-1' },
        ...{ ranges: ranges(kind), joint: { description: '', preparation: '', runs: 'single' } },
        ...{ writtenBy: by, createdAt: opened, approvedBy: by, approvedAt: opened },
      });
  }
  return numbers;
}

/** One wire and one gas, loaded at every cell. */
function writeConsumables({ write, dice, opened, by, cells }: Making) {
  const items = [
    { kind: 'wire', designation: 'G3Si1', name: 'G3Si1 1.2', wireDiameterMm: 1.2, unit: 'kg' },
    { kind: 'gas', designation: 'M21', name: 'M21', wireDiameterMm: null, unit: 'l' },
  ].map((item) => ({ id: dice.id(opened), ...item }));
  for (const item of items) {
    write('Item', item);
    const lotId = dice.id(opened);
    const amount = item.kind === 'wire' ? 250 : 10_000;
    const lot = { id: lotId, itemId: item.id, number: `L-${item.kind}`, receivedOn: '2023-01-09' };
    write('Lot', { ...lot, receivedAmount: amount * 10, leftAmount: amount * 4 });
    for (const cell of cells)
      write('LotLoad', {
        ...{ id: dice.id(opened), lotId, cellId: cell.id, kind: item.kind, loadedAt: opened },
        ...{ loadedAmount: amount, leftAmount: amount, loadedBy: by },
      });
  }
  const [wire, gas] = items;
  return { wireItemId: wire?.id, gasItemId: gas?.id };
}

/** Parts with one released revision each: welds, steps, and a set-up at every cell that can make the step. */
export function writeParts(making: Making, count: number): ShopPart[] {
  const { write, dice, opened } = making;
  const customers = Array.from({ length: 40 }, (_, at) => {
    const id = dice.id(opened);
    write('Customer', { id, name: `Customer ${at + 1}`, createdAt: opened });
    return id;
  });
  const around = { wps: writeProcedures(making), items: writeConsumables(making) };
  return Array.from({ length: count }, (_, at) => {
    const customerId = dice.of(customers);
    const partId = dice.id(opened);
    const number = `P-${String(at + 1).padStart(5, '0')}`;
    write('Part', { id: partId, number, name: `Bracket ${at + 1}`, customerId, createdAt: opened });
    const alias = { id: dice.id(opened), partId, customerId };
    write('PartAlias', { ...alias, alias: `C ${at + 1}`, aliasKey: `c${at + 1}` });
    const revisionId = dice.id(opened);
    write('Revision', {
      ...{ id: revisionId, partId, label: 'A', drawingNumber: `D-${at + 1}`, state: 'released' },
      ...{ releasedAt: opened, releasedBy: making.by, createdAt: opened },
    });
    const kinds = dice.chance(0.15)
      ? (['booth', 'robot'] as const)
      : [dice.of(['booth', 'robot'] as const)];
    const steps = kinds.map((kind, step) =>
      writeStep(making, { ...around, revisionId, kind, number: step + 1, fixture: number }),
    );
    return { customerId, revisionId, label: 'A', steps };
  });
}

interface StepToWrite {
  readonly revisionId: string;
  readonly kind: ShopCell['kind'];
  readonly number: number;
  readonly fixture: string;
  readonly wps: ReturnType<typeof writeProcedures>;
  readonly items: ReturnType<typeof writeConsumables>;
}

function writeStep({ write, dice, opened, by, cells }: Making, step: StepToWrite): ShopStep {
  const { revisionId, kind, number } = step;
  const id = dice.id(opened);
  const unitMin = dice.whole(2, 12);
  write('Step', {
    ...{ id, revisionId, number, name: `Weld ${number}`, cellKind: kind },
    ...{ wpsNumber: dice.of(step.wps[kind]), setUpMin: dice.whole(10, 40), firstPieceMin: 8 },
    ...{ unitMin, airMovesS: 12, loadS: 30 },
  });
  for (let weld = dice.whole(3, 8); weld >= 1; weld -= 1)
    write('Weld', {
      ...{ id: dice.id(opened), revisionId, number: number * 10 + weld, jointType: 'fillet' },
      ...{ throatMm: dice.whole(3, 5), lengthMm: dice.whole(40, 600), count: dice.whole(1, 2) },
      ...{ thicknessAMm: dice.whole(4, 12), thicknessBMm: dice.whole(4, 12), stepNumber: number },
      ...{ materialGroupA: '1.2', materialGroupB: '1.2', materialA: 'S355', materialB: 'S355' },
      ...{ position: dice.of(['PA', 'PB']), process: '135' },
    });
  const fixtureId = dice.id(opened);
  const code = `F-${step.fixture}-${number}`;
  write('Fixture', { id: fixtureId, code, place: `Rack ${dice.whole(1, 40)}` });
  for (const cell of cells.filter((each) => each.kind === kind)) {
    const programId = kind === 'robot' ? dice.id(opened) : null;
    if (programId !== null)
      write('Program', {
        ...{ id: programId, name: code, revision: '1', cellId: cell.id, author: 'programmer' },
        ...{ writtenOn: '2023-01-09', backupPlace: 'file server' },
      });
    write('SetUp', {
      ...{ id: dice.id(opened), stepId: id, cellId: cell.id, ...step.items, torch: 'gas-cooled' },
      mechanisation: kind === 'robot' ? 'fullyMechanised' : 'partlyMechanised',
      ...{ currentA: 255, voltageV: 27, wireSpeedMMin: 9, travelMmMin: 480, gasFlowLMin: 14 },
      ...{ contactTipMm: 16, programId, programRevision: programId === null ? null : '1' },
      ...{ fixtureId, watchOuts: ['Tack both ends first'], photos: [] },
      ...{ frozenAt: opened, frozenBy: by },
    });
  }
  return { id, number, cellKind: kind, unitMin };
}
