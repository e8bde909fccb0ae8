/** A real calendar day written YYYY-MM-DD. Days in this form compare as text. */
export type DayText = string;

interface Parts {
  year: number;
  month: number;
  day: number;
}

/** The number written in some places of a text, or NaN; by hand, since days are read for every line of a fit. */
function digitsAt(text: string, from: number, to: number): number {
  let value = 0;
  for (let at = from; at < to; at += 1) {
    const digit = text.charCodeAt(at) - 48;
    if (!(digit >= 0 && digit <= 9)) return Number.NaN;
    value = value * 10 + digit;
  }
  return value;
}

function isLeap(year: number): boolean {
  return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeap(year) ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

function partsOf(text: string | null): Parts | null {
  if (text?.length !== 10 || text[4] !== '-' || text[7] !== '-') return null;
  const year = digitsAt(text, 0, 4);
  const month = digitsAt(text, 5, 7);
  const day = digitsAt(text, 8, 10);
  const isReal =
    year >= 0 && month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month);
  return isReal ? { year, month, day } : null;
}

function textOf({ year, month, day }: Parts): DayText {
  const padded = (value: number, width: number) => String(value).padStart(width, '0');
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(day, 2)}`;
}

/** Whether a text is a real calendar day written YYYY-MM-DD. */
export function isDay(text: string | null): text is DayText {
  return partsOf(text) !== null;
}

/** Days since 1 March of year 0 in the Gregorian calendar; counting years from March puts the leap day last. */
function dayNumber({ year, month, day }: Parts): number {
  const shifted = month > 2 ? year : year - 1;
  const monthFromMarch = (month + 9) % 12;
  const leapDays = Math.floor(shifted / 4) - Math.floor(shifted / 100) + Math.floor(shifted / 400);
  return shifted * 365 + leapDays + Math.floor((153 * monthFromMarch + 2) / 5) + day - 1;
}

function fromDayNumber(number: number): Parts {
  let year = Math.floor(number / 365.2425);
  while (dayNumber({ year: year + 1, month: 3, day: 1 }) <= number) year += 1;
  while (dayNumber({ year, month: 3, day: 1 }) > number) year -= 1;
  const ofYear = number - dayNumber({ year, month: 3, day: 1 });
  const monthFromMarch = Math.floor((5 * ofYear + 2) / 153);
  const month = ((monthFromMarch + 2) % 12) + 1;
  const day = ofYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1;
  return { year: month > 2 ? year : year + 1, month, day };
}

/** The same day some calendar months on; the last day of a shorter month stands for the days it has not. */
export function addMonths(day: DayText, months: number): DayText | null {
  const parts = partsOf(day);
  if (parts === null || !Number.isInteger(months)) return null;
  const count = parts.year * 12 + parts.month - 1 + months;
  const [year, month] = [Math.floor(count / 12), (((count % 12) + 12) % 12) + 1];
  return textOf({ year, month, day: Math.min(parts.day, daysInMonth(year, month)) });
}

/** The day some days on, or back for a negative count; null when either is none. */
export function addDays(day: DayText, days: number): DayText | null {
  const parts = partsOf(day);
  if (parts === null || !Number.isInteger(days)) return null;
  return textOf(fromDayNumber(dayNumber(parts) + days));
}

/** Days from one day to another; negative backwards, null when either is no day. */
export function daysBetween(from: DayText, to: DayText): number | null {
  const [a, b] = [partsOf(from), partsOf(to)];
  return a === null || b === null ? null : dayNumber(b) - dayNumber(a);
}
