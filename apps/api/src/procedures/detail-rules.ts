import type { FieldRefusal, WpsDetails, WpsRanges } from '@tackboard/contract';
import { grooveFault } from '../parts/groove-rules.js';
import { Refusal } from '../refusal.js';
import { isStated, rangeWords } from './range-words.js';

interface Fault {
  readonly text: string;
  readonly field: FieldRefusal;
}

interface Stated {
  readonly ranges: WpsRanges;
  readonly details: WpsDetails;
}

/** Refuses details that contradict each other, the ranges of the procedure, or what can be cut. */
export function refuseImpossibleDetails(stated: Stated): void {
  const faults = [...grooveFaults(stated), ...beadFaults(stated.details), ...heatFaults(stated)];
  if (faults.length === 0) return;
  throw new Refusal(
    'INVALID',
    `${faults.map(({ text }) => text).join('; ')}. Correct it and save again.`,
    { fields: faults.map(({ field }) => field) },
  );
}

function fault(field: string, given: unknown, allowed: string, text: string): Fault {
  return { text, field: { field: `body.details.${field}`, given: String(given), allowed } };
}

const withoutGroove: ReadonlySet<string> = new Set(['fillet', 'lap', 'plug']);

function grooveFaults({ ranges, details: { groove } }: Stated): Fault[] {
  if (groove === null) return [];
  const { jointTypes, thicknessMm: limits } = ranges;
  const { thicknessMm, depthMm, preparation } = groove;
  if (jointTypes.length > 0 && jointTypes.every((joint) => withoutGroove.has(joint))) {
    const allowed = `none with the joint types ${jointTypes.join(', ')}`;
    const text = `a ${jointTypes.join(' or ')} weld has no groove preparation`;
    return [fault('groove', preparation.kind, allowed, text)];
  }
  const found: Fault[] = [];
  if (isStated(limits)) {
    const outside =
      (limits.min !== null && thicknessMm < limits.min) ||
      (limits.max !== null && thicknessMm > limits.max);
    const allowed = `the thickness range of this procedure, ${rangeWords(limits, 'mm')}`;
    const text = `the drawn plate of ${thicknessMm} mm is outside ${allowed}`;
    if (outside) found.push(fault('groove.thicknessMm', thicknessMm, allowed, text));
  }
  const impossible = grooveFault({ thicknessMm, depthMm, preparation });
  if (impossible !== null) {
    const { field, given, allowed, text } = impossible;
    const at = field === 'grooveDepthMm' ? 'depthMm' : field;
    found.push(fault(`groove.${at}`, given, allowed, text));
  }
  return found;
}

function beadFaults({ bead, weaveMaxMm }: WpsDetails): Fault[] {
  if (bead !== 'stringer' || weaveMaxMm === null) return [];
  const allowed = 'empty for stringer beads, or weaving chosen';
  const text = `stringer beads are not woven, and a weave of ${weaveMaxMm} mm is given`;
  return [fault('weaveMaxMm', weaveMaxMm, allowed, text)];
}

function heatFaults({ ranges, details }: Stated): Fault[] {
  const { interpassMinC, postHeatC, postHeatMin } = details;
  const { interpassMaxC } = ranges;
  const found: Fault[] = [];
  if (interpassMinC !== null && interpassMaxC !== null && interpassMinC > interpassMaxC) {
    const text = `interpass at least ${interpassMinC} °C is above interpass at most ${interpassMaxC} °C`;
    found.push(fault('interpassMinC', interpassMinC, `up to ${interpassMaxC} °C`, text));
  }
  if (postHeatMin !== null && postHeatC === null) {
    const text = `post-heating of ${postHeatMin} min has no temperature`;
    found.push(fault('postHeatC', 'nothing', 'a temperature in °C beside the time', text));
  }
  if (postHeatC !== null && postHeatMin === null) {
    const text = `post-heating at ${postHeatC} °C has no time`;
    found.push(fault('postHeatMin', 'nothing', 'a time in min beside the temperature', text));
  }
  return found;
}
