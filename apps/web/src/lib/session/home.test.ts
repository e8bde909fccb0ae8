import type { SessionView } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { homeOf, returnPath, wayFrom } from './home.js';

const nobody: SessionView = {
  person: null,
  tablet: null,
  firstRun: false,
  timeZone: 'Europe/Berlin',
};
const tablet = { id: 't', name: 'R1 left', cellId: 'c', cellCode: 'R1' };

function person(role: 'office' | 'welder' | 'qa' | 'manager'): NonNullable<SessionView['person']> {
  return {
    id: 'p',
    version: 1,
    code: 'X',
    name: 'X',
    role,
    coordinator: false,
    language: 'en',
    active: true,
    hasPassword: true,
    hasPin: true,
  };
}

/** The four homes are the shop's own choice. */
describe('homeOf', () => {
  it.each([
    ['office', '/board'],
    ['welder', '/cell'],
    ['qa', '/procedures'],
    ['manager', '/week'],
  ] as const)('sends %s to %s', (role, path) => {
    expect(homeOf({ ...nobody, person: person(role) })).toBe(path);
  });
  it('keeps a cell tablet at the cell, signed in or not', () => {
    expect(homeOf({ ...nobody, tablet })).toBe('/cell');
    expect(homeOf({ ...nobody, tablet, person: person('manager') })).toBe('/cell');
  });
});

describe('wayFrom', () => {
  it('asks an empty shop for its first manager, wherever one starts', () => {
    expect(wayFrom({ ...nobody, firstRun: true }, '/board')).toBe('/first-run');
    expect(wayFrom({ ...nobody, firstRun: true }, '/first-run')).toBeNull();
    expect(wayFrom(nobody, '/first-run')).toBe('/sign-in');
    expect(wayFrom({ ...nobody, person: person('manager') }, '/first-run')).toBe('/people');
  });
  it('asks for a sign-in and remembers the way', () => {
    expect(wayFrom(nobody, '/orders/5')).toBe('/sign-in?then=%2Forders%2F5');
    expect(wayFrom(nobody, '/cell')).toBe('/sign-in?then=%2Fcell');
  });
  it('lets a tablet read its cell only', () => {
    expect(wayFrom({ ...nobody, tablet }, '/cell')).toBeNull();
    expect(wayFrom({ ...nobody, tablet }, '/cells')).toBe('/sign-in?then=%2Fcells');
  });
});

describe('returnPath', () => {
  const office = { ...nobody, person: person('office') };
  it('goes back to a path of this site', () => {
    expect(returnPath('/orders/5', office)).toBe('/orders/5');
  });
  it.each([
    'https://elsewhere.example',
    '//elsewhere.example',
    '/\\elsewhere.example',
    '',
    '/sign-in',
    '/',
  ])('ignores %j', (then) => {
    expect(returnPath(then, office)).toBe('/board');
  });
});
