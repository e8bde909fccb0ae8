import { expect, it } from 'vitest';
import { questionLines, unitEcho } from './setting-words.js';

it('echoes a dialled value in the other units', () => {
  expect(unitEcho('travelMmMin', 520)).toBe('= 52 cm/min = 20.5 in/min');
  expect(unitEcho('preheatC', 100)).toBe('= 212 °F');
  expect(unitEcho('currentA', 250)).toBeUndefined();
  expect(unitEcho('travelMmMin', null)).toBeUndefined();
});

it('asks in a sentence, with what was given and what may be meant', () => {
  const labels: Record<string, string> = { currentA: 'Current', voltageV: 'Voltage' };
  const units: Record<string, string> = { currentA: 'A', voltageV: 'V' };
  const asked = questionLines(
    { currentA: 26, voltageV: 255 },
    (key) => labels[key] ?? key,
    (key) => units[key] ?? '',
  );
  expect(asked).toEqual([
    'Current 26 A, Voltage 255 V – volts and amps look swapped. Meant: Current 255 A, Voltage 26 V? Nothing is changed.',
  ]);
});
