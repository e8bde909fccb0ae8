import { describe, expect, it } from 'vitest';
import { partsOf, valueOf } from '../testing/value-of.js';
import {
  depositionBand,
  depositionFromWeighing,
  measuredEfficiency,
  meltOffRate,
  wireLengthPerKg,
} from './deposition.js';
import { electricityDrawn, electricityPerKg } from './electricity.js';
import { electrodesForMetal, stickEfficiency } from './stick.js';
import { depositionRate, wireMassPerMetre } from './wire.js';

const kgPerLb = 0.45359237;
const mPerInch = 0.0254;
const densityKgM3 = (0.283 * kgPerLb) / mPerInch ** 3;

function inchesPerLb(inches: number): number {
  const metresPerKg = valueOf(wireLengthPerKg({ wireDiameterMm: inches * 25.4, densityKgM3 }));
  return (metresPerKg * kgPerLb) / mPerInch;
}

describe('wire', () => {
  /** printed: inches of mild-steel wire to the pound, ESAB MIG handbook; four of five cells are about 1 % off. */
  it.each([
    [0.03, 4956, 4998.98],
    [0.035, 3648, 3672.72],
    [0.045, 2196, 2221.77],
    [0.09375, 516, 511.895],
  ])('printed, disagrees: %f in, printed %i in/lb', (inches, printed, geometry) => {
    expect(inchesPerLb(inches)).toBeCloseTo(geometry, 1);
    expect(Math.abs(inchesPerLb(inches) / printed - 1)).toBeGreaterThan(0.005);
    expect(Math.abs(inchesPerLb(inches) / printed - 1)).toBeLessThan(0.013);
  });

  it('printed: 1/16 in, 1152 in/lb, within half a per cent', () => {
    expect(Math.abs(inchesPerLb(0.0625) / 1152 - 1)).toBeLessThan(0.005);
  });

  it('independent: .045 in is 1.143 mm and 9.3 % lighter than 1.2 mm', () => {
    const gM = (wireDiameterMm: number) => valueOf(wireMassPerMetre({ wireDiameterMm }));
    expect(gM(0.045 * 25.4) / gM(1.2)).toBeCloseTo((1.143 / 1.2) ** 2, 12);
  });
});

function meltOffLbH(lbPer1000In: number, wireSpeedInMin: number): number {
  const wireGM = (lbPer1000In * kgPerLb) / mPerInch;
  return valueOf(meltOffRate({ wireGM, wireSpeedMMin: wireSpeedInMin * mPerInch })) / kgPerLb;
}

describe('metal-cored wire', () => {
  /** printed: MC-715 data sheet, melt-off in lb/h; within 3 %. */
  it.each([
    [0.42, 110, 2.7],
    [0.42, 135, 3.4],
    [0.42, 185, 4.6],
    [0.42, 450, 11.6],
    [0.42, 650, 16.5],
    [0.765, 150, 7.0],
  ])('printed: %f lb per 1000 in at %i in/min melts %f lb/h', (weight, speed, printed) => {
    expect(Math.abs(meltOffLbH(weight, speed) / printed - 1)).toBeLessThan(0.03);
  });

  /** printed: the same sheet; its 1/16 in wire weight looks low against its own rates. */
  it.each([
    [0.42, 250, 6.5],
    [0.765, 250, 12.1],
    [0.765, 350, 16.9],
    [0.765, 450, 22.0],
  ])('printed, disagrees: %f lb per 1000 in at %i in/min, printed %f', (weight, speed, printed) => {
    const ratio = meltOffLbH(weight, speed) / printed;
    expect(ratio).toBeLessThan(0.97);
    expect(ratio).toBeGreaterThan(0.93);
  });

  /** printed: the same sheet, laid over melted, in whole per cent. */
  it.each([
    [2.4, 2.7, 89],
    [6.0, 6.5, 92],
    [10.6, 11.6, 91],
    [15.0, 16.5, 91],
  ])('printed: %f lb/h of %f lb/h is %i %%', (laidKg, meltedKg, printed) => {
    const share = valueOf(measuredEfficiency({ laidKg, meltedKg }));
    expect(Math.abs(share * 100 - printed)).toBeLessThanOrEqual(0.6);
  });

  it('holds the general 94 to 98 % and the data sheet of 88 to 92 % in one range', () => {
    const band = depositionBand({ process: '138', wireDiameterMm: 1.2, wireSpeedMMin: 9 });
    expect(partsOf(band)).toMatchObject({ lowestEfficiency: 0.88, highestEfficiency: 0.98 });
  });
});

describe('deposition', () => {
  it('independent: 1.2 mm at 8 m/min by 135 melts 4.2615 kg/h and lays 92 to 99 % of it', () => {
    // 8.87814 x 8 x 60 / 1000 = 4.26151; x 0.955 = 4.0697.
    const band = depositionBand({ process: '135', wireDiameterMm: 1.2, wireSpeedMMin: 8 });
    expect(valueOf(band)).toBeCloseTo(4.0697, 4);
    expect(partsOf(band).lowestKgH).toBeCloseTo(4.26151 * 0.92, 4);
    expect(partsOf(band).highestKgH).toBeCloseTo(4.26151 * 0.99, 4);
    expect(band).toMatchObject({ warnings: [] });
  });

  it('warns of a rate that Job Knowledge 97 does not give, and refuses a process without a wire', () => {
    const fast = depositionBand({ process: '135', wireDiameterMm: 1.6, wireSpeedMMin: 15 });
    expect(fast).toMatchObject({ ok: true, warnings: [{ code: 'depositionUnusual' }] });
    expect(depositionBand({ process: '111', wireDiameterMm: 3.2, wireSpeedMMin: 1 })).toMatchObject(
      { ok: false, refusal: { argument: 'process', given: '111' } },
    );
  });

  it('holds an efficiency against the range of the process that is named', () => {
    const wire = { wireDiameterMm: 1.2, wireSpeedMMin: 8, efficiency: 0.85 };
    expect(depositionRate({ ...wire, process: '136' })).toMatchObject({ warnings: [] });
    expect(depositionRate({ ...wire, process: '135' })).toMatchObject({
      warnings: [{ code: 'efficiencyUnusual', given: 0.85 }],
    });
  });

  it('printed: 95 g in 60 s are 5.7 kg/h (deposition data sheet; it prints 2.95 kg where 2.095 kg is meant)', () => {
    const weighed = depositionFromWeighing({ beforeG: 2000, afterG: 2095, arcS: 60 });
    expect(valueOf(weighed)).toBeCloseTo(5.7, 10);
    expect(depositionFromWeighing({ beforeG: 2000, afterG: 1999, arcS: 60 })).toMatchObject({
      refusal: { argument: 'afterG', given: 1999 },
    });
  });

  /** recalled, not asserted as print: guide tables quoted from memory agree to half a per cent. */
  it.each([
    [375, 9.9],
    [500, 13.2],
  ])('memory: .045 in at %i in/min and 98 %% lays about %f lb/h', (inMin, recalled) => {
    const wire = { wireDiameterMm: 1.143, wireSpeedMMin: inMin * mPerInch, efficiency: 0.98 };
    const lbH = valueOf(depositionRate({ ...wire, densityKgM3 })) / kgPerLb;
    expect(Math.abs(lbH - recalled)).toBeLessThan(0.1);
  });
});

describe('stick electrodes', () => {
  /** printed: handbook lesson IX, figure 5, per cent with stub loss; the table cuts off the last digit. */
  it.each([
    [14, 60, 2, 51.4],
    [14, 65, 2, 55.7],
    [12, 65, 4, 43.3],
    [18, 70, 3, 58.3],
    [18, 80, 5, 57.7],
    [14, 80, 3, 62.8],
  ])('printed: %i in at %i %% with a stub of %i in keeps %f %%', (length, pct, stub, printed) => {
    const kept = stickEfficiency({
      ...{ efficiency: pct / 100, electrodeMm: length * 25.4, stubMm: stub * 25.4 },
    });
    expect(Math.abs(valueOf(kept) * 100 - printed)).toBeLessThanOrEqual(0.11);
  });

  it('independent: 1 kg from 350 mm electrodes of 36 g, 62 %, 50 mm stub, takes 53', () => {
    // 36 x 0.62 x 300 / 350 = 19.131 g each; 1000 / 19.131 = 52.27.
    const stick = { efficiency: 0.62, electrodeMm: 350, stubMm: 50, electrodeMassG: 36 };
    const bought = electrodesForMetal({ ...stick, massKg: 1 });
    expect(valueOf(bought)).toBe(53);
    expect(partsOf(bought).laidPerElectrodeG).toBeCloseTo(19.131, 3);
    expect(partsOf(bought).boughtKg).toBeCloseTo(1.908, 10);
  });

  it('refuses a stub that is the whole electrode', () => {
    expect(stickEfficiency({ efficiency: 0.6, electrodeMm: 350, stubMm: 350 })).toMatchObject({
      refusal: { argument: 'stubMm', given: 350, allowed: 'a number from 0 to 315 mm' },
    });
  });
});

describe('electricity', () => {
  it('independent: 27 V, 250 A, 0.85 at 4 kg/h are 6750 / (1000 x 0.85 x 4) = 1.985 kWh/kg', () => {
    const arc = { currentA: 250, voltageV: 27, sourceEfficiency: 0.85 };
    expect(valueOf(electricityPerKg({ ...arc, depositionKgH: 4 }))).toBeCloseTo(1.98529, 5);
    // 6.75 kW / 0.85 over one hour, and 50 W over two hours.
    const drawn = electricityDrawn({ ...arc, arcS: 3600, idleW: 50, idleS: 7200 });
    expect(valueOf(drawn)).toBeCloseTo(7.94118 + 0.1, 5);
  });
});
