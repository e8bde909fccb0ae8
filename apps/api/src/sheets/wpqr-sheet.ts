import type { Wpqr, WpsRanges } from '@tackboard/contract';
import type { Content } from 'pdfmake/interfaces.js';
import { fact, heading, paragraph, table, type Fact } from './blocks.js';
import type { Sheet } from './frame.js';
import { rangeStrip, stripKey } from './pictures.js';
import { amount, listed, mechanisationWord, rangeWords } from './words.js';
import { pieceDrawing } from './wps-sheet.js';

const outcomes = { passed: 'passed', failed: 'FAILED', notRequired: 'not required' } as const;

/** A procedure test in short: what was welded, what came out, and the range printed on the signed record. */
export function wpqrSheet(record: Wpqr, testedOn: string): Sheet {
  return {
    title: 'Procedure qualification record, summary',
    subject: record.number,
    revision: null,
    mark: null,
    showsWork: false,
    content: [
      ...facts(generalFacts(record, testedOn)),
      heading('Test piece'),
      ...facts(pieceFacts(record.testPiece)),
      pieceDrawing(record),
      heading('Values of the test'),
      ...facts(valueFacts(record.testedValues)),
      heading('Results'),
      results(record),
      heading('Range printed on the record'),
      ...rangeFacts(record.ranges),
      ...strips(record),
      paragraph(stripKey),
      paragraph('This summary does not replace the signed record.'),
    ],
  };
}

function facts(rows: readonly Fact[]): Content[] {
  return rows.map(fact);
}

function generalFacts(record: Wpqr, testedOn: string): Fact[] {
  return [
    ['Code and edition', `${record.code}:${record.edition}`],
    ['Level', record.level],
    ['Process (ISO 4063)', record.process],
    ['Mechanisation', mechanisationWord(record.mechanisation)],
    ['Filler', record.filler],
    ['Gas (ISO 14175)', record.gas],
    ['Arc mode', record.transfer],
    ['Tested on', testedOn],
    ['Examiner', record.examiner],
    ['Supports', listed(...record.wpsNumbers)],
  ];
}

function pieceFacts(piece: Wpqr['testPiece']): Fact[] {
  return [
    ['Joint', piece.jointType],
    ['Position', piece.position],
    ['Thickness', amount(piece.thicknessMm, 'mm')],
    ['Outside diameter', amount(piece.diameterMm, 'mm')],
    ['Throat a', amount(piece.throatMm, 'mm')],
    ['Material', `${piece.material}, group ${piece.materialGroup}`],
    ['Yield strength', amount(piece.yieldMPa, 'MPa')],
    ['Runs', piece.runs === 'single' ? 'single run' : 'several runs'],
    ['Welded from', piece.sides === 'one' ? 'one side' : 'both sides'],
    ['Backing', piece.backing],
  ];
}

function valueFacts(values: Wpqr['testedValues']): Fact[] {
  return [
    ['Current', amount(values.currentA, 'A')],
    ['Voltage', amount(values.voltageV, 'V')],
    ['Wire speed', amount(values.wireSpeedMMin, 'm/min')],
    ['Travel', amount(values.travelMmMin, 'mm/min')],
    ['Heat input', amount(values.heatInputKjMm, 'kJ/mm')],
    ['Preheat', amount(values.preheatC, '°C')],
    ['Interpass', amount(values.interpassC, '°C')],
  ];
}

function results({ testResults }: Wpqr): Content {
  if (testResults.length === 0) return paragraph('No result is on file.');
  return table(
    [
      { title: 'Test', width: 150 },
      { title: 'Outcome', width: 90 },
      { title: 'Note', width: '*' },
    ],
    testResults.map(({ test, outcome, note }) => [test, outcomes[outcome], note]),
  );
}

function rangeFacts(ranges: WpsRanges): Content[] {
  return facts([
    ['Mechanisation', ranges.mechanisations.map(mechanisationWord).join(', ')],
    ['Material groups', listed(...ranges.materialGroups)],
    ['Yield strength', ranges.yieldMPa ? rangeWords(ranges.yieldMPa, 'MPa') : null],
    ['Joints', listed(...ranges.jointTypes)],
    ['Positions', listed(...ranges.positions)],
    ['Fillers', listed(...ranges.fillers)],
    ['Gases', listed(...ranges.gases)],
    ['Preheat at least', amount(ranges.preheatMinC, '°C')],
    ['Interpass at most', amount(ranges.interpassMaxC, '°C')],
  ]);
}

function strips({ ranges, testPiece, testedValues }: Wpqr): Content[] {
  const heat = ranges.heatInputBasis === 'arcEnergy' ? 'Arc energy' : 'Heat input';
  const rows = [
    ['Thickness', 'mm', ranges.thicknessMm, testPiece.thicknessMm],
    ['Throat a', 'mm', ranges.throatMm, testPiece.throatMm],
    ['Wire diameter', 'mm', ranges.wireDiameterMm, testedValues.wireDiameterMm ?? null],
    ['Current', 'A', ranges.currentA, testedValues.currentA],
    ['Voltage', 'V', ranges.voltageV, testedValues.voltageV],
    ['Wire speed', 'm/min', ranges.wireSpeedMMin, testedValues.wireSpeedMMin],
    ['Travel', 'mm/min', ranges.travelMmMin, testedValues.travelMmMin],
    [heat, 'kJ/mm', ranges.heatInputKjMm, testedValues.heatInputKjMm],
  ] as const;
  return rows.map(([name, unit, range, value]) =>
    rangeStrip({ name, unit, range, tested: value === null ? [] : [value] }),
  );
}
