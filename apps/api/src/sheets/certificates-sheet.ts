import type { Certificate, Person } from '@tackboard/contract';
import type { Content } from 'pdfmake/interfaces.js';
import { dayWords } from '../orders/day-words.js';
import { fact, heading, paragraph, table, type Fact } from './blocks.js';
import type { Sheet } from './frame.js';
import { listed, rangeWords } from './words.js';

interface Held {
  readonly person: Pick<Person, 'code' | 'name'>;
  readonly certificates: readonly Certificate[];
  readonly cellCodes: ReadonlyMap<string, string>;
  /** Today at the shop; standing is that of this day. */
  readonly day: string;
  /** The day of an entry on the shop's clock. */
  readonly dayOf: (instant: string) => string;
}

const standings = {
  current: 'current',
  lapsing: 'current, lapses soon',
  lapsed: 'LAPSED',
  revoked: 'REVOKED',
} as const;

/** Everything that is on file of what a person is qualified for, with the confirmations that keep it. */
export function certificatesSheet(held: Held): Sheet {
  const { person, certificates, day } = held;
  return {
    title: 'Certificates of a person',
    subject: `${person.name}, ${person.code}`,
    revision: null,
    mark: null,
    showsWork: false,
    content: [
      paragraph(
        `Standing as of ${dayWords(day)}. The signed certificate is the authority, not this list.`,
      ),
      ...(certificates.length === 0
        ? [paragraph('No certificate is on file.')]
        : certificates.flatMap((each) => oneCertificate(each, held))),
    ],
  };
}

function oneCertificate(
  held: Certificate,
  { cellCodes, dayOf }: Pick<Held, 'cellCodes' | 'dayOf'>,
): Content[] {
  return [
    heading(`${held.number}: ${held.kind}, ${standings[held.standing]}`),
    ...certificateFacts(held, cellCodes).map(fact),
    held.confirmations.length === 0
      ? paragraph('No confirmation is on file.')
      : table(
          [
            { title: 'Confirmed on', width: 70 },
            { title: 'By', width: 100 },
            { title: 'Entered', width: 70 },
            { title: 'Evidence', width: '*' },
          ],
          held.confirmations.map(({ confirmedOn, confirmedBy, enteredAt, evidence }) => [
            ...[dayWords(confirmedOn), confirmedBy, dayWords(dayOf(enteredAt)), evidence],
          ]),
        ),
  ];
}

function certificateFacts(held: Certificate, cellCodes: ReadonlyMap<string, string>): Fact[] {
  const { cellId, revokedOn, functionTestOn } = held;
  return [
    ['Code and edition', `${held.code}:${held.edition}`],
    ['Process (ISO 4063)', held.process],
    ...(cellId === null ? [] : [['Cell', cellCodes.get(cellId) ?? cellId] as const]),
    ['Joints', listed(...held.jointTypes)],
    ['Positions', listed(...held.positions)],
    ['Material groups', listed(...held.materialGroups)],
    ['Filler groups', listed(...held.fillerGroups)],
    ['Thickness', rangeWords(held.thicknessMm, 'mm')],
    ['Outside diameter', rangeWords(held.diameterMm, 'mm')],
    ['Tested on', dayWords(held.testedOn)],
    ['Examiner', held.examiner],
    ['Valid until', dayOrNone(held.validUntil)],
    ['Confirmed until', dayOrNone(held.confirmedUntil)],
    ['Renewal', held.renewalRoute],
    ...(functionTestOn === null ? [] : [['Function test on', dayWords(functionTestOn)] as const]),
    ...(revokedOn === null ? [] : [['Revoked on', dayWords(revokedOn)] as const]),
  ];
}

function dayOrNone(day: string | null): string | null {
  return day === null ? null : dayWords(day);
}
