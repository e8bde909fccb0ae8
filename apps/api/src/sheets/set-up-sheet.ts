import type { Cell, Revision, SetUp, Step, WpsRanges } from '@tackboard/contract';
import type { Content } from 'pdfmake/interfaces.js';
import { fact, heading, paragraph, type Fact } from './blocks.js';
import type { Sheet } from './frame.js';
import { rangeStrip, stripKey } from './pictures.js';
import { photoPages, type PhotoToPrint } from './photos.js';
import { weldPictures, weldTable } from './weld-rows.js';
import { amount, listed, mechanisationWord } from './words.js';

export interface SetUpOnFile {
  readonly revision: Revision;
  readonly step: Step;
  readonly setUp: SetUp;
  readonly cell: Cell;
  /** The approved revision of the procedure that the step names; null where there is none today. */
  readonly wps: { readonly label: string; readonly ranges: WpsRanges } | null;
  readonly photos: readonly PhotoToPrint[];
  /** When it was kept, in words. */
  readonly keptAt: string;
}

/** Everything to set a step up again at its cell. */
export function setUpSheet(onFile: SetUpOnFile): Sheet {
  const { revision, step, setUp, wps } = onFile;
  const welds = revision.welds.filter(({ stepNumber }) => stepNumber === step.number);
  const procedure = wps?.label ?? `${step.wpsNumber ?? 'none named'}: no approved revision`;
  return {
    title: 'Set-up sheet',
    subject: `${revision.partNumber}, step ${step.number} ${step.name} at ${setUp.cellCode}`,
    revision: revision.label,
    mark: revisionMark(revision),
    showsWork: true,
    content: [
      ...placeFacts(onFile, procedure).map(fact),
      heading('Dial'),
      ...dialled(onFile),
      paragraph(stripKey),
      {
        columnGap: 16,
        columns: [
          { width: '*', stack: [heading('Wire, gas, torch'), ...consumables(setUp).map(fact)] },
          { width: '*', stack: [heading('Fixture and program'), ...tooling(setUp).map(fact)] },
        ],
      },
      heading('Watch out'),
      ...(setUp.watchOuts.length === 0 ? ['Nothing is on file.'] : setUp.watchOuts).map(paragraph),
      ...(step.instructions === '' ? [] : [paragraph(step.instructions)]),
      heading('Welds of this step'),
      weldTable(welds, () => procedure),
      ...weldPictures(welds, setUp),
      ...photoPages(onFile.photos),
    ],
  };
}

function revisionMark({ state }: Revision): string | null {
  if (state === 'released') return null;
  return state === 'draft' ? 'DRAFT, NOT FOR USE' : 'SUPERSEDED, NOT FOR USE';
}

function placeFacts({ revision, setUp, cell, keptAt }: SetUpOnFile, procedure: string): Fact[] {
  return [
    ['Part', `${revision.partNumber}, ${revision.partName}`],
    ['Drawing', revision.drawingNumber],
    ['Cell', `${cell.code} ${cell.name}`],
    ['WPS', procedure],
    ['Mechanisation', mechanisationWord(setUp.mechanisation)],
    ['Extraction', cell.extraction],
    ['Kept', `${keptAt} by ${setUp.frozenBy}`],
  ];
}

/** The settings with the range of the procedure that they have to stay in. */
function dialled({ setUp, wps, cell }: SetUpOnFile): Content[] {
  const ranges = wps?.ranges ?? null;
  const rows = [
    ['Wire speed', 'm/min', ranges?.wireSpeedMMin, setUp.wireSpeedMMin],
    ['Voltage', 'V', ranges?.voltageV, setUp.voltageV],
    ['Current', 'A', ranges?.currentA, setUp.currentA],
    ['Travel', 'mm/min', ranges?.travelMmMin, setUp.travelMmMin],
  ] as const;
  const preheat = ranges?.preheatMinC ?? null;
  return [
    ...rows.map(([name, unit, range, set]) =>
      rangeStrip({ name, unit, range: range ?? null, set, big: true }),
    ),
    ...(cell.travelUnit === 'mm/min'
      ? []
      : [fact(['Travel on the dial', onDial(setUp.travelMmMin, cell.travelUnit)])]),
    rangeStrip({
      ...{ name: 'Preheat', unit: '°C', set: setUp.preheatC, big: true },
      range: preheat === null ? null : { min: preheat, max: null },
    }),
  ];
}

const mmMinPerUnit = { 'mm/min': 1, 'cm/min': 10, 'in/min': 25.4 } as const;

function onDial(travelMmMin: number | null, unit: Cell['travelUnit']): string | null {
  return travelMmMin === null ? null : amount(travelMmMin / mmMinPerUnit[unit], unit);
}

function consumables(setUp: SetUp): Fact[] {
  return [
    ['Wire', listed(setUp.wireName, setUp.wireDesignation, amount(setUp.wireDiameterMm, 'mm'))],
    ['Gas', listed(setUp.gasName, setUp.gasDesignation)],
    ['Gas flow', amount(setUp.gasFlowLMin, 'l/min')],
    ['Torch', setUp.torch],
    ['Contact tip to work', amount(setUp.contactTipMm, 'mm')],
  ];
}

function tooling(setUp: SetUp): Fact[] {
  return [
    ['Fixture', setUp.fixtureCode],
    ['Place of the fixture', setUp.fixturePlace],
    ['Condition', setUp.fixtureCondition],
    ['Program', setUp.programName],
    ['Program revision', setUp.programRevision],
  ];
}
