import { people, records, type Route } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { everyone, expectGuarded, signedIn, type Guard } from '../support/guarded.js';

const badPerson = { params: { personId: 'W07' }, body: {}, field: 'params.personId' };
const person = { code: 'W20', name: 'Wilma Torrund', role: 'welder' };

const doors: readonly (readonly [Route, Guard])[] = [
  [people.session, { allowed: everyone }],
  [
    people.firstRun,
    {
      allowed: everyone,
      malformed: [
        { body: {}, field: 'body.code' },
        { body: { code: 'M1', name: 'M', password: 'elevenchars' }, field: 'body.password' },
      ],
    },
  ],
  [
    people.signIn,
    {
      allowed: everyone,
      malformed: [
        { body: { code: 'W07' }, field: 'body.password' },
        { body: { code: ' ', password: 'x' }, field: 'body.code' },
        { body: [], field: 'body' },
      ],
    },
  ],
  [
    people.signInWithPin,
    {
      allowed: ['tablet'],
      malformed: [
        { body: { code: 'W07', pin: '12345' }, field: 'body.pin' },
        { body: { code: 'W07', pin: 123456 }, field: 'body.pin' },
      ],
    },
  ],
  [people.signOut, { allowed: ['tablet', ...signedIn], endsSession: true }],
  [
    people.changePassword,
    {
      allowed: signedIn,
      malformed: [{ body: { oldPassword: 'x', newPassword: 'short' }, field: 'body.newPassword' }],
    },
  ],
  [people.roster, { allowed: ['tablet', ...signedIn] }],
  [people.list, { allowed: signedIn }],
  [
    people.add,
    {
      allowed: ['manager'],
      malformed: [
        { body: {}, field: 'body.code' },
        { body: { ...person, role: 'admin' }, field: 'body.role' },
        { body: { ...person, name: 'Wil\u0007ma' }, field: 'body.name' },
        { body: { ...person, name: 'Wil\ud800ma' }, field: 'body.name' },
        { body: { ...person, code: 'W'.repeat(41) }, field: 'body.code' },
        { body: { ...person, code: '<W20>' }, field: 'body.code' },
      ],
    },
  ],
  [
    people.edit,
    {
      allowed: ['manager'],
      malformed: [
        badPerson,
        { body: { name: 'Wilma Torrund' }, field: 'body.expectedVersion' },
        { body: { expectedVersion: 1.5 }, field: 'body.expectedVersion' },
      ],
    },
  ],
  [people.issuePin, { allowed: ['manager'], malformed: [badPerson] }],
  [
    people.setPassword,
    {
      allowed: ['manager'],
      malformed: [badPerson, { body: { password: 'elevenchars' }, field: 'body.password' }],
    },
  ],
  [people.sessions, { allowed: ['manager'], malformed: [{ ...badPerson, body: undefined }] }],
  [
    people.revokeSession,
    {
      allowed: ['manager'],
      malformed: [{ params: { sessionId: '1' }, field: 'params.sessionId' }],
    },
  ],
  [people.tablets, { allowed: ['manager'] }],
  [
    people.registerTablet,
    {
      allowed: ['manager'],
      malformed: [{ body: { name: 'Tablet', cellId: 'R1' }, field: 'body.cellId' }],
    },
  ],
  [
    people.revokeTablet,
    { allowed: ['manager'], malformed: [{ params: { tabletId: '1' }, field: 'params.tabletId' }] },
  ],
  [
    people.certificates,
    { allowed: signedIn, malformed: [{ query: { personId: 'W07' }, field: 'query.personId' }] },
  ],
  [
    people.addCertificate,
    {
      allowed: ['qa', 'coordinator'],
      malformed: [
        badPerson,
        { body: { testedOn: '2026-02-31' }, field: 'body.testedOn' },
        { body: { thicknessMm: { min: 12, max: 3 } }, field: 'body.thicknessMm' },
      ],
    },
  ],
  [
    people.confirmCertificate,
    {
      allowed: ['coordinator'],
      malformed: [
        { body: { confirmedOn: '2026-10-05', evidence: 'too short' }, field: 'body.evidence' },
      ],
    },
  ],
  [
    records.history,
    {
      allowed: signedIn,
      malformed: [
        { params: { subjectType: 'weather', subjectId: '1' }, field: 'params.subjectType' },
        {
          params: { subjectType: 'person', subjectId: '1' },
          query: { limit: '201' },
          field: 'query.limit',
        },
        {
          params: { subjectType: 'person', subjectId: '1' },
          query: { before: 'then' },
          field: 'query.before',
        },
      ],
    },
  ],
  [records.health, { allowed: everyone }],
];

describe('the doors of people and records', () => {
  let shop: TestShop;
  beforeAll(async () => {
    shop = await startTestShop();
  });
  afterAll(async () => shop.close());

  it('are all looked at here', () => {
    const known = [...Object.values<Route>(people), ...Object.values<Route>(records)];
    expect(doors.map(([route]) => route.id).sort()).toEqual(known.map((route) => route.id).sort());
  });

  it.each(doors.map(([route, guard]) => ({ name: route.id, route, guard })))(
    '$name lets in who may, and reads nothing malformed',
    async ({ route, guard }) => {
      // Guessing at sign-in makes the next one wait.
      shop.clock.set(new Date(shop.clock.now().getTime() + 16 * 60_000).toISOString());
      await expectGuarded(shop, route, guard);
    },
  );
});
