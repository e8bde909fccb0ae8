import type { SetUp } from '@tackboard/contract';
import { expect, it } from 'vitest';
import { differences } from './memory.js';

type Facts = Parameters<typeof differences>[0];
const setUp = {
  ...{ frozenBy: 'Orla Winterbeck', programName: 'P-143', programRevision: '4' },
  ...{ fixtureCode: 'FX-031', fixtureCondition: 'good', wireName: 'Solid wire 1.2' },
  gasName: 'Mixed gas',
} as unknown as SetUp;
const asKept: Facts = {
  ...{ setUp, cellCode: 'R1', keptElsewhere: [], lastGoodOn: '2026-03-14' },
  lastGood: {
    ...{ jobNumber: 12, quantity: 12, frozenAt: '2026-03-14T09:00:00.000Z' },
    ...{ frozenBy: 'Orla Winterbeck', wpsLabel: 'WPS-014 r3' },
  },
  ...{ programReadAtClose: true, wpsLabel: 'WPS-014 r3', programOnFile: '4' },
  ...{ wireLoaded: 'Solid wire 1.2', gasLoaded: 'Mixed gas' },
};

it('names nothing where all is as it was', () => {
  expect(differences(asKept)).toEqual([]);
});

it.each<[string, Partial<Facts>, string]>([
  [
    'another revision of the procedure',
    { wpsLabel: 'WPS-014 r4' },
    'under WPS-014 r3 on 14 Mar 2026, now WPS-014 r4',
  ],
  [
    'a program that was not read',
    { programReadAtClose: false },
    'nobody read the program revision',
  ],
  ['another program on file', { programOnFile: '5' }, 'had P-143 revision 4, on file is 5'],
  [
    'another wire',
    { wireLoaded: 'Cored wire 1.2' },
    'made with Solid wire 1.2; loaded is Cored wire 1.2',
  ],
  ['no gas', { gasLoaded: null }, 'made with Mixed gas; loaded is nothing'],
  ['a fixture', { setUp: { ...setUp, fixtureCondition: 'repair' } }, 'put away as in repair'],
  ['a set-up that no run has proved', { lastGood: null, lastGoodOn: null }, 'no run has proved'],
  ['nothing kept here', { setUp: null, keptElsewhere: ['R2'] }, 'the set-up of R2 is on file'],
  ['nothing kept at all', { setUp: null }, 'No run of this step has been kept yet.'],
])('%s', (_words, changes, words) => {
  const told = differences({ ...asKept, ...changes });
  expect(told).toHaveLength(1);
  expect(told[0]).toContain(words);
});
