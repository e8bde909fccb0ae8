import { expect, it } from 'vitest';
import { consumableLines } from './consumable-lines.js';

type Facts = Parameters<typeof consumableLines>[0];
const facts = (certificate: string | null, part: { coded?: boolean; traceability?: string } = {}) =>
  ({
    ...{ setUp: null, wps: null, traceability: part.traceability ?? 'batch' },
    ...{ cell: { code: 'R1' }, record: { coded: part.coded ?? false } },
    loads: [
      {
        ...{ kind: 'wire', itemId: 'w', itemName: 'Solid wire 1.2', designation: 'G3Si1' },
        ...{ unit: 'kg', lotNumber: 'L-77', leftAmount: 5, certificate },
      },
    ],
  }) as unknown as Facts;
const line = (...given: Parameters<typeof facts>) =>
  consumableLines(facts(...given)).find(({ rule }) => rule === 'wireCertificate');

it.each([
  ['general work is told', {}, 'tell', 'no certificate on file.'],
  ['a coded part is gated', { coded: true }, 'gate', 'the part is coded'],
  ['a part traced by piece is gated', { traceability: 'piece' }, 'gate', 'traced by piece'],
  ['a part traced by weld is gated', { traceability: 'weld' }, 'gate', 'traced by weld'],
])('a lot without certificate: %s', (_words, part, strength, text) => {
  for (const certificate of [null, '', ' ']) {
    expect(line(certificate, part)).toMatchObject({ strength });
    expect(line(certificate, part)?.text).toContain(text);
  }
  expect(line('3.1 0774', part)).toBeUndefined();
});
