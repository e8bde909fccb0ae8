import type { ProcedureTest } from '../records.js';
import type { CodeRules } from '../rule.js';
import { commonRows } from './common.js';
import { diameterRows } from './diameter.js';
import { levelOf } from './level.js';
import { isAluminium, materialGroups } from './materials.js';
import { buttThickness, depositedThickness, filletThickness, filletThroat } from './thickness.js';

const source = 'iso15614y2017';

export function aluminiumScope({ materialGroups: groups }: ProcedureTest): string | null {
  return (groups ?? []).some(isAluminium)
    ? 'aluminium is outside ISO 15614-1; ISO 15614-2 would apply, for which there are no rules'
    : null;
}

/** ISO 15614-1:2017, level 2: steel. Table 7 (butt), Table 8 (fillet) and clauses 8.3 to 8.5. */
export const iso15614y2017: CodeRules<ProcedureTest> = {
  code: 'ISO 15614-1',
  edition: '2017',
  outOfScope: (test) => {
    if (test.level !== null && levelOf(test.level) === '2') return aluminiumScope(test);
    const given = test.level === null ? 'no level' : `level ${test.level}`;
    return `there are rules for level 2 only, and the record names ${given}`;
  },
  rows: [
    materialGroups,
    ...buttThickness({ clause: '8.3.2, Table 7', source, singleSureUpToMm: 40 }),
    filletThickness({ clause: '8.3.2, Table 8', source }),
    ...depositedThickness({ clause: '8.3.2, Table 7' }),
    ...filletThroat({ clause: '8.3.2, Table 8', source }),
    ...diameterRows({ clause: '8.3.3', source, smallPipe: 'low' }),
    ...commonRows({
      source,
      clauses: { heatInput: '8.4.7', preheat: '8.4.8', interpass: '8.4.9', gas: '8.5.2' },
    }),
  ],
};
