import { getLocale } from '../paraglide/runtime.js';
import { dateFormat } from '../ui/date-format.js';
import { dayInWords } from '../ui/day-text.js';

/** The calendar day of an instant in the shop, `YYYY-MM-DD`. */
export function dayIn(instant: Date, timeZone: string): string {
  return dateFormat('en-CA', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  }).format(instant);
}

/** Clock time in the shop, "10:42" or "10:42:07". */
export function clock(instant: string | Date, timeZone: string, withSeconds = false): string {
  return dateFormat('en-GB', {
    timeZone,
    hour: '2-digit',
    minute: '2-digit',
    ...(withSeconds ? { second: '2-digit' } : {}),
    hourCycle: 'h23',
  }).format(new Date(instant));
}

/** A calendar day in words of the screen's language, "Wed 7 Oct 2026". */
export function dayWords(day: string): string {
  return dayInWords(day, getLocale());
}

/** Day and clock time in the shop, "Wed 7 Oct 2026, 10:42". */
export function dayAndClock(instant: string | Date, timeZone: string): string {
  return `${dayWords(dayIn(new Date(instant), timeZone))}, ${clock(instant, timeZone)}`;
}

/** The day `days` later, or earlier when negative. */
export function addDays(day: string, days: number): string {
  const date = new Date(`${day}T00:00:00Z`);
  date.setUTCDate(date.getUTCDate() + days);
  return date.toISOString().slice(0, 10);
}

/** Minutes as hours and minutes: "1 h 31 min", "25 min". Rounded to whole minutes. */
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}
