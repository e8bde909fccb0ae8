import type { Certificate } from '@tackboard/contract';
import { plainNumber } from '../format/number.js';

type Range = Certificate['thicknessMm'];

export interface RangeWords {
  readonly from: (value: string) => string;
  readonly upTo: (value: string) => string;
  readonly any: string;
}

/** A printed range with its unit: "3 to 12 mm", "3 mm or more". Limits are inclusive. */
export function rangeInWords(range: Range, unit: string, words: RangeWords): string {
  const { min, max } = range;
  if (min !== null && max !== null) return `${plainNumber(min)} \u2013 ${plainNumber(max)} ${unit}`;
  if (min !== null) return words.from(`${plainNumber(min)} ${unit}`);
  if (max !== null) return words.upTo(`${plainNumber(max)} ${unit}`);
  return words.any;
}

/** Splits a typed list at commas, semicolons and line ends. */
export function listFrom(typed: string): string[] {
  return typed
    .split(/[,;\n]/)
    .map((part) => part.trim())
    .filter((part) => part !== '');
}
