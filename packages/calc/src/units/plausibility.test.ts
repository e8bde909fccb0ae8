import fc from 'fast-check';
import { expect, it } from 'vitest';
import { settingQuestions, type AskedSettings } from './plausibility.js';

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
