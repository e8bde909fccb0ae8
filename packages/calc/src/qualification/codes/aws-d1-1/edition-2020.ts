import { awsProcedures } from './procedures.js';

/** AWS D1.1:2020, procedures. */
export const awsProcedures2020 = awsProcedures({
  edition: '2020',
  positions: 'Table 6.1',
  thickness: 'Table 6.2',
  essential: 'Table 6.5',
});
