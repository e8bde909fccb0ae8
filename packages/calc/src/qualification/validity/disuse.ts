/** What a procedure that was not used for a time needs before it is used again. */
export type DisuseTest =
  'noExtraTest' | 'productionWeldTest' | 'macroFromProductionTest' | 'newProcedureTest';

const s355MPa = 355;

/**
 * EN 1090-2:2008, 7.4.1.4: what is due after `yearsUnused` years, by the grade's specified minimum yield in MPa.
 * Null when either is no number. Check the clause in the 2018 text.
 */
export function testAfterDisuse(facts: {
  yieldMPa: number;
  yearsUnused: number;
}): DisuseTest | null {
  const { yieldMPa, yearsUnused } = facts;
  const isKnown = Number.isFinite(yieldMPa) && yieldMPa > 0 && yearsUnused >= 0;
  if (!isKnown || !Number.isFinite(yearsUnused)) return null;
  const isAbove = yieldMPa > s355MPa;
  if (yearsUnused > 3) return isAbove ? 'newProcedureTest' : 'macroFromProductionTest';
  return yearsUnused >= 1 && isAbove ? 'productionWeldTest' : 'noExtraTest';
}
