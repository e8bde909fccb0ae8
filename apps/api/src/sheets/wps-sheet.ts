import { jointOfWeld, type DrawnJoint } from '@tackboard/calc';
import type { Wpqr, Wps, WpsRanges } from '@tackboard/contract';
import type { Content } from 'pdfmake/interfaces.js';
import { dayWords } from '../orders/day-words.js';
import { fact, heading, paragraph, sections, table, type Section } from './blocks.js';
import type { Sheet } from './frame.js';
import { jointPicture, rangeStrip, stripKey } from './pictures.js';
import {
  comparisonRows,
  currentFacts,
  fillerFacts,
  gasFacts,
  grooveBlocks,
  postHeatFacts,
  preparationFacts,
  stillHeatFacts,
  techniqueFacts,
  travelFacts,
} from './wps-details-facts.js';
import { listed, markOf, mechanisationWord, rangeWords } from './words.js';

interface WpsOnFile {
  readonly wps: Wps;
  /** The records that it rests on. */
  readonly records: readonly Wpqr[];
  readonly shopName: string;
  /** Day and time on the shop's clock, in words; null while it is not approved. */
  readonly approvedAt: string | null;
}

/** A procedure revision under the headings of ISO 15609-1, clause 4, in their order (from memory). */
export function wpsSheet(onFile: WpsOnFile): Sheet {
  const { wps } = onFile;
  return {
    title: 'Welding procedure specification',
    subject: `${wps.number} ${wps.title}`,
    revision: String(wps.revision),
    mark: markOf(wps.state),
    showsWork: true,
    content: [
      sections([...general(onFile), ...joint(onFile), ...welding(onFile)]),
      paragraph(stripKey),
      ...breaches(wps),
      ...comparisonRows(wps),
    ],
  };
}

function general({ wps, records, shopName, approvedAt }: WpsOnFile): Section[] {
  const behind = records.map(
    ({ number, code, edition, testedOn }) =>
      `${number} (${code}:${edition}, tested ${dayWords(testedOn)})`,
  );
  return [
    ['Manufacturer', [fact(['Shop', shopName])]],
    [
      'WPS number',
      [
        fact(['Number', wps.number]),
        fact(['Revision', `${wps.revision}, ${wps.state}`]),
        fact(['Code', wps.code]),
        fact(['Written by', wps.writtenBy]),
        fact([
          'Approved by',
          approvedAt === null ? null : `${wps.approvedBy ?? ''}, ${approvedAt}`,
        ]),
        fact(['What changed', wps.changeNote]),
      ],
    ],
    ['Supporting WPQR', behind.length === 0 ? [fact(['Record', null])] : behind.map(paragraph)],
  ];
}

function joint({ wps, records }: WpsOnFile): Section[] {
  const { ranges } = wps;
  return [
    [
      'Base material',
      [
        fact(['Material groups', listed(...ranges.materialGroups)]),
        fact(['Yield strength', ranges.yieldMPa ? rangeWords(ranges.yieldMPa, 'MPa') : null]),
      ],
    ],
    [
      'Dimensions',
      [
        strip('Thickness', 'mm', ranges.thicknessMm, tested(records, 'thicknessMm')),
        strip('Throat a', 'mm', ranges.throatMm, tested(records, 'throatMm')),
      ],
    ],
    [
      'Joint design',
      [
        fact(['Joint', listed(...ranges.jointTypes)]),
        fact(['Description', wps.joint.description]),
        fact(['Runs', wps.joint.runs]),
        ...grooveBlocks(wps.details),
        ...records.slice(0, 2).map(pieceDrawing),
      ],
    ],
    [
      'Process',
      [
        fact(['Process (ISO 4063)', ranges.process]),
        fact(['Mechanisation', ranges.mechanisations.map(mechanisationWord).join(', ')]),
      ],
    ],
    ['Position', [fact(['Welding positions', listed(...ranges.positions)])]],
    [
      'Preparation and backing',
      [
        fact(['Preparation', wps.joint.preparation]),
        ...preparationFacts(wps.details),
        fact(['Backing in the test', listed(...records.map(({ testPiece }) => testPiece.backing))]),
      ],
    ],
  ];
}

function welding({ wps, records }: WpsOnFile): Section[] {
  const { ranges, technique, details } = wps;
  const values = (key: ValueKey) =>
    records.map(({ testedValues }) => testedValues[key] ?? null).filter((value) => value !== null);
  const limit = (min: number | null, max: number | null) =>
    min === null && max === null ? null : { min, max };
  return [
    [
      'Technique',
      [
        ...techniqueFacts(details),
        technique === '' ? fact(['Remarks', null]) : paragraph(technique),
      ],
    ],
    [
      'Filler',
      [
        fact(['Designation', listed(...ranges.fillers)]),
        strip('Wire diameter', 'mm', ranges.wireDiameterMm, values('wireDiameterMm')),
        ...fillerFacts(details),
      ],
    ],
    [
      'Electrical parameters',
      [
        ...currentFacts(details),
        strip('Current', 'A', ranges.currentA, values('currentA')),
        strip('Voltage', 'V', ranges.voltageV, values('voltageV')),
        strip('Wire speed', 'm/min', ranges.wireSpeedMMin, values('wireSpeedMMin')),
      ],
    ],
    [
      'Mechanised welding',
      [
        strip('Travel', 'mm/min', ranges.travelMmMin, values('travelMmMin')),
        ...travelFacts(details),
      ],
    ],
    [
      'Preheat and interpass',
      [
        strip('Preheat', '°C', limit(ranges.preheatMinC, null), values('preheatC')),
        strip(
          'Interpass',
          '°C',
          limit(details.interpassMinC, ranges.interpassMaxC),
          values('interpassC'),
        ),
        ...stillHeatFacts(details),
      ],
    ],
    ['Post-heat', postHeatFacts(details)],
    ['Shielding gas', [fact(['Gas (ISO 14175)', listed(...ranges.gases)]), ...gasFacts(details)]],
    [
      'Heat input',
      [strip(heatName(ranges), 'kJ/mm', ranges.heatInputKjMm, values('heatInputKjMm'))],
    ],
  ];
}

type ValueKey = keyof Wpqr['testedValues'];

function heatName({ heatInputBasis }: WpsRanges): string {
  return heatInputBasis === 'arcEnergy' ? 'Arc energy' : 'Heat input';
}

function tested(records: readonly Wpqr[], key: 'thicknessMm' | 'throatMm'): number[] {
  return records.map(({ testPiece }) => testPiece[key]).filter((value) => value !== null);
}

function strip(
  name: string,
  unit: string,
  range: WpsRanges['currentA'],
  points: readonly number[],
): Content {
  return rangeStrip({ name, unit, range, tested: points });
}

/** The test piece of a record, to scale. What was bevelled is not on file as numbers and is not drawn as square. */
export function pieceDrawing({ number, testPiece }: Wpqr): Content {
  return jointPicture(pieceJoint(testPiece), { title: `Test piece of ${number}` });
}

function pieceJoint(piece: Wpqr['testPiece']): DrawnJoint | null {
  if (piece.jointType === 'butt' && piece.squareGroove !== true) return null;
  return jointOfWeld(
    {
      ...{ jointType: piece.jointType, throatMm: piece.throatMm, legMm: null },
      ...{ grooveDepthMm: null, thicknessAMm: piece.thicknessMm, thicknessBMm: piece.thicknessMm },
    },
    null,
  );
}

function breaches({ breaches: found }: Wps): Content[] {
  if (found.length === 0) return [];
  return [
    heading('Beyond the records behind it'),
    table(
      [
        { title: 'Variable', width: '*' },
        { title: 'Here', width: '*' },
        { title: 'The record covers', width: '*' },
      ],
      found.map(({ variable, wps, wpqrNumber, allowed }) => [
        variable,
        wps,
        `${wpqrNumber}: ${allowed}`,
      ]),
    ),
  ];
}
