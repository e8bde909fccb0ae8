import type { WpsRanges } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { judgeSettings, settingsAfter } from './settings.js';

const kept = {
  ...{ currentA: 255, voltageV: 26.5, wireSpeedMMin: 9, travelMmMin: 520, gasFlowLMin: 15 },
  ...{ contactTipMm: 15, preheatC: null },
};
const ranges = {
  ...{ process: '135', currentA: { min: 230, max: 280 }, voltageV: { min: 25, max: 28 } },
  ...{ wireSpeedMMin: { min: 8, max: 10 }, travelMmMin: { min: 450, max: 600 } },
  ...{ heatInputKjMm: { min: 0.45, max: 0.95 }, heatInputBasis: 'heatInput' },
  ...{ preheatMinC: null, interpassMaxC: null },
} as unknown as WpsRanges;
const wps = { label: 'WPS-014 r3', ranges };
type Change = Parameters<typeof settingsAfter>[1][number];
const judge = (...changes: Change[]) => {
  const changed = changes.at(-1)?.variable as 'travelMmMin';
  return judgeSettings({
    settings: settingsAfter(kept, changes),
    changed,
    kept,
    wps,
    process: '135',
  });
};
const set = (variable: string, to: string): Change => ({ variable, to });

describe('settings after changes', () => {
  it('are the kept ones with the latest of each on top', () => {
    const changes = [
      set('wireSpeedMMin', '9.4'),
      set('programRevision', '5'),
      set('wireSpeedMMin', '9.6'),
    ];
    expect(settingsAfter(kept, changes)).toEqual({ ...kept, wireSpeedMMin: 9.6 });
    expect(settingsAfter(null, [set('contactTipMm', '18')])).toMatchObject({
      ...{ contactTipMm: 18, currentA: null },
    });
  });

  it('inside the procedure but away from the set-up is told', () => {
    const { result, words } = judge(set('wireSpeedMMin', '9.6'));
    expect(result).toBe('inside');
    expect(words).toEqual([
      'All that WPS-014 r3 limits is inside.',
      'The kept set-up has wire speed 9 m/min; now it is 9.6.',
    ]);
  });

  // 280 A x 28 V x 60 / (1000 x 300 mm/min) = 1.568 kJ/mm, x 0.8 for process 135 = 1.254 (ISO/TR 17671-1, k from memory).
  it('at 280 A, 28 V and 300 mm/min travel and heat input are outside', () => {
    const { result, words } = judge(
      set('currentA', '280'),
      set('voltageV', '28'),
      set('travelMmMin', '300'),
    );
    expect(result).toBe('outside');
    expect(words[0]).toContain(
      'Travel 300 mm/min is below 450; heat input 1.254 kJ/mm is above 0.95',
    );
    expect(words[0]).toContain('coordinator');
  });

  // The same at 450 mm/min: 1.045 x 0.8 = 0.836 kJ/mm.
  it('back at 450 mm/min all is inside again, limits included', () => {
    const changes = [set('currentA', '280'), set('voltageV', '28'), set('travelMmMin', '300')];
    expect(judge(...changes, set('travelMmMin', '450')).result).toBe('inside');
  });

  it('without a procedure it cannot be said', () => {
    const settings = settingsAfter(kept, []);
    const answer = judgeSettings({ settings, changed: 'currentA', kept, wps: null, process: null });
    expect(answer).toMatchObject({ result: 'cannotSay', lines: [] });
  });
});
