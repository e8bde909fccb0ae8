import { Temporal } from 'temporal-polyfill';

const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const months = [
  ...['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun'],
  ...['Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'],
];

/** `14 Mar 2026` */
export function dayWords(day: string): string {
  const date = Temporal.PlainDate.from(day);
  return `${date.day} ${months[date.month - 1]} ${date.year}`;
}

/** `Fri 2 Oct 2026`: a date read back with its weekday shows a slip of the finger. */
export function weekdayWords(day: string): string {
  return `${weekdays[Temporal.PlainDate.from(day).dayOfWeek - 1]} ${dayWords(day)}`;
}

/** `Mon 5 Oct 2026, 07:00` on the clock of the shop. */
export function clockWords(at: Date, timeZone: string): string {
  const time = Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(timeZone);
  const clock = [time.hour, time.minute].map((each) => String(each).padStart(2, '0')).join(':');
  return `${weekdayWords(time.toPlainDate().toString())}, ${clock}`;
}
