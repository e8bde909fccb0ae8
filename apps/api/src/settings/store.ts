import { ShopSettings } from '@tackboard/contract';
import type { Db, TransactionClient } from '../db/client.js';

export type SettingsValue = Omit<ShopSettings, 'version'>;

const name = 'shop';
const Value = ShopSettings.omit({ version: true });
/** How a shop works until its manager says otherwise. */
const first: ShopSettings = { unitSystem: 'metric', version: 1 };

export function settingsReader(db: Db) {
  return {
    async settings(): Promise<ShopSettings> {
      const row = await db.setting.findUnique({ where: { name } });
      return row === null ? first : { ...Value.parse(row.value), version: row.version };
    },
  };
}

export function settingsWriter(tx: TransactionClient) {
  return {
    ...settingsReader(tx),
    async setSettings(value: SettingsValue, version: number): Promise<void> {
      const fields = { value, version };
      await tx.setting.upsert({ where: { name }, create: { name, ...fields }, update: fields });
    },
  };
}
