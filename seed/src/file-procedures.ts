import { noWpsDetails, type WpsDetails, type WpsRanges } from '@tackboard/contract';
import { demoProcedures, type DemoProcedure } from './shop/procedures.js';
import { by, type ShopFile } from './shop-file.js';

/** Test records and the procedures that rest on them, with the revisions they went through. */
export async function fileProcedures(shop: ShopFile): Promise<void> {
  for (const procedure of demoProcedures) await fileProcedure(shop, procedure);
}

async function fileProcedure(shop: ShopFile, procedure: DemoProcedure): Promise<void> {
  const { services } = shop.context;
  const qa = by(shop, 'Q02');
  const wpqr = await services.procedures.addWpqr(
    qa,
    recordOf(procedure, shop.days.plus(shop.days.today, -900)),
  );
  const content = {
    title: procedure.title,
    code: 'ISO 15614-1',
    ranges: procedure.ranges,
    joint: {
      description: procedure.title,
      preparation: 'Clean and dry, edges free of scale',
      runs: procedure.ranges.throatMm === null ? 'Root, fill and cap' : 'Single run up to a6',
    },
    details: detailsOf(procedure.ranges),
    technique: 'Stringer beads, torch slightly pushing.',
    wpqrIds: [wpqr.id],
    changeNote: '',
  };
  let wps = await services.procedures.add(qa, { ...content, number: procedure.number });
  if (procedure.state === 'draft') return;
  await services.procedures.approve(by(shop, 'C01'), wps.id, { expectedVersion: wps.version });
  for (let revision = 2; revision <= procedure.revisions; revision += 1) {
    wps = await services.procedures.revise(qa, wps.id, {
      changeNote: 'Travel range set by the readings of the last batches',
    });
    await services.procedures.approve(by(shop, 'C01'), wps.id, { expectedVersion: wps.version });
  }
}

/** What a written procedure of such a process states beside its ranges. */
function detailsOf({ process, jointTypes, interpassMaxC }: WpsRanges): WpsDetails {
  const tig = process === '141';
  const butt = jointTypes.length === 1 && jointTypes[0] === 'butt';
  return {
    ...noWpsDetails,
    ...{ cleaning: 'Ground bright, 20 mm beside the joint', bead: 'stringer' },
    ...{ tacking: 'Tacks of 20 mm, ends ground before they are welded over' },
    ...{
      sides: 'one',
      currentKind: tig ? 'DC-' : 'DC+',
      transfer: process === '135' ? 'spray' : '',
    },
    ...(tig ? { tungsten: 'WLa 15', tungstenMm: 2.4, backingGas: 'I1' } : {}),
    ...(tig ? { backingGasFlowLMin: { min: 4, max: 8 } } : {}),
    ...{ nozzleMm: tig ? 10 : 16, gasFlowLMin: tig ? { min: 7, max: 11 } : { min: 12, max: 18 } },
    ...(tig ? {} : { contactTipDistanceMm: { min: 12, max: 18 } }),
    ...{ interpassMinC: interpassMaxC === null ? null : 5 },
    ...(butt
      ? { groove: demoGroove, runSequence: 'Root, then fill and cap from side to side' }
      : {}),
  };
}

const demoGroove: WpsDetails['groove'] = {
  thicknessMm: 12,
  depthMm: null,
  preparation: {
    ...{ kind: 'singleV', gapMm: 2, rootFaceMm: 1, angleDeg: 60, rootRadiusMm: 0 },
    ...{ capHeightMm: 1.5, backing: 'ceramic' },
  },
};

/** What was welded in the test lies in the middle of what the signed record prints. */
function recordOf({ number, ranges }: DemoProcedure, testedOn: string) {
  const middle = (range: WpsRanges['currentA']) =>
    range === null ? null : ((range.min ?? 0) + (range.max ?? (range.min ?? 0) * 2)) / 2;
  return {
    number: number.replace('WPS', 'WPQR'),
    code: 'ISO 15614-1',
    edition: '2017',
    level: '2',
    process: ranges.process,
    mechanisation: ranges.mechanisations[0] ?? ('manual' as const),
    testedOn,
    examiner: 'Works examiner',
    testPiece: {
      jointType: ranges.jointTypes[0] ?? 'fillet',
      thicknessMm: middle(ranges.thicknessMm) ?? 10,
      diameterMm: null,
      material: ranges.materialGroups.includes('8.1') ? '1.4404' : 'S355J2',
      materialGroup: ranges.materialGroups.at(-1) ?? '1.2',
      yieldMPa: ranges.materialGroups.includes('8.1') ? 220 : 355,
      throatMm: middle(ranges.throatMm),
      position: ranges.positions.at(-1) ?? 'PB',
      runs: 'single' as const,
      sides: 'one' as const,
      backing: '',
    },
    testedValues: {
      currentA: middle(ranges.currentA),
      voltageV: middle(ranges.voltageV),
      wireSpeedMMin: middle(ranges.wireSpeedMMin),
      travelMmMin: middle(ranges.travelMmMin),
      heatInputKjMm: middle(ranges.heatInputKjMm),
      preheatC: ranges.preheatMinC,
      interpassC: ranges.interpassMaxC,
    },
    testResults: [
      { test: 'Visual', outcome: 'passed' as const, note: '' },
      { test: 'Macro', outcome: 'passed' as const, note: '' },
    ],
    filler: ranges.fillers[0] ?? '',
    gas: ranges.gases[0] ?? '',
    transfer: ranges.process === '135' ? 'spray' : null,
    ranges,
  };
}
