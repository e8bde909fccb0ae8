import { describe, expect, it } from 'vitest';
import { travelFromDial, travelOnDial } from './travel.js';

describe('travel on the dial', () => {
  it('reads 52 cm/min as 520 mm/min (ten millimetres in a centimetre)', () => {
    expect(travelFromDial(52, 'cm/min')).toBe(520);
  });

  it('shows 508 mm/min as 20 in/min (international inch, 25.4 mm by definition, 1959)', () => {
    expect(travelOnDial(508, 'in/min')).toBeCloseTo(20, 12);
  });

  it('keeps millimetres as they are', () => {
    expect(travelFromDial(travelOnDial(433.5, 'mm/min'), 'mm/min')).toBe(433.5);
  });
});
