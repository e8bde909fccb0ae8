import { settings } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import { registerRoute } from '../http/register-route.js';
import type { SettingsService } from './service.js';

export function settingsRoutes(app: FastifyInstance, service: SettingsService): void {
  registerRoute(app, settings.get, async () => service.get());
  registerRoute(app, settings.set, async ({ actor, body }) => service.set(actor, body));
}
