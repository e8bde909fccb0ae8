import type { Warning, WarningCode } from '@tackboard/calc';
import { plainNumber } from '../format/number.js';
import { m } from '../paraglide/messages.js';

const words = {
  efficiencyUnusual: m.method_warn_efficiency,
  meanPowerOfPulsedArc: m.method_warn_pulsed,
  ruleOfThumb: m.method_warn_rule_of_thumb,
  arcSpreadEvenly: m.method_warn_arc_even,
  idealGas: m.method_warn_ideal_gas,
  arcAboveRunning: m.method_warn_arc_above_running,
  capNotFlat: m.method_warn_cap,
  gapFirstEstimate: m.method_warn_gap,
  depositionUnusual: m.method_warn_deposition,
  suggestionOnly: m.method_warn_suggestion,
  limitFromMemory: m.method_warn_memory,
  lossBelowOne: m.method_warn_loss,
  coordinatorDecides: m.method_warn_coordinator,
  noPreheatByMethod: m.method_warn_no_preheat,
  warmColdPlate: m.method_warn_cold_plate,
  methodScatters: m.method_warn_scatter,
  elementsUnchecked: m.method_warn_elements,
  otherEquivalentUsual: m.method_warn_other_equivalent,
  singleRunOnly: m.method_warn_single_run,
  tooFewRuns: m.method_warn_few_runs,
} as const satisfies Record<WarningCode, (given: { given: string }) => string>;

/** What must be known before a figure is relied on, as a sentence. */
export function warningWords({ code, given }: Warning): string {
  return words[code]({ given: given === null ? '' : plainNumber(given) });
}
