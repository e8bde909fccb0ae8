import { expect, it } from 'vitest';
import { ceIiw, cet, pcm } from './carbon-equivalent.js';
import { coolingTime3d } from './cooling-time.js';
import { preheatAws } from './preheat-aws.js';
import { combinedThickness, methodALimit } from './preheat-method-a.js';
import { preheatMethodB } from './preheat-method-b.js';
import type { WeldForm } from './shape-factors.js';
import { largestHeatInput, weldCoolingTime } from './weld-cooling.js';

/** What stands beside a figure: its unit, its works, and the words of a refusal, unit of the limits included. */
const analysis = { C: 0.16, Si: 0.4, Mn: 1.4, Cr: 0.1, Mo: 0.02, Ni: 0.1, Cu: 0.1, V: 0.01, B: 0 };
const plate = { cetPct: 0.33, thicknessMm: 30, hydrogenMlPer100g: 5, heatInputKjMm: 1.5 };
const aws = { thicknessMm: 12, category: 'B', edition: '2020' } as const;
const buttRun = { plateC: 20, thicknessMm: 12, weldForm: 'buttRun' } as const;

function refusalOf(result: { ok: true } | { ok: false; refusal: { allowed: string } }) {
  if (result.ok) throw new Error('not refused');
  return result.refusal;
}

it('names the works behind carbon equivalents, and warns of nothing where nothing is unusual', () => {
  const beside = { unit: '%', sources: ['carbonEquivalents'], warnings: [] };
  expect(ceIiw({ analysis })).toMatchObject(beside);
  expect(pcm({ analysis })).toMatchObject(beside);
  expect(cet({ analysis })).toMatchObject({
    unit: '%',
    sources: ['carbonEquivalents', 'cetRange'],
  });
});

it('names the unit of each limit of an analysis', () => {
  const { allowed } = refusalOf(cet({ analysis: { ...analysis, Mn: 101 } }));
  expect(allowed).toBe('a number from 0 to 100 %');
  const outside = refusalOf(cet({ analysis: { ...analysis, Mn: 1.91 } }));
  expect(outside.allowed).toBe('a number from 0.5 to 1.9 %');
});

it.each([
  ['cetPct', 0.19, 'a number from 0.2 to 0.5 %'],
  ['thicknessMm', 9, 'a number from 10 to 90 mm'],
  ['hydrogenMlPer100g', 0.5, 'a number from 1 to 20 ml/100 g'],
  ['heatInputKjMm', 4.5, 'a number from 0.5 to 4 kJ/mm'],
  ['yieldMpa', 200, 'a number from 300 to 1000 MPa'],
  ['weldMetalCetPct', 0.48, 'a number from 0.17 to 0.47 %, to which 0.03 is added'],
])('method B says what %s may be where it is %f', (argument, given, allowed) => {
  expect(refusalOf(preheatMethodB({ ...plate, [argument]: given }))).toMatchObject({
    ...{ argument, given, allowed },
  });
});

it('method A takes two to four heat paths, and says so in mm with its work', () => {
  const paths = (count: number) => Array.from({ length: count }, () => ({ thicknessMm: 10 }));
  for (const count of [2, 3, 4])
    expect(combinedThickness({ paths: paths(count) })).toMatchObject({
      ...{ value: count * 10, unit: 'mm', sources: ['en1011MethodA'] },
    });
  for (const count of [0, 1, 5])
    expect(refusalOf(combinedThickness({ paths: paths(count) })).allowed).toBe(
      'two to four heat paths',
    );
});

it('method A names the unit of its limits', () => {
  const table = { cePct: 0.43, hydrogenMlPer100g: 5, heatInputKjMm: 1.5 };
  expect(refusalOf(methodALimit({ ...table, cePct: 0.29 })).allowed).toMatch(
    /^a number from 0\.3 to 0\.49 %$/,
  );
  expect(refusalOf(methodALimit({ ...table, heatInputKjMm: 0.9 })).allowed).toMatch(
    /^a number from 1 to 2 kJ\/mm$/,
  );
});

it('AWS D1.1 lists categories and editions, and calls an impossible plate impossible, not outside', () => {
  expect(refusalOf(preheatAws({ ...aws, category: 'D' as 'A' })).allowed).toBe('A, B or C');
  expect(refusalOf(preheatAws({ ...aws, edition: '1990' as '2020' })).allowed).toBe('2015 or 2020');
  expect(refusalOf(preheatAws({ ...aws, thicknessMm: 2 })).allowed).toMatch(/^a number from 3 to /);
  expect(refusalOf(preheatAws({ ...aws, thicknessMm: 2 })).allowed).toMatch(/ mm$/);
  expect(refusalOf(preheatAws({ ...aws, thicknessMm: -1 }))).not.toHaveProperty('outsideMethod');
});

it('cooling time lists the forms of weld, and the unit of the plate temperature', () => {
  const odd = { ...buttRun, weldForm: 'oddForm' as WeldForm };
  const words = /^one of (\w+, )+\w+$/;
  expect(refusalOf(weldCoolingTime({ ...odd, heatInputKjMm: 1 })).allowed).toMatch(words);
  expect(refusalOf(largestHeatInput({ ...odd, wantedS: 10 })).allowed).toMatch(words);
  const hot = coolingTime3d({ heatInputKjMm: 1, plateC: 499.5, shapeFactor3d: 1 });
  expect(refusalOf(hot).allowed).toBe('a number from 0 to 499 degC');
});
