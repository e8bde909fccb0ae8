import { getLocale } from '../paraglide/runtime.js';

/**
 * A number with a fixed count of decimals and a thin space every three digits, as in tables of the trade. The decimal mark is
 * the one of the screen's language: a point in English, a comma in German, Spanish and Polish (ISO 80000-1 knows both).
 */
export function number(value: number, decimals = 0): string {
  const [whole = '', fraction] = Math.abs(value).toFixed(decimals).split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u2009') : whole;
  const sign = value < 0 && Number(value.toFixed(decimals)) !== 0 ? '\u2212' : '';
  return sign + grouped + (fraction === undefined ? '' : decimalMark() + fraction);
}

function decimalMark(): string {
  return getLocale() === 'en' ? '.' : ',';
}

/** As many decimals as the value has, at most `max`: 9.6, 520, 0.624. */
export function plainNumber(value: number, max = 3): string {
  const trimmed = value.toFixed(max).replace(/\.?0+$/, '');
  return number(value, trimmed.split('.')[1]?.length ?? 0);
}

/** A share from 0 to 1 as percent with one decimal; "–" where there is nothing to divide by. */
export function share(value: number | null): string {
  return value === null ? '–' : `${number(value * 100, 1)} %`;
}
