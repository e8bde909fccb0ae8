import type { BodyOf, settings, ShopSettings } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import { changedFields } from '../events/changed-fields.js';
import type { Foundation } from '../foundation.js';
import { stale } from '../refusal.js';
import { settingsReader, settingsWriter, type SettingsValue } from './store.js';

export type SettingsService = ReturnType<typeof createSettingsService>;

export function createSettingsService({ database, uow }: Foundation) {
  return {
    async get(): Promise<ShopSettings> {
      return settingsReader(database.reader).settings();
    },

    async set(
      actor: Actor,
      { reason, expectedVersion, ...after }: BodyOf<typeof settings.set>,
    ): Promise<ShopSettings> {
      return uow.write(actor, async (unit) => {
        const store = settingsWriter(unit.tx);
        const before = await store.settings();
        if (before.version !== expectedVersion) throw stale('setting', before, expectedVersion);
        const version = before.version + 1;
        await store.setSettings(after, version);
        unit.append({
          type: 'setting.changed',
          ...{ subjectType: 'setting', subjectId: 'shop', version },
          ...changedFields<SettingsValue>(before, after),
          reason,
        });
        return { ...after, version };
      });
    },
  };
}
