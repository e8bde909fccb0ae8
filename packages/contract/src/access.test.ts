import { describe, expect, it } from 'vitest';
import { access, mayCall, roles, type Role } from './access.js';

const caller = (role: Role, coordinator = false) => ({
  person: { role, coordinator },
  tablet: false,
});
const allowed = (rule: Parameters<typeof mayCall>[0], coordinator: boolean) =>
  roles.filter((role) => mayCall(rule, caller(role, coordinator)));

describe('mayCall', () => {
  it('lets the roles of a rule in, whoever is coordinator', () => {
    expect(allowed(access.qa, false)).toEqual(['qa']);
    expect(allowed(access.qa, true)).toEqual(['qa']);
  });

  it('asks for the authority of the coordinator where it is needed', () => {
    expect(allowed(access.coordinator, false)).toEqual([]);
    expect(allowed(access.coordinator, true)).toEqual([...roles]);
  });

  it('lets the coordinator of any role in where that authority is enough', () => {
    expect(allowed(access.oversight, false)).toEqual(['qa', 'manager']);
    expect(allowed(access.oversight, true)).toEqual([...roles]);
  });

  it('lets nobody in who is not signed in', () => {
    for (const rule of [access.oversight, access.coordinator, access.signedIn])
      expect(mayCall(rule, { person: null, tablet: true })).toBe(false);
  });
});
