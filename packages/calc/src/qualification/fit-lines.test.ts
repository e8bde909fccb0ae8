import { describe, expect, it } from 'vitest';
import type { FitVariable } from './answer.js';
import {
  fitWeld,
  judgeReadings,
  type SettingFacts,
  type WeldFacts,
  type WpsRanges,
} from './fit.js';

/** Invented; every variable inside. */
const wps: WpsRanges = {
  ...{ process: '135', mechanisations: ['automatic'], materialGroups: ['1'] },
  ...{ jointTypes: ['fillet', 'butt'], positions: ['PB'], fillers: ['G3Si1'], gases: ['M21'] },
  ...{ thicknessMm: { min: 3, max: 12 }, throatMm: { min: 3, max: 6 } },
  ...{ wireDiameterMm: { min: 1.2, max: 1.2 }, currentA: { min: 230, max: 280 } },
  ...{ voltageV: { min: 25, max: 28 }, wireSpeedMMin: { min: 8, max: 10 } },
  ...{ travelMmMin: { min: 450, max: 600 }, heatInputKjMm: { min: 0.45, max: 0.95 } },
  ...{ heatInputBasis: 'heatInput', preheatMinC: 100, interpassMaxC: 250 },
};
const weld: WeldFacts = {
  ...{ process: '135', materialGroups: ['1.2'], thicknessesMm: [6], jointType: 'fillet' },
  ...{ throatMm: 4, position: 'PB' },
};
const settings: SettingFacts = {
  ...{ mechanisation: 'automatic', wireDiameterMm: 1.2, filler: 'G3Si1', gas: 'M21' },
  ...{ currentA: 250, voltageV: 26, wireSpeedMMin: 9, travelMmMin: 520 },
  ...{ preheatC: 110, interpassC: 180 },
};

interface Given {
  weld?: Partial<WeldFacts>;
  settings?: Partial<SettingFacts>;
  wps?: Partial<WpsRanges>;
}
function lines(given: Given = {}) {
  return fitWeld({
    weld: { ...weld, ...given.weld },
    settings: { ...settings, ...given.settings },
    wps: { ...wps, ...given.wps },
  }).lines;
}

it('independent: shows each variable with its unit and limits, in the order of the sheet', () => {
  // 250 A x 26 V x 60 / 520 mm/min / 1000 = 0.75 kJ/mm of arc, x 0.8 = 0.6 kJ/mm of heat (EN 1011-1).
  expect(
    lines().map(({ variable, given, unit, min, max }) => [variable, given, unit, min, max]),
  ).toEqual([
    ['process', '135', null, null, null],
    ['mechanisation', 'automatic', null, null, null],
    ['materialGroup', '1.2', null, null, null],
    ['thickness', 6, 'mm', 3, 12],
    ['jointType', 'fillet', null, null, null],
    ['throat', 4, 'mm', 3, 6],
    ['position', 'PB', null, null, null],
    ['wireDiameter', 1.2, 'mm', 1.2, 1.2],
    ['filler', 'G3Si1', null, null, null],
    ['gas', 'M21', null, null, null],
    ['current', 250, 'A', 230, 280],
    ['voltage', 26, 'V', 25, 28],
    ['wireSpeed', 9, 'm/min', 8, 10],
    ['travel', 520, 'mm/min', 450, 600],
    ['heatInput', expect.closeTo(0.6, 10), 'kJ/mm', 0.45, 0.95],
    ['preheat', 110, 'degC', 100, null],
    ['interpass', 180, 'degC', null, 250],
  ]);
});

describe('independent: the answer of one line, by hand', () => {
  it.each<[FitVariable, Given, string]>([
    ['process', { wps: { process: ' ' } }, 'cannotSay rangeMissing'],
    ['process', { weld: { process: '136' } }, 'outside notListed'],
    ['mechanisation', { settings: { mechanisation: null } }, 'cannotSay valueMissing'],
    ['throat', { weld: { jointType: 'butt' } }, 'none'],
    ['throat', { weld: { throatMm: null } }, 'cannotSay valueMissing'],
    ['heatInput', { settings: { currentA: null } }, 'cannotSay valueMissing'],
    ['heatInput', { settings: { voltageV: null } }, 'cannotSay valueMissing'],
    ['heatInput', { settings: { travelMmMin: null } }, 'cannotSay valueMissing'],
    ['heatInput', { settings: { travelMmMin: 0 } }, 'cannotSay valueMissing'],
    ['heatInput', { weld: { process: '311' } }, 'cannotSay factorUnknown'],
    [
      'heatInput',
      { weld: { process: '311' }, wps: { heatInputKjMm: null } },
      'cannotSay rangeMissing',
    ],
    [
      'heatInput',
      { weld: { process: '311' }, wps: { heatInputBasis: 'arcEnergy' } },
      'inside inRange',
    ],
    [
      'heatInput',
      {
        settings: { currentA: null },
        weld: { process: '311' },
        wps: { heatInputBasis: 'arcEnergy' },
      },
      'cannotSay valueMissing',
    ],
    ['preheat', { settings: { preheatC: 99 } }, 'outside tooCold'],
    ['preheat', { settings: { preheatC: 100 } }, 'inside inRange'],
    ['preheat', { settings: { preheatC: null } }, 'cannotSay valueMissing'],
    ['preheat', { wps: { preheatMinC: null }, settings: { preheatC: null } }, 'inside notDemanded'],
    ['interpass', { settings: { interpassC: 251 } }, 'outside tooHot'],
    ['interpass', { settings: { interpassC: 250 } }, 'inside inRange'],
    ['interpass', { settings: { interpassC: null } }, 'cannotSay valueMissing'],
    ['interpass', { wps: { interpassMaxC: null } }, 'none'],
  ])('%s of %o: %s', (variable, given, words) => {
    const line = lines(given).find((each) => each.variable === variable);
    expect(line === undefined ? 'none' : `${line.result} ${line.reason}`).toBe(words);
  });

  it('only what was read is judged, heat input where all three of the arc were', () => {
    const read = (readings: Parameters<typeof judgeReadings>[0]['readings']) =>
      judgeReadings({ readings, wps, process: '135' }).lines.map(({ variable }) => variable);
    expect(read({})).toEqual([]);
    expect(read({ currentA: 250, voltageV: 26 })).toEqual(['current', 'voltage']);
    expect(read({ currentA: 250, voltageV: 26, travelMmMin: 520 })).toEqual([
      ...['current', 'voltage', 'travel', 'heatInput'],
    ]);
    expect(read({ wireSpeedMMin: 9, preheatC: 0, interpassC: 200 })).toEqual([
      ...['wireSpeed', 'preheat', 'interpass'],
    ]);
  });
});
