import { people } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import { dropSession, keepSession, keepTablet } from '../http/session.js';
import type { PeopleService } from './service.js';

export function peopleRoutes(app: FastifyInstance, service: PeopleService): void {
  registerRoute(app, people.session, async ({ actor }) => service.session(actor));
  registerRoute(app, people.firstRun, async ({ actor, body, request }, reply) => {
    const { token, view } = await service.firstRun(actor, body);
    keepSession(reply, request, token);
    return view;
  });
  registerRoute(app, people.signIn, async ({ actor, body, request }, reply) => {
    const { token, view } = await service.signIn(actor, body, request.ip);
    keepSession(reply, request, token);
    return view;
  });
  registerRoute(app, people.signInWithPin, async ({ actor, body, request }, reply) => {
    const { token, view } = await service.signInWithPin(actor, body);
    keepSession(reply, request, token);
    return view;
  });
  registerRoute(app, people.signOut, async ({ actor, request }, reply) => {
    dropSession(reply, request);
    return service.signOut(actor);
  });
  registerRoute(app, people.changePassword, async ({ actor, body }) =>
    service.changePassword(actor, body),
  );
  registerRoute(app, people.roster, async () => service.roster());
  registerRoute(app, people.list, async () => service.list());
  registerRoute(app, people.add, async ({ actor, body }) => service.add(actor, body));
  registerRoute(app, people.edit, async ({ actor, params, body }) =>
    service.edit(actor, params.personId, body),
  );
  registerRoute(
    app,
    people.issuePin,
    async ({ actor, params }) => service.issuePin(actor, params.personId),
    { keepsNoAnswer: true },
  );
  registerRoute(app, people.setPassword, async ({ actor, params, body }) =>
    service.setPassword(actor, params.personId, body.password),
  );
  registerRoute(app, people.sessions, async ({ actor, params }) =>
    service.sessions(actor, params.personId),
  );
  registerRoute(app, people.revokeSession, async ({ actor, params }) =>
    service.revokeSession(actor, params.sessionId),
  );
  registerRoute(app, people.tablets, async () => service.tablets());
  registerRoute(app, people.registerTablet, async ({ actor, body, request }, reply) => {
    const { token, tablet } = await service.registerTablet(actor, body);
    keepTablet(reply, request, token);
    return tablet;
  });
  registerRoute(app, people.revokeTablet, async ({ actor, params }) =>
    service.revokeTablet(actor, params.tabletId),
  );
  registerRoute(app, people.certificates, async ({ query }) =>
    service.certificates(query.personId),
  );
  registerRoute(app, people.addCertificate, async ({ actor, params, body }) =>
    service.addCertificate(actor, params.personId, body),
  );
  registerRoute(app, people.confirmCertificate, async ({ actor, params, body }) =>
    service.confirmCertificate(actor, params.certificateId, body),
  );
}
