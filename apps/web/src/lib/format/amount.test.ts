import { readEntry } from '@tackboard/calc';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { echoesOf, fieldOf, fieldText, numberShown, stepShown, unitShown } from './amount.js';

/** The inch is 25.4 mm, the pound 0.45359237 kg (1959), 0 °C is 32 °F: worked by hand from these. */
describe('amounts on screens', () => {
  it.each([
    [6, 'mm', '0.236 in'],
    [520, 'mm/min', '20.5 in/min'],
    [9.525, 'm/min', '375 in/min'],
    [1, 'kJ/mm', '25.4 kJ/in'],
    [100, '°C', '212 °F'],
    [15, 'kg', '33.069 lb'],
    [16, 'l/min', '33.9 cfh'],
    [250, 'A', '250 A'],
  ])('independent: %d %s is %s in a US customary shop', (value, stored, text) => {
    expect(`${numberShown(value, stored, 'us')} ${unitShown(stored, 'us')}`).toBe(text);
  });

  it('independent: shows metric as stored, and a dial in its own unit: 520 mm/min is 52 cm/min', () => {
    expect(`${numberShown(6, 'mm', 'metric')} ${unitShown('mm', 'metric')}`).toBe('6 mm');
    expect(numberShown(520, 'mm/min', 'us', { dial: 'cm/min' })).toBe('52');
    expect(unitShown('mm/min', 'us', 'cm/min')).toBe('cm/min');
    expect(unitShown('degC', 'metric')).toBe('°C');
  });

  it('independent: a step of 5 °C is one of 9 °F', () => {
    expect(stepShown(5, '°C', 'us')).toBeCloseTo(9, 9);
    expect(stepShown(0.05, 'kJ/mm', 'us')).toBeCloseTo(1.27, 9);
  });

  it('keeps a value apart from a limit that it only just misses', () => {
    expect(numberShown(0.951, 'kJ/mm', 'us')).not.toBe(numberShown(0.95, 'kJ/mm', 'us'));
  });

  it('independent: echoes 52 cm/min as 520 mm/min, and a throat in the other system', () => {
    const dial = fieldOf('mm/min', 'metric', 'cm/min');
    expect(dial && echoesOf(520, dial)).toEqual(['520 mm/min', '20.5 in/min']);
    const inches = fieldOf('mm', 'us');
    expect(inches && echoesOf(6.35, inches)).toEqual(['6.35 mm']);
  });

  it('pinned: the dial of a cell is that of its travel; wire is fed in m/min beside it', () => {
    expect(fieldOf('m/min', 'metric', 'mm/min')?.unit).toBe('m/min');
    expect(numberShown(8.4, 'm/min', 'metric', { dial: 'cm/min' })).toBe('8.4');
    expect(fieldOf('m/min', 'us', 'cm/min')?.unit).toBe('in/min');
  });

  it('shows what was typed after it was stored, in either system and on every dial', () => {
    const fields = (['mm', 'mm/min', 'm/min', 'kg', 'l/min', 'kJ/mm', '°C'] as const).flatMap(
      (stored) => (['metric', 'us'] as const).map((system) => ({ stored, system })),
    );
    const dials = fc.constantFrom(undefined, 'mm/min', 'cm/min', 'in/min');
    const digits = fc.integer({ min: 0, max: 999_999 });
    fc.assert(
      fc.property(fc.constantFrom(...fields), dials, digits, (one, dial, whole) => {
        const field = fieldOf(one.stored, one.system, dial);
        if (field === null) throw new Error(`${one.stored} has no other unit`);
        const typed = String(whole / 1000);
        const stored = readEntry({ ...field, text: typed });
        expect(stored.ok && fieldText(stored.value, field)).toBe(typed);
      }),
    );
  });
});
