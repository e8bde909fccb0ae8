import { firstOutside, firstRefusal } from '../quantities.js';
import {
  calculated,
  refused,
  type Bound,
  type CalculationInParts,
  type Warning,
} from '../result.js';
import { metalBounds } from './bounds.js';

/**
 * A: common steels with stick electrodes that are not low in hydrogen. B: the same and more steels with
 * low-hydrogen electrodes, submerged arc, gas-metal arc or cored wire. C: stronger steels with those processes.
 */
type AwsCategory = 'A' | 'B' | 'C';
type AwsEdition = '2015' | '2020';

const tableByEdition: Record<AwsEdition, string> = { '2015': 'Table 3.3', '2020': 'Table 5.8' };

const rows: readonly ({ upToMm: number } & Record<AwsCategory, number>)[] = [
  { upToMm: 20, A: 0, B: 0, C: 10 },
  { upToMm: 38, A: 65, B: 10, C: 65 },
  { upToMm: 65, A: 110, B: 65, C: 110 },
];
const thicker: Record<AwsCategory, number> = { A: 150, B: 110, C: 150 };

const validity = {
  thicknessMm: { min: 3, max: metalBounds.thicknessMm.max, unit: 'mm' },
} satisfies Record<string, Bound>;

interface AwsInputs {
  /** Of the thickest part at the weld. */
  thicknessMm: number;
  category: AwsCategory;
  edition: AwsEdition;
}

/**
 * Least preheat and interpass temperature in degC by AWS D1.1 for its steel category, 0 where the table asks for
 * none. `parts.table` names the table of the edition. Answers outside the method below 3 mm.
 * The governing code, the approved WPS and the responsible welding coordinator decide.
 */
export function preheatAws(inputs: AwsInputs): CalculationInParts<AwsInputs, { table: string }> {
  const { thicknessMm, category, edition } = inputs;
  const refusal =
    firstRefusal([['thicknessMm', thicknessMm, metalBounds.thicknessMm]]) ??
    firstOutside('awsPreheat', [['thicknessMm', thicknessMm, validity.thicknessMm]]);
  if (refusal) return refused(refusal);
  if (!['A', 'B', 'C'].includes(category)) {
    return refused({ argument: 'category', given: category, allowed: 'A, B or C' });
  }
  if (!Object.hasOwn(tableByEdition, edition)) {
    return refused({ argument: 'edition', given: edition, allowed: '2015 or 2020' });
  }
  const value = (rows.find(({ upToMm }) => thicknessMm <= upToMm) ?? thicker)[category];
  const warnings: Warning[] = [{ code: 'coordinatorDecides', given: null }];
  if (value === 0) warnings.push({ code: 'warmColdPlate', given: 0 });
  return {
    ...calculated({ value, unit: 'degC', inputs, sources: ['awsPreheat'], warnings, validity }),
    parts: { table: tableByEdition[edition] },
  };
}
