import type { Foundation } from '../foundation.js';
import { createCertificates } from './certificates.js';
import { createRegister } from './register.js';
import { createSignIn } from './sign-in.js';
import { createTablets } from './tablets.js';

export type PeopleService = ReturnType<typeof createPeopleService>;

export function createPeopleService(foundation: Foundation) {
  return {
    ...createSignIn(foundation),
    ...createRegister(foundation),
    ...createTablets(foundation),
    ...createCertificates(foundation),
  };
}
