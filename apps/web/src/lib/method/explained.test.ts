import {
  arcEnergy,
  arcTime,
  depositedMass,
  filletArea,
  holeArea,
  sources,
  throatFromSettings,
  type Calculation,
} from '@tackboard/calc';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import * as explained from './explained.js';
import { warningWords } from './warning-words.js';
import { workedFigure } from './worked-figure.js';

const calc = path.resolve(import.meta.dirname, '../../../../../packages/calc/src');

function answered<C extends { ok: boolean }>(result: C): Extract<C, { ok: true }> {
  if (!result.ok) throw new Error('refused');
  return result as Extract<C, { ok: true }>;
}

const settings = { wireDiameterMm: 1.2, wireSpeedMMin: 8, efficiency: 0.95, travelMmMin: 450 };
const figures = {
  throat: () => explained.explainedFilletArea(answered(filletArea({ throatMm: 4 }))),
  leg: () => explained.explainedFilletArea(answered(filletArea({ legMm: 6 }))),
  legs: () => explained.explainedFilletArea(answered(filletArea({ legMm: 6, secondLegMm: 8 }))),
  hole: () => explained.explainedHoleArea(answered(holeArea({ widthMm: 12, lengthMm: 40 }))),
  mass: () => explained.explainedMass(answered(depositedMass({ areaMm2: 16, lengthMm: 600 }))),
  arcTime: () => explained.explainedArcTime(answered(arcTime({ lengthMm: 960, travelMmMin: 520 }))),
  laid: () => explained.explainedLaid(answered(throatFromSettings(settings))),
  arcEnergy: () =>
    explained.explainedArcEnergy(
      answered(arcEnergy({ currentA: 250, voltageV: 27, travelMmMin: 450 })),
    ),
};

describe('a figure with its numbers put into the formula', () => {
  it.each([
    ['throat', 'a² = 4² = 16 mm²'],
    ['leg', 'z² / 2 = 6² / 2 = 18 mm²'],
    ['legs', 'z1 × z2 / 2 = 6 × 8 / 2 = 24 mm²'],
    ['hole', 'c × (l − c) + π/4 × c² = 12 × (40 − 12) + π/4 × 12² = 449.097 mm²'],
    ['mass', '16 mm² × 600 mm × 7850 kg/m³ / 10⁹ = 0.07536 kg'],
    ['arcTime', '60 × 960 mm / 520 mm/min = 110.769 s'],
    ['laid', 'π/4 × 1.2² mm² × 8000 mm/min × 0.95 / 450 mm/min = 19.101 mm²'],
    ['laid', 'throat a = √area = 4.37 mm, leg z = 6.181 mm'],
    ['arcEnergy', '60 × 27 V × 250 A / (1000 × 450 mm/min) = 0.9 kJ/mm'],
  ] as const)('%s: %s', (name, text) => {
    expect(figures[name]().formula).toContain(text);
  });

  it.each(Object.entries(figures))('names every input of %s, its sources and its page', (_, of) => {
    const { inputs, sources: works, page, formula, value } = of();
    expect(inputs.length).toBeGreaterThan(0);
    expect(works.length).toBeGreaterThan(0);
    expect(value).toMatch(/^\d.* (mm²|kg|s|mm|kJ\/mm)$/);
    for (const text of [formula, value, ...inputs.map((one) => one.label + one.value), ...works])
      expect(text).not.toMatch(/undefined|null|NaN|[{}]/);
    const text = readFileSync(path.join(calc, `../../../docs/method/${page}.md`), 'utf8');
    expect(text).toMatch(/^# /);
  });

  it('leaves out no number that went in', () => {
    expect(figures.laid().inputs.map(({ value }) => value)).toEqual([
      '1.2 mm',
      '8 m/min',
      '0.95',
      '450 mm/min',
    ]);
  });
});

describe('what stands behind a figure', () => {
  const codes = [
    ...(
      /type WarningCode =([\s\S]*?);\n/.exec(
        readFileSync(path.join(calc, 'result.ts'), 'utf8'),
      )?.[1] ?? ''
    ).matchAll(/\| '(\w+)'/g),
  ].map(([, code]) => code as Parameters<typeof warningWords>[0]['code']);

  it('is warned of in a sentence of its own for every kind of warning', () => {
    expect(codes.length).toBeGreaterThan(15);
    const sentences = codes.map((code) => warningWords({ code, given: 3.5 }));
    expect(new Set(sentences).size).toBe(codes.length);
    for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*\.$/);
  });

  it('is named with edition and clause for every work', () => {
    const ids = Object.keys(sources) as (keyof typeof sources)[];
    const result = { ok: true, value: 1, unit: 'mm', inputs: {}, warnings: [] } as const;
    for (const id of ids) {
      const all: Extract<Calculation<object>, { ok: true }> = { ...result, sources: [id] };
      const [words = ''] = workedFigure(all, { name: '', page: '', formula: '' }).sources;
      const { title, edition, clause } = { clause: null, ...sources[id] };
      expect(words.startsWith(title)).toBe(true);
      for (const part of [edition, clause]) if (part !== null) expect(words).toContain(part);
    }
  });
});
