import * as calc from '@tackboard/calc';
import { describe, expect, it } from 'vitest';
import { projectFiles, textOf } from './tracked.js';

const figure = /^(\w+)\((\{.*\})\) = (-?[\d.]+) (\S+)$/;
const part = /^ {2}(\w+) = (-?[\d.]+)$/;

/** Pages whose worked example is a block of calculations; each line is run and held against what it prints. */
const pages = projectFiles()
  .filter((path) => /^docs\/method\/[\w-]+\.md$/.test(path))
  .map((file) => ({ file, lines: calculationsIn(textOf(file)) }));

interface Line {
  text: string;
  run: () => { value: unknown; unit: unknown };
  printed: string;
  unit: string | null;
}

function calculationsIn(text: string): Line[] {
  const blocks = [...text.matchAll(/^```calc\n([\s\S]*?)^```/gm)].map(([, body]) => body ?? '');
  return blocks.flatMap((body) => {
    let last: () => unknown = () => null;
    return body
      .trimEnd()
      .split('\n')
      .map((line): Line => {
        const [, name, printed] = part.exec(line) ?? [];
        if (name !== undefined && printed !== undefined) {
          const whole = last;
          return { text: line, printed, unit: null, run: () => partOf(whole(), name) };
        }
        const [, method, args, value, unit] = figure.exec(line) ?? [];
        if (method === undefined || args === undefined || value === undefined) {
          throw new Error(`not a calculation: ${line}`);
        }
        const whole = () => called(method, JSON.parse(asJson(args)));
        last = whole;
        return { text: line, printed: value, unit: unit ?? null, run: () => valueOf(whole()) };
      });
  });
}

function asJson(args: string): string {
  return args.replaceAll("'", '"').replace(/([{,] ?)(\w+):/g, '$1"$2":');
}

function called(method: string, args: unknown): unknown {
  const found: unknown = (calc as Record<string, unknown>)[method];
  if (typeof found !== 'function') throw new Error(`calc has no ${method}`);
  return found(args) as unknown;
}

function valueOf(result: unknown): { value: unknown; unit: unknown } {
  return result as { value: unknown; unit: unknown };
}

function partOf(result: unknown, name: string): { value: unknown; unit: unknown } {
  const { parts } = result as { parts: Record<string, unknown> };
  return { value: parts[name], unit: null };
}

describe.each(pages.filter(({ lines }) => lines.length > 0))('$file', ({ lines }) => {
  it.each(lines)('$text', ({ run, printed, unit }) => {
    const answer = run();
    const decimals = printed.split('.')[1]?.length ?? 0;
    expect(Number(answer.value).toFixed(decimals)).toBe(printed);
    if (unit !== null) expect(answer.unit).toBe(unit);
  });
});

it('finds the worked examples of the engineering pages', () => {
  const worked = pages.filter(({ lines }) => lines.length > 0).map(({ file }) => file);
  const process = ['deposition', 'duty', 'heat-input', 'shielding-gas', 'units', 'weld-volume'];
  const joints = ['groove-preparation'];
  const metal = ['carbon-equivalents', 'preheat', 'cooling-time'];
  const expected = [...process, ...metal, ...joints, 'production-times', 'cost'];
  expect(worked).toEqual(expect.arrayContaining(expected.map((page) => `docs/method/${page}.md`)));
});
