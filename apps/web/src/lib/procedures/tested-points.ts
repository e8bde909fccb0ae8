import type { Wpqr } from '@tackboard/contract';
import type { RangeKey } from './ranges-draft.js';

type Record = Pick<Wpqr, 'testPiece' | 'testedValues'>;

/** What was welded in the tests behind a procedure, for one variable; nothing where a sheet states none. */
export function testedPoints(records: readonly Record[], key: RangeKey): number[] {
  return records.map((record) => pointOf(record, key)).filter((value) => value !== null);
}

function pointOf({ testPiece, testedValues }: Record, key: RangeKey): number | null {
  switch (key) {
    case 'thicknessMm':
      return testPiece.thicknessMm;
    case 'yieldMPa':
      return testPiece.yieldMPa;
    case 'throatMm':
      return testPiece.throatMm;
    case 'wireDiameterMm':
      return null;
    default:
      return testedValues[key];
  }
}
