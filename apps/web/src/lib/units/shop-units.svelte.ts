import { readEntry } from '@tackboard/calc';
import { settings, ShopSettings } from '@tackboard/contract';
import { call } from '../api/call.js';
import {
  echoesOf,
  fieldOf,
  fieldText,
  numberShown,
  signOf,
  stepShown,
  unitShown,
  valueShown,
  type NumberShape,
  type UnitSystem,
} from '../format/amount.js';
import { plainNumber } from '../format/number.js';
import { askOrRecall } from '../offline/answers.js';
import { m } from '../paraglide/messages.js';
import { readNumber } from '../ui/number-text.js';
import { plainUnit, type FieldUnit } from '../ui/units.js';

/** The units of the shop. Whatever a screen shows or reads of an amount goes through here; stored is metric. */
class ShopUnits {
  system = $state<UnitSystem>('metric');

  /** A tablet without network goes on in the units that it knew last. */
  async load(): Promise<void> {
    const now = await askOrRecall('settings', ShopSettings, async (signal) =>
      call(settings.get, { signal }),
    );
    this.system = now.unitSystem;
  }

  /** "0.236 in" for 6 stored in mm. */
  words(value: number, stored: string, shape: NumberShape = {}): string {
    return `${this.number(value, stored, shape)} ${this.unit(stored, shape.dial)}`.trim();
  }
  /** The number alone, where the unit stands in the heading. */
  number(value: number, stored: string, shape: NumberShape = {}): string {
    return numberShown(value, stored, this.system, shape);
  }
  unit(stored: string, dial?: string): string {
    return unitShown(stored, this.system, dial);
  }
  /** The value in the shown unit, unrounded, to be drawn. */
  value(value: number, stored: string, dial?: string): number {
    return valueShown(value, stored, this.system, dial);
  }
  /** A difference in words, such as a margin to a limit. */
  step(value: number, stored: string, dial?: string): string {
    const step = plainNumber(stepShown(value, stored, this.system, dial));
    return `${step} ${this.unit(stored, dial)}`.trim();
  }

  /** How a field of the forms works in these units. */
  readonly fieldUnit = (stored: string, dial?: string): FieldUnit => {
    const field = fieldOf(stored, this.system, dial);
    if (field === null) return plainUnit(stored);
    return {
      sign: signOf(field.unit),
      read: (typed) => {
        if (readNumber(typed).kind === 'empty') return { kind: 'empty' };
        const entry = readEntry({ ...field, text: typed });
        return entry.ok ? { kind: 'number', value: entry.value } : { kind: 'refused' };
      },
      text: (value) => fieldText(value, field),
      echo: (value) => m.units_echo({ amounts: echoesOf(value, field).join(' = ') }),
    };
  };
}

export const shopUnits = new ShopUnits();
