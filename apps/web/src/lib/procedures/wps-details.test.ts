import { noWpsDetails, WpsDetails } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { detailGroups, detailLabel, detailsDraft, detailsOf } from './wps-details.js';

describe('the details of a procedure in fields', () => {
  it('come back as they were, stated or not', () => {
    const stated: WpsDetails = {
      ...noWpsDetails,
      ...{ sides: 'both', bead: 'weave', weaveMaxMm: 14, currentKind: 'DC+', cleaning: 'Ground' },
      ...{ gasFlowLMin: { min: 12, max: null }, postHeatC: 250, postHeatMin: 120 },
    };
    for (const details of [noWpsDetails, stated])
      expect(detailsOf(detailsDraft(details))).toEqual(details);
  });

  it('have each a field with a label of its own, and the groove its own fields', () => {
    const keys = detailGroups.flatMap(({ fields }) => fields.map(({ key }) => key));
    const all = Object.keys(WpsDetails.shape).filter((key) => key !== 'groove');
    expect(keys.toSorted()).toEqual(all.toSorted());
    expect(new Set(keys.map(detailLabel)).size).toBe(keys.length);
  });
});
