import { awsProcedures } from './procedures.js';

/** AWS D1.1:2015, procedures: the same limits under the numbers of clause 4. */
export const awsProcedures2015 = awsProcedures({
  edition: '2015',
  positions: 'Table 4.1',
  thickness: 'Table 4.2',
  essential: 'Table 4.5',
});
