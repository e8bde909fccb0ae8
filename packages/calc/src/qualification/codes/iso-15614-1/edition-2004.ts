import type { ProcedureTest } from '../records.js';
import type { CodeRules } from '../rule.js';
import { commonRows } from './common.js';
import { diameterRows } from './diameter.js';
import { aluminiumScope } from './edition-2017.js';
import { materialGroups } from './materials.js';
import { buttThickness, filletThickness, filletThroat } from './thickness.js';

const source = 'iso15614y2004';

/**
 * ISO 15614-1:2004 with its amendments: one level, no column for metal laid per process. Records to it keep their
 * own ranges.
 */
export const iso15614y2004: CodeRules<ProcedureTest> = {
  code: 'ISO 15614-1',
  edition: '2004',
  outOfScope: aluminiumScope,
  rows: [
    { ...materialGroups, clause: '8.3.1' },
    ...buttThickness({ clause: '8.3.2, Table 5', source, singleSureUpToMm: 100 }),
    filletThickness({ clause: '8.3.2, Table 6', source }),
    ...filletThroat({ clause: '8.3.2, Table 6', source }),
    ...diameterRows({ clause: '8.3.3, Table 7', source, smallPipe: 'medium' }),
    ...commonRows({
      source,
      clauses: { heatInput: '8.4.8', preheat: '8.4.9', interpass: '8.4.10', gas: '8.5.2' },
    }),
  ],
};
