import fc from 'fast-check';
import { expect, it } from 'vitest';
import { settingQuestions, type AskedSettings, type TypedIn } from './plausibility.js';

const sound = {
  ...{ currentA: 255, voltageV: 26.5, travelMmMin: 520, wireSpeedMMin: 9, wireDiameterMm: 1.2 },
  ...{ gasFlowLMin: 16, preheatC: 100, throatMm: 4, legMm: 5.7, thinnerPlateMm: 8 },
};

it('asks nothing about settings that are like any other', () => {
  expect(settingQuestions(sound)).toEqual([]);
  expect(settingQuestions({})).toEqual([]);
});

/** What people type by mistake, made from what they meant by the factor of the slip. */
it.each<[code: string, typed: AskedSettings, perhaps: object]>([
  ['voltsAndAmpsSwapped', { currentA: 26.5, voltageV: 255 }, { currentA: 255, voltageV: 26.5 }],
  ['travelTenTimesHigh', { travelMmMin: 5200 }, { travelMmMin: 520 }],
  ['travelInCentimetres', { travelMmMin: 52 }, { travelMmMin: 520 }],
  ['travelInInches', { travelMmMin: 20 }, { travelMmMin: 508 }],
  ['travelInMetres', { travelMmMin: 0.52 }, { travelMmMin: 520 }],
  ['wireSpeedInInches', { wireSpeedMMin: 375 }, { wireSpeedMMin: 9.525 }],
  ['wireSpeedInMillimetres', { wireSpeedMMin: 9000 }, { wireSpeedMMin: 9 }],
  ['wireDiameterInInches', { wireDiameterMm: 0.045 }, { wireDiameterMm: 1.143 }],
  ['wireDiameterTenTimesHigh', { wireDiameterMm: 12 }, { wireDiameterMm: 1.2 }],
  ['gasFlowInCubicFeet', { gasFlowLMin: 35 }, { gasFlowLMin: 16.518 }],
  ['preheatInFahrenheit', { preheatC: 350 }, { preheatC: 176.667 }],
  ['throatAndLegSwapped', { throatMm: 5.7, legMm: 4 }, { throatMm: 4, legMm: 5.7 }],
  ['voltageOffTheLine', { voltageV: 12 }, { voltageV: 26.75 }],
])(
  'independent: asks %s with the value the slip was made from, and changes nothing',
  (code, typed, perhaps) => {
    const settings = Object.freeze({ ...sound, ...typed });
    const question = settingQuestions(settings).find((one) => one.code === code);
    expect(Object.keys(question!.perhaps)).toEqual(Object.keys(perhaps));
    for (const [name, value] of Object.entries(perhaps)) {
      expect(question!.perhaps).toHaveProperty(name, expect.closeTo(value as number, 3));
      expect(question!.given).toHaveProperty(name, settings[name as keyof AskedSettings]);
    }
  },
);

/** A cell whose dial reads cm/min; the numbers are what its welder typed, times ten for the stored mm/min. */
it.each<[typed: string, stored: number, asked: [string, number][]]>([
  ['52', 520, []],
  ['0,52', 5.2, [['travelInMetres', 520]]],
  [
    '520',
    5200,
    [
      ['travelTenTimesHigh', 520],
      ['travelInMillimetres', 520],
    ],
  ],
])('independent: %s cm/min is asked about by what the slip was', (_typed, stored, expected) => {
  const asked = settingQuestions({ travelMmMin: stored }, { travelMmMin: 'cm/min' });
  expect(asked.map(({ code, perhaps }) => [code, perhaps.travelMmMin])).toEqual(expected);
});

it.each<[code: string, typed: AskedSettings, typedIn: TypedIn, perhaps: number]>([
  ['wireSpeedInMetres', { wireSpeedMMin: 9 * 0.0254 }, { wireSpeedMMin: 'in/min' }, 9],
  ['wireDiameterInMillimetres', { wireDiameterMm: 1.2 * 25.4 }, { wireDiameterMm: 'in' }, 1.2],
  ['gasFlowInLitres', { gasFlowLMin: 8 * 0.4719474432 }, { gasFlowLMin: 'cfh' }, 8],
])('independent: asks %s where the field is US customary', (code, typed, typedIn, perhaps) => {
  const question = settingQuestions(typed, typedIn).find((one) => one.code === code);
  const [value] = Object.values(question?.perhaps ?? {});
  expect(value).toBeCloseTo(perhaps, 6);
});

it('asks about a fillet that its plate hardly carries', () => {
  const asked = settingQuestions({ throatMm: 8, thinnerPlateMm: 6 });
  expect(asked.map(({ code }) => code)).toEqual(['filletLargeForPlate']);
});

it('asks with the throat that was typed, not with a leg that follows from it', () => {
  const [question] = settingQuestions({ throatMm: 1.3e308, thinnerPlateMm: 4 });
  expect(question?.given).toEqual({ throatMm: 1.3e308, thinnerPlateMm: 4 });
});

it('only ever offers what is not unusual itself, and no value that is not a number', () => {
  const any = fc.option(fc.oneof(fc.double(), fc.double({ min: 0, max: 1e4, noNaN: true })));
  const names = Object.keys(sound) as (keyof AskedSettings)[];
  const settings = fc.record(Object.fromEntries(names.map((name) => [name, any])));
  fc.assert(
    fc.property(settings, (given) => {
      for (const { given: asked, perhaps } of settingQuestions(given)) {
        for (const value of [...Object.values(asked), ...Object.values(perhaps)]) {
          expect(Number.isFinite(value)).toBe(true);
        }
      }
    }),
  );
});
