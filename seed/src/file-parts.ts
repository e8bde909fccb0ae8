import { demoCustomers, demoFamilies } from './shop/families.js';
import {
  demoProgramRevision,
  stepsOf,
  weldsOf,
  type DemoFamily,
  type DemoSetUp,
} from './shop/parts.js';
import { photographSetUp } from './photos.js';
import { by, got, type ShopFile } from './shop-file.js';

/** The part that the pictures of its set-up are drawn for. */
const photographed = 'X-210-01';

/** Customers, fixtures, programs and the parts with their weld lists, released as revision B after A. */
export async function fileParts(shop: ShopFile): Promise<void> {
  const { services } = shop.context;
  for (const name of demoCustomers)
    shop.customers.set(name, (await services.parts.addCustomer(by(shop, 'S02'), { name })).id);
  for (const family of demoFamilies) {
    const tools = await fileTools(shop, family);
    for (const variant of family.variants) await fileVariant(shop, family, variant, tools);
  }
}

interface Tools {
  readonly fixtureId: string | null;
  readonly programId: string | null;
}

async function fileTools(shop: ShopFile, family: DemoFamily): Promise<Tools> {
  const { services } = shop.context;
  const fixture =
    family.fixture === null
      ? null
      : await services.parts.addFixture(by(shop, 'S02'), {
          code: family.fixture[0],
          place: family.fixture[1],
          condition: 'good',
          notes: '',
          lastCheckOn: null,
        });
  const program =
    family.kind === 'booth'
      ? null
      : await services.parts.addProgram(by(shop, 'O03'), {
          name: `P-${family.number.replace(/\D/g, '')}`,
          revision: demoProgramRevision,
          cellId: got(shop.cells, family.setUp.cell).id,
          author: 'O03',
          writtenOn: shop.days.plus(shop.days.today, -400),
          backupPlace: 'Office share, folder programs',
          notes: '',
        });
  return { fixtureId: fixture?.id ?? null, programId: program?.id ?? null };
}

async function fileVariant(
  shop: ShopFile,
  family: DemoFamily,
  variant: DemoFamily['variants'][number],
  tools: Tools,
): Promise<void> {
  const { services } = shop.context;
  const office = by(shop, 'S02');
  const number = family.number + variant.suffix;
  const customerId = got(shop.customers, family.customer);
  const part = await services.parts.add(office, {
    number,
    name: family.name,
    customerId,
    coded: family.coded ?? false,
    traceability: 'batch',
    returnChance: 'yes',
    twoPersons: false,
    notes: '',
    outsideWork: family.outside?.work ?? '',
    outsideDays: family.outside?.days ?? 0,
  });
  if (variant.alias !== undefined)
    await services.parts.addAlias(office, part.id, { alias: variant.alias, customerId });
  let draft = await services.parts.addRevision(office, part.id, {
    label: 'B',
    drawingNumber: `D-${number}`,
    drawingPrint: null,
    copyFromRevisionId: null,
    changeNote: 'First revision on file',
  });
  draft = await services.parts.setSteps(office, draft.id, {
    expectedVersion: draft.version,
    steps: stepsOf(family, variant.wps),
  });
  draft = await services.parts.setWelds(office, draft.id, {
    expectedVersion: draft.version,
    welds: weldsOf(family, variant.thicknessMm),
  });
  const revision = await services.parts.releaseRevision(office, draft.id, {
    expectedVersion: draft.version,
    changeNote: 'Taken over from the drawing cabinet',
  });
  for (const step of revision.steps) {
    const tack = family.tackedAt !== undefined && step.number === 1;
    const setUp = await services.parts.freezeSetUp(
      by(shop, 'W03'),
      step.id,
      tack ? tackSetUp(shop, family) : setUpOf(shop, family, family.setUp, tools),
    );
    const { fixtureId } = setUp;
    if (number === photographed && fixtureId !== null)
      await photographSetUp(shop, { setUpId: setUp.id, fixtureId });
  }
  shop.parts.push({ family, partId: part.id, number, revision, thicknessMm: variant.thicknessMm });
}

function setUpOf(shop: ShopFile, family: DemoFamily, setUp: DemoSetUp, tools: Tools) {
  const cell = got(shop.cells, setUp.cell);
  return {
    cellId: cell.id,
    wireItemId: got(shop.items, setUp.wire).id,
    gasItemId: got(shop.items, setUp.gas).id,
    torch: cell.kind === 'robot' ? 'Robot torch, neck 22°' : 'Hand torch',
    mechanisation:
      cell.kind === 'robot'
        ? cell.mechanisation
        : family.process === '141'
          ? ('manual' as const)
          : ('partlyMechanised' as const),
    currentA: setUp.currentA,
    voltageV: setUp.voltageV,
    wireSpeedMMin: setUp.wireSpeedMMin,
    travelMmMin: setUp.travelMmMin,
    gasFlowLMin: setUp.gasFlowLMin,
    contactTipMm: setUp.wireSpeedMMin === null ? null : 15,
    preheatC: setUp.preheatC ?? null,
    programId: tools.programId,
    programRevision: tools.programId === null ? null : demoProgramRevision,
    fixtureId: tools.fixtureId,
    watchOuts: [...setUp.watchOuts],
  };
}

function tackSetUp(shop: ShopFile, family: DemoFamily) {
  const booth: DemoSetUp = {
    ...family.setUp,
    cell: family.tackedAt ?? family.setUp.cell,
    currentA: 230,
    voltageV: 25,
    wireSpeedMMin: 8,
    travelMmMin: 450,
    watchOuts: [],
  };
  return setUpOf(shop, family, booth, { fixtureId: null, programId: null });
}
