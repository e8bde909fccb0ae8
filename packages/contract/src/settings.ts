import { z } from 'zod';
import { access } from './access.js';
import { defineRoute } from './route.js';
import { Reason, Version } from './values.js';

export const unitSystems = ['metric', 'us'] as const;
export type UnitSystem = (typeof unitSystems)[number];

/** What the whole shop agrees on. It decides what screens show and read; every value is sent and stored metric. */
const SettingsInput = z.object({ unitSystem: z.enum(unitSystems) });
export const ShopSettings = SettingsInput.extend({ version: Version });
export type ShopSettings = z.infer<typeof ShopSettings>;

const area = 'settings';
export const settings = {
  get: defineRoute({
    id: 'getSettings',
    area,
    method: 'GET',
    path: '/api/settings',
    summary: 'The settings of the shop: the units that screens show and read',
    access: access.tabletOrPerson,
    reply: ShopSettings,
    refusals: [],
  }),
  set: defineRoute({
    id: 'setSettings',
    area,
    method: 'PUT',
    path: '/api/settings',
    summary: 'Change the settings of the shop; stored values stay as they are',
    access: access.manager,
    body: SettingsInput.extend({ reason: Reason, expectedVersion: Version }),
    reply: ShopSettings,
    refusals: ['STALE'],
  }),
};
