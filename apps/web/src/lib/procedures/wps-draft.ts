import { noWpsDetails, type BodyOf, type procedures, type Wps } from '@tackboard/contract';
import { rangesDraft, rangesOf } from './ranges-draft.js';
import { detailsDraft, detailsOf } from './wps-details.js';

export function wpsDraft(wps?: Wps) {
  return {
    number: wps?.number ?? '',
    title: wps?.title ?? '',
    code: wps?.code ?? '',
    description: wps?.joint.description ?? '',
    preparation: wps?.joint.preparation ?? '',
    runs: wps?.joint.runs ?? '',
    details: detailsDraft(wps?.details ?? noWpsDetails),
    technique: wps?.technique ?? '',
    wpqrIds: [...(wps?.wpqrIds ?? [])],
    changeNote: wps?.changeNote ?? '',
    ranges: rangesDraft(wps?.ranges),
  };
}

export type WpsDraft = ReturnType<typeof wpsDraft>;

/** What is sent for a draft; the version is added where a stored one is changed. */
export function wpsBody(draft: WpsDraft): Omit<BodyOf<typeof procedures.edit>, 'expectedVersion'> {
  const { title, code, description, preparation, runs, technique, wpqrIds, changeNote } = draft;
  return {
    ...{ title, code, technique, wpqrIds: [...wpqrIds], changeNote },
    joint: { description, preparation, runs },
    details: detailsOf(draft.details),
    ranges: rangesOf(draft.ranges),
  };
}
