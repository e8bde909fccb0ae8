import { week, weekCsv } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { enforce, registerRoute } from '../http/register-route.js';
import type { WeekService } from './service.js';

export function weekRoutes(app: FastifyInstance, service: WeekService): void {
  registerRoute(app, week.get, async ({ query }) => service.week(query.from));
  app.get(
    weekCsv.path,
    {
      schema: { querystring: weekCsv.query },
      preValidation: async (request) => {
        enforce(weekCsv, request);
      },
    },
    async (request, reply) => {
      const { fileName, text } = await service.csv(weekCsv.query.parse(request.query).from);
      return reply
        .header('content-type', 'text/csv; charset=utf-8')
        .header('content-disposition', `attachment; filename="${fileName}"`)
        .send(text);
    },
  );
}
