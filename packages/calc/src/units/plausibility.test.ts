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

it('asks nothing about a number that is none, and nothing about nought', () => {
  expect(settingQuestions({ currentA: 0, voltageV: 26, travelMmMin: Infinity })).toEqual([]);
  const text = { currentA: '26', voltageV: '255' } as unknown as AskedSettings;
  expect(settingQuestions(text)).toEqual([]);
});

it('asks whether volts and amps are swapped only where the swapped pair is usual', () => {
  const codes = (currentA: number, voltageV: number) =>
    settingQuestions({ currentA, voltageV }).map(({ code }) => code);
  expect(codes(26.5, 255)).toEqual(['voltsAndAmpsSwapped']);
  expect(codes(255, 26.5)).toEqual([]);
  // 5 V is no arc, and 2000 A no welding current.
  expect(codes(5, 255)).toEqual(['voltageOffTheLine']);
  expect(codes(26.5, 2000)).toEqual(['voltageOffTheLine']);
  // Either way round a usual pair; amps are the larger number, or as large.
  expect(codes(48, 40)).toEqual(['voltageOffTheLine']);
  expect(codes(45, 45)).toEqual(['voltageOffTheLine']);
});

it('independent, by hand: 14 + 0.05 x 120 = 20 V; 28 V is 40 % above it and not yet asked about', () => {
  expect(settingQuestions({ currentA: 120, voltageV: 28 })).toEqual([]);
  expect(settingQuestions({ currentA: 120, voltageV: 28.1 })).toEqual([
    {
      ...{ code: 'voltageOffTheLine', given: { currentA: 120, voltageV: 28.1 } },
      perhaps: { voltageV: 20 },
    },
  ]);
});

it('asks about throat and leg only where both are typed and the throat is the larger', () => {
  expect(settingQuestions({ throatMm: 5.7 })).toEqual([]);
  expect(settingQuestions({ legMm: 4 })).toEqual([]);
  expect(settingQuestions({ throatMm: 4, legMm: 4 })).toEqual([]);
  expect(settingQuestions({ throatMm: 4, legMm: 3.9 })).toEqual([
    {
      ...{ code: 'throatAndLegSwapped', given: { throatMm: 4, legMm: 3.9 } },
      perhaps: { throatMm: 3.9, legMm: 4 },
    },
  ]);
});

it('independent, by hand: the leg may be 1.5 times the thinner plate: z9 on 6 mm, and no more', () => {
  expect(settingQuestions({ legMm: 9, thinnerPlateMm: 6 })).toEqual([]);
  expect(settingQuestions({ thinnerPlateMm: 6 })).toEqual([]);
  expect(settingQuestions({ legMm: 9.1, thinnerPlateMm: 6 })).toEqual([
    { code: 'filletLargeForPlate', given: { legMm: 9.1, thinnerPlateMm: 6 }, perhaps: {} },
  ]);
});

it('does not offer the number as of the unit that its field reads', () => {
  const codes = (typedIn: TypedIn) =>
    settingQuestions({ travelMmMin: 52 }, typedIn).map(({ code }) => code);
  expect(codes({})).toContain('travelInCentimetres');
  expect(codes({ travelMmMin: 'cm/min' })).not.toContain('travelInCentimetres');
});

it('takes the ends of what is usual as usual', () => {
  for (const travelMmMin of [100, 2000]) expect(settingQuestions({ travelMmMin })).toEqual([]);
  expect(settingQuestions({ wireSpeedMMin: 25, wireDiameterMm: 0.6 })).toEqual([]);
});
