import { dateFormat } from './date-format.js';

export type DayReading =
  | { readonly kind: 'empty' }
  | { readonly kind: 'day'; readonly day: string }
  | { readonly kind: 'impossible' }
  | { readonly kind: 'refused' };

const isoDay = /^(\d{4})-(\d{1,2})-(\d{1,2})$/;
const dayFirst = /^(\d{1,2})\s?[./]\s?(\d{1,2})(?:[./]\s?(\d{4})?)?$/;

/**
 * Reads a typed day: `2026-10-07`, or day first `7.10`, `7.10.`, `7/10`, `7.10.2026`.
 * Without a year, the next such day from `today` on is meant (today itself included), unless it lies
 * more than nine months ahead: then the one just past. The screen echoes weekday and month in words,
 * so that a swapped day and month is seen. A day that is in no calendar (31 February) is impossible.
 */
export function readDay(typed: string, today: string): DayReading {
  const given = typed.trim();
  if (given === '') return { kind: 'empty' };
  const iso = isoDay.exec(given);
  if (iso) return dayOf(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const short = dayFirst.exec(given);
  if (!short) return { kind: 'refused' };
  const [day, month] = [Number(short[1]), Number(short[2])];
  if (short[3] !== undefined) return dayOf(Number(short[3]), month, day);
  return nearest(day, month, today);
}

function nearest(day: number, month: number, today: string): DayReading {
  const year = Number(today.slice(0, 4));
  const candidates = [year - 1, year, year + 1, year + 2, year + 3, year + 4]
    .map((one) => dayOf(one, month, day))
    .filter((reading) => reading.kind === 'day');
  const next = candidates.find((reading) => reading.day >= today);
  if (next === undefined) return { kind: 'impossible' };
  const last = candidates.filter((reading) => reading.day < today).at(-1);
  if (last !== undefined && daysBetween(today, next.day) > 274) return last;
  return next;
}

function dayOf(year: number, month: number, day: number): DayReading {
  const date = new Date(Date.UTC(year, month - 1, day));
  const real =
    date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
  return real ? { kind: 'day', day: date.toISOString().slice(0, 10) } : { kind: 'impossible' };
}

export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000);
}

/** A calendar day in words of a language: "Wed 7 Oct 2026", "Mi., 7. Okt. 2026"; a day has no time zone. */
export function dayInWords(day: string, locale = 'en'): string {
  const date = new Date(`${day}T00:00:00Z`);
  const format = dateFormat(locale === 'en' ? 'en-GB' : locale, inShort);
  if (locale !== 'en') return format.format(date);
  const parts = format.formatToParts(date).filter(({ type }) => type !== 'literal');
  return parts.map(({ value }) => value).join(' ');
}

const inShort = {
  ...{ weekday: 'short', day: 'numeric', month: 'short', year: 'numeric' },
  timeZone: 'UTC',
} as const satisfies Intl.DateTimeFormatOptions;
