import type { Foundation } from '../foundation.js';
import { createCertificates } from './certificates.js';
import { createConfirmations } from './confirmations.js';
import { createRegister } from './register.js';
import { createPassword } from './password.js';
import { createSecrets } from './secrets.js';
import { createSessions } from './sessions.js';
import { createSignIn } from './sign-in.js';
import { createFirstRun } from './first-run.js';
import { createTablets } from './tablets.js';

export type PeopleService = ReturnType<typeof createPeopleService>;

export function createPeopleService(foundation: Foundation) {
  const sessions = createSessions(foundation);
  return {
    whoIs: sessions.whoIs,
    session: sessions.session,
    ...createFirstRun(foundation, sessions),
    ...createSignIn(foundation, sessions),
    ...createPassword(foundation),
    ...createRegister(foundation),
    ...createSecrets(foundation),
    ...createTablets(foundation),
    ...createCertificates(foundation),
    ...createConfirmations(foundation),
  };
}
