import { z } from 'zod';
import { access, roles } from './access.js';
import { defineRoute } from './route.js';
import { changesOf, Code, Day, Done, Id, Instant, Range, text, Version } from './values.js';

export const languages = ['en', 'de', 'es', 'pl'] as const;

export const Person = z.object({
  id: Id,
  version: Version,
  code: z.string(),
  name: z.string(),
  role: z.enum(roles),
  coordinator: z.boolean(),
  language: z.enum(languages),
  active: z.boolean(),
  hasPassword: z.boolean(),
  hasPin: z.boolean(),
});
export type Person = z.infer<typeof Person>;

const Password = z
  .string()
  .min(12, 'must have at least 12 characters')
  .max(200, 'must have at most 200 characters');

export const SessionView = z.object({
  person: Person.nullable(),
  tablet: z.object({ id: Id, name: z.string(), cellId: Id, cellCode: z.string() }).nullable(),
  /** True while no person exists: the first manager is still to be created. */
  firstRun: z.boolean(),
  timeZone: z.string(),
});
export type SessionView = z.infer<typeof SessionView>;

const PersonParams = z.object({ personId: Id });
const PersonInput = z.object({
  code: Code,
  name: text(120),
  role: z.enum(roles),
  coordinator: z.boolean().default(false),
  language: z.enum(languages).default('en'),
});

export const certificateKinds = ['welder', 'operator', 'setter'] as const;

const CertificateInput = z.object({
  kind: z.enum(certificateKinds),
  number: text(60),
  code: text(60),
  edition: text(20),
  process: text(10),
  cellId: Id.nullable().default(null),
  jointTypes: z.array(text(20)).max(10),
  positions: z.array(text(10)).max(20),
  materialGroups: z.array(text(20)).max(20).default([]),
  fillerGroups: z.array(text(20)).max(20).default([]),
  thicknessMm: Range,
  diameterMm: Range.nullable().default(null),
  testedOn: Day,
  validUntil: Day.nullable().default(null),
  renewalRoute: text(200).nullable().default(null),
  examiner: text(120).nullable().default(null),
  functionTestOn: Day.nullable().default(null),
});

export const Confirmation = z.object({
  id: Id,
  confirmedOn: Day,
  enteredAt: Instant,
  confirmedBy: z.string(),
  evidence: z.string(),
});

export const Certificate = CertificateInput.extend({
  id: Id,
  version: Version,
  personId: Id,
  personCode: z.string(),
  personName: z.string(),
  revokedOn: Day.nullable(),
  confirmations: z.array(Confirmation),
  /** Last day on which the latest confirmation still holds; null when there is none. */
  confirmedUntil: Day.nullable(),
  /** Today's standing. */
  standing: z.enum(['current', 'lapsing', 'lapsed', 'revoked']),
});
export type Certificate = z.infer<typeof Certificate>;

export const SignedInSession = z.object({
  id: Id,
  startedAt: Instant,
  lastUsedAt: Instant,
  endsAt: Instant,
  tabletName: z.string().nullable(),
  current: z.boolean(),
});

export const Tablet = z.object({
  id: Id,
  version: Version,
  name: z.string(),
  cellId: Id,
  cellCode: z.string(),
  registeredAt: Instant,
  revokedAt: Instant.nullable(),
});

const area = 'people';
export const people = {
  session: defineRoute({
    id: 'session',
    area,
    method: 'GET',
    path: '/api/session',
    summary: 'Who is signed in, and at which tablet',
    access: access.public,
    reply: SessionView,
    refusals: [],
  }),
  firstRun: defineRoute({
    id: 'firstRun',
    area,
    method: 'POST',
    path: '/api/first-run',
    summary: 'Create the first manager of an empty shop',
    access: access.public,
    body: z.object({ code: Code, name: text(120), password: Password }),
    reply: SessionView,
    refusals: ['NOT_NOW'],
  }),
  signIn: defineRoute({
    id: 'signIn',
    area,
    method: 'POST',
    path: '/api/session',
    summary: 'Sign in with code and password',
    access: access.public,
    body: z.object({
      code: z.string().trim().min(1).max(40),
      password: z.string().min(1).max(200),
    }),
    reply: SessionView,
    refusals: ['WRONG_CREDENTIALS', 'TOO_MANY_ATTEMPTS'],
  }),
  signInWithPin: defineRoute({
    id: 'signInWithPin',
    area,
    method: 'POST',
    path: '/api/session/pin',
    summary: 'Sign in with code and PIN at a registered tablet',
    access: access.tablet,
    body: z.object({
      code: z.string().trim().min(1).max(40),
      pin: z.string().regex(/^\d{6}$/, 'must be the 6 digits that were issued'),
    }),
    reply: SessionView,
    refusals: ['WRONG_CREDENTIALS', 'TOO_MANY_ATTEMPTS'],
  }),
  signOut: defineRoute({
    id: 'signOut',
    area,
    method: 'DELETE',
    path: '/api/session',
    summary: 'Sign out',
    access: access.tabletOrPerson,
    reply: Done,
    refusals: [],
  }),
  changePassword: defineRoute({
    id: 'changePassword',
    area,
    method: 'POST',
    path: '/api/session/password',
    summary: 'Change the own password',
    access: access.signedIn,
    body: z.object({ oldPassword: z.string().max(200), newPassword: Password }),
    reply: Done,
    refusals: ['WRONG_CREDENTIALS', 'TOO_MANY_ATTEMPTS'],
  }),
  /** Names to tap at the cell: no more than code and name. */
  roster: defineRoute({
    id: 'roster',
    area,
    method: 'GET',
    path: '/api/roster',
    summary: 'Codes and names of the people who weld, for the PIN screen',
    access: access.tabletOrPerson,
    reply: z.object({ people: z.array(z.object({ code: z.string(), name: z.string() })) }),
    refusals: [],
  }),
  list: defineRoute({
    id: 'listPeople',
    area,
    method: 'GET',
    path: '/api/people',
    summary: 'All people of the shop',
    access: access.signedIn,
    reply: z.object({ people: z.array(Person) }),
    refusals: [],
  }),
  add: defineRoute({
    id: 'addPerson',
    area,
    method: 'POST',
    path: '/api/people',
    summary: 'Add a person',
    access: access.manager,
    body: PersonInput,
    reply: Person,
    refusals: ['DUPLICATE'],
  }),
  edit: defineRoute({
    id: 'editPerson',
    area,
    method: 'PATCH',
    path: '/api/people/:personId',
    summary: 'Change a person',
    access: access.manager,
    params: PersonParams,
    body: changesOf(PersonInput).extend({
      expectedVersion: Version,
      active: z.boolean().optional(),
    }),
    reply: Person,
    refusals: ['NOT_FOUND', 'STALE', 'DUPLICATE', 'NOT_NOW'],
  }),
  issuePin: defineRoute({
    id: 'issuePin',
    area,
    method: 'POST',
    path: '/api/people/:personId/pin',
    summary: 'Issue a new 6-digit PIN; it is shown once',
    access: access.manager,
    params: PersonParams,
    reply: z.object({ pin: z.string() }),
    refusals: ['NOT_FOUND'],
  }),
  setPassword: defineRoute({
    id: 'setPassword',
    area,
    method: 'POST',
    path: '/api/people/:personId/password',
    summary: 'Set a first or a new password for a person',
    access: access.manager,
    params: PersonParams,
    body: z.object({ password: Password }),
    reply: Done,
    refusals: ['NOT_FOUND'],
  }),
  sessions: defineRoute({
    id: 'listSessions',
    area,
    method: 'GET',
    path: '/api/people/:personId/sessions',
    summary: 'Open sessions of a person',
    access: access.manager,
    params: PersonParams,
    reply: z.object({ sessions: z.array(SignedInSession) }),
    refusals: ['NOT_FOUND'],
  }),
  revokeSession: defineRoute({
    id: 'revokeSession',
    area,
    method: 'DELETE',
    path: '/api/sessions/:sessionId',
    summary: 'End a session',
    access: access.manager,
    params: z.object({ sessionId: Id }),
    reply: Done,
    refusals: ['NOT_FOUND'],
  }),
  tablets: defineRoute({
    id: 'listTablets',
    area,
    method: 'GET',
    path: '/api/tablets',
    summary: 'Registered cell tablets',
    access: access.manager,
    reply: z.object({ tablets: z.array(Tablet) }),
    refusals: [],
  }),
  registerTablet: defineRoute({
    id: 'registerTablet',
    area,
    method: 'POST',
    path: '/api/tablets',
    summary: 'Register this device as the tablet of a cell',
    access: access.manager,
    body: z.object({ name: text(60), cellId: Id }),
    reply: Tablet,
    refusals: ['NOT_FOUND'],
  }),
  revokeTablet: defineRoute({
    id: 'revokeTablet',
    area,
    method: 'DELETE',
    path: '/api/tablets/:tabletId',
    summary: 'Withdraw a tablet; its sessions end',
    access: access.manager,
    params: z.object({ tabletId: Id }),
    reply: Done,
    refusals: ['NOT_FOUND'],
  }),
  certificates: defineRoute({
    id: 'listCertificates',
    area,
    method: 'GET',
    path: '/api/certificates',
    summary: 'Certificates with their ranges, confirmations and standing',
    access: access.signedIn,
    query: z.object({ personId: Id.optional() }),
    reply: z.object({ certificates: z.array(Certificate) }),
    refusals: [],
  }),
  addCertificate: defineRoute({
    id: 'addCertificate',
    area,
    method: 'POST',
    path: '/api/people/:personId/certificates',
    summary: 'Record a signed certificate with its printed ranges',
    access: access.qa,
    params: PersonParams,
    body: CertificateInput,
    reply: Certificate,
    refusals: ['NOT_FOUND', 'DUPLICATE'],
  }),
  confirmCertificate: defineRoute({
    id: 'confirmCertificate',
    area,
    method: 'POST',
    path: '/api/certificates/:certificateId/confirmations',
    summary: 'Sign the six-monthly confirmation',
    access: access.coordinator,
    params: z.object({ certificateId: Id }),
    body: z.object({
      confirmedOn: Day,
      evidence: text(500, 15),
      /** Runs on file that the signer has looked at. */
      runIds: z.array(Id).max(500).optional(),
    }),
    reply: Certificate,
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
};
