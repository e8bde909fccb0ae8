import { isShortCircuit, processLetters } from '../../designations/processes.js';
import type { ProcedureTest } from '../records.js';
import { rowsFor, type Band, type Given, type RangeRule } from '../rule.js';
import { columnOf, stepOf, type Step } from '../steps.js';

const row = rowsFor<ProcedureTest>();
const isGroove = ({ jointType }: ProcedureTest) => jointType === 'butt' || jointType === 'tButt';

interface BaseRow {
  min: 'T' | { mm: number; in: number };
  max: { times: number } | { mm: number; in: number };
}
const thin = { mm: 1.5, in: 1 / 16 };
const usual = { mm: 5, in: 3 / 16 };
const widest = { mm: 200, in: 8 };

/** QW-451.1, base metal by coupon thickness T, in the columns of the Code. */
const table: Readonly<Record<'mm' | 'in', readonly Step<BaseRow>[]>> = {
  mm: [
    { upTo: 1.5, below: true, give: { min: 'T', max: { times: 2 } } },
    { upTo: 10, give: { min: thin, max: { times: 2 } } },
    { upTo: 38, below: true, give: { min: usual, max: { times: 2 } } },
    { upTo: 150, give: { min: usual, max: widest } },
    { upTo: Infinity, give: { min: usual, max: { times: 1.33 } } },
  ],
  in: [
    { upTo: 1 / 16, below: true, give: { min: 'T', max: { times: 2 } } },
    { upTo: 3 / 8, give: { min: thin, max: { times: 2 } } },
    { upTo: 1.5, below: true, give: { min: usual, max: { times: 2 } } },
    { upTo: 6, give: { min: usual, max: widest } },
    { upTo: Infinity, give: { min: usual, max: { times: 1.33 } } },
  ],
};

const halfInch = { mm: 13, in: 1 / 2 };
const threeQuarters = { mm: 19, in: 3 / 4 };
const quarterInch = { mm: 6, in: 1 / 4 };
const fiveEighths = { mm: 16, in: 5 / 8 };
/** Processes for which the table gives 8 in; the rest stay at twice the coupon. */
const toEightInches: ReadonlySet<string> = new Set(['SMAW', 'SAW', 'GMAW', 'PAW', 'LLBW', 'GTAW']);

function tableBand(test: ProcedureTest, thicknessMm: number): { band: Band; isWide: boolean } {
  const column = columnOf(test.tableUnit);
  const found = stepOf(table[test.tableUnit], column.inUnit(thicknessMm));
  const { min, max } = found ?? { min: 'T', max: { times: 1 } };
  return {
    band: {
      min: min === 'T' ? thicknessMm : column.limitMm(min),
      max: 'times' in max ? max.times * thicknessMm : column.limitMm(max),
    },
    isWide: !('times' in max),
  };
}

/** QW-403.6, only where toughness is demanded: the lesser of T and 5/8 in; T/2 under 1/4 in. */
function toughMin(test: ProcedureTest, thicknessMm: number): number {
  const { limitMm } = columnOf(test.tableUnit);
  return thicknessMm < limitMm(quarterInch)
    ? thicknessMm / 2
    : Math.min(thicknessMm, limitMm(fiveEighths));
}

/** A limit that holds, may hold because an input is missing, or does not hold. */
type Applies = boolean | null;

function baseMetal(test: ProcedureTest & { thicknessMm: number }): Given {
  const { limitMm } = columnOf(test.tableUnit);
  const { thicknessMm: t } = test;
  const { band, isWide } = tableBand(test, t);
  const sure = { ...band };
  const reach = { ...band };
  const lower = (limit: number, applies: Applies) => {
    if (applies !== false) sure.max = Math.min(sure.max ?? limit, limit);
    if (applies === true) reach.max = Math.min(reach.max ?? limit, limit);
  };
  const half = limitMm(halfInch);
  // No pass is thicker than the coupon, so in a thin one the question does not arise.
  const passOver: Applies = t > half && (test.maxPassMm === null ? null : test.maxPassMm > half);
  lower(1.1 * t, passOver);
  lower(1.1 * t, t < half ? isShortCircuit(test) : false);
  if (isWide && !toEightInches.has(processLetters(test.process) ?? '')) lower(2 * t, null);
  const tough = Math.max(toughMin(test, t), band.min ?? 0);
  // Under 1/4 in the rule of half the coupon reaches below the table; the higher of the two is safe.
  if (test.impactRequired !== false) sure.min = Math.max(sure.min ?? 0, tough);
  if (test.impactRequired === true) reach.min = sure.min;
  return { band: sure, unsure: reach };
}

function deposit(test: ProcedureTest & { depositedMm: number; thicknessMm: number }): Given {
  const { limitMm } = columnOf(test.tableUnit);
  const { depositedMm: t, thicknessMm } = test;
  if (t > thicknessMm) {
    return { cannotSay: 'the weld metal is recorded thicker than the coupon' };
  }
  const { band, isWide } = tableBand(test, thicknessMm);
  const isThick = t >= limitMm(threeQuarters) && thicknessMm >= limitMm(threeQuarters);
  const max = isThick ? (band.max ?? 2 * t) : 2 * t;
  const isUnsure = isThick && isWide && !toEightInches.has(processLetters(test.process) ?? '');
  const short = t < limitMm(halfInch) ? isShortCircuit(test) : false;
  const sureMax = Math.min(max, short === false ? max : 1.1 * t, isUnsure ? 2 * t : max);
  const reach = short === true ? 1.1 * t : max;
  return { band: { min: null, max: sureMax }, unsure: { min: null, max: reach } };
}

/** Base metal and weld metal of groove welds, and fillets of every size. */
export const asmeThickness: readonly RangeRule<ProcedureTest>[] = [
  row({
    variable: 'thickness',
    unit: 'mm',
    clause: 'QW-451.1, QW-403.6, QW-403.9, QW-403.10',
    confidence: 'high',
    source: 'asmeQw451',
    applies: isGroove,
    needs: ['thicknessMm'],
    give: baseMetal,
  }),
  row({
    variable: 'thickness',
    clause: 'QW-451.3',
    confidence: 'high',
    source: 'asmeFillet',
    needs: ['jointType'],
    tested: ({ thicknessMm }) => (thicknessMm === null ? [] : [thicknessMm]),
    give: ({ jointType }) =>
      jointType === 'fillet'
        ? { any: true }
        : { cannotSay: 'the test piece is no groove and no fillet' },
  }),
  row({
    variable: 'depositedThickness',
    unit: 'mm',
    clause: 'QW-451.1, QW-404.32',
    confidence: 'high',
    source: 'asmeQw451',
    applies: isGroove,
    needs: ['depositedMm', 'thicknessMm'],
    give: deposit,
  }),
  row({
    variable: 'throat',
    clause: 'QW-202.2(c), QW-451.3, QW-451.4',
    confidence: 'high',
    source: 'asmeFillet',
    needs: [],
    give: () => ({ any: true }),
  }),
];
