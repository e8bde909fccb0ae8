import { startIsGiven } from '@tackboard/contract';
import { Refusal } from '../refusal.js';
import type { RunRecord } from './store.js';

/** Nothing is counted before somebody has confirmed what stands at the cell. */
export function refuseUnstarted({ view }: Pick<RunRecord, 'view'>): void {
  if (startIsGiven(view)) return;
  const first =
    view.start === null
      ? 'nobody has confirmed yet what stands there: part, wire and gas, fixture, settings, extraction. Confirm it first'
      : `${view.start.personCode} found the extraction or the guards not as they must be. Put them right and confirm the start again`;
  throw new Refusal(
    'NOT_NOW',
    `No part of job ${view.jobNumber} (${view.partNumber}) can be counted at ${view.cellCode}: ${first}.`,
    { current: view },
  );
}
