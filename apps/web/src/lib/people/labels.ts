import type { Certificate, Person } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

const roleWords = {
  office: m.people_role_office,
  welder: m.people_role_welder,
  qa: m.people_role_qa,
  manager: m.people_role_manager,
} as const satisfies Record<Person['role'], () => string>;

const kindWords = {
  welder: m.people_kind_welder,
  operator: m.people_kind_operator,
  setter: m.people_kind_setter,
} as const satisfies Record<Certificate['kind'], () => string>;

const standings = {
  current: { tone: 'good', word: m.people_standing_current },
  lapsing: { tone: 'tell', word: m.people_standing_lapsing },
  lapsed: { tone: 'stop', word: m.people_standing_lapsed },
  revoked: { tone: 'stop', word: m.people_standing_revoked },
} as const satisfies Record<Certificate['standing'], { tone: string; word: () => string }>;

export function roleWord(role: Person['role']): string {
  return roleWords[role]();
}

export function kindWord(kind: Certificate['kind']): string {
  return kindWords[kind]();
}

export function standingMark(standing: Certificate['standing']): {
  tone: 'good' | 'tell' | 'stop';
  word: string;
} {
  const { tone, word } = standings[standing];
  return { tone, word: word() };
}

const fieldWords: Readonly<Record<string, () => string>> = {
  'body.code': m.people_code,
  'body.name': m.people_name,
  'body.role': m.people_role,
  'body.language': m.people_language,
  'body.password': m.people_password,
  'body.newPassword': m.people_new_password,
  'body.oldPassword': m.people_old_password,
  'body.confirmedOn': m.people_confirmed_on,
  'body.evidence': m.people_evidence,
  'body.number': m.people_cert_number,
  'body.edition': m.people_cert_edition,
  'body.process': m.people_cert_process,
  'body.testedOn': m.people_cert_tested_on,
};

/** The label of a refused field as the person sees it on the screen. */
export function fieldLabel(field: string): string {
  return fieldWords[field]?.() ?? field.replace(/^body\./, '');
}
