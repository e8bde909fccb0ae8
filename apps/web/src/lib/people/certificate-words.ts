import type { Certificate } from '@tackboard/contract';

type Range = Certificate['thicknessMm'];

export interface RangeWords {
  readonly from: (value: string) => string;
  readonly upTo: (value: string) => string;
  readonly any: string;
}

/** How the shop writes the amounts of a range. */
export interface Amounts {
  readonly unit: string;
  readonly number: (value: number) => string;
}

/** A printed range with its unit: "3 to 12 mm", "3 mm or more". Limits are inclusive. */
export function rangeInWords(
  { min, max }: Range,
  { number, unit }: Amounts,
  words: RangeWords,
): string {
  if (min !== null && max !== null) return `${number(min)} \u2013 ${number(max)} ${unit}`;
  if (min !== null) return words.from(`${number(min)} ${unit}`);
  if (max !== null) return words.upTo(`${number(max)} ${unit}`);
  return words.any;
}

/** Splits a typed list at commas, semicolons and line ends. */
export function listFrom(typed: string): string[] {
  return typed
    .split(/[,;\n]/)
    .map((part) => part.trim())
    .filter((part) => part !== '');
}
