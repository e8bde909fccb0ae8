import type { qualification, ReplyOf } from '@tackboard/contract';
import { Temporal } from 'temporal-polyfill';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import type { PolicyService } from '../policy/service.js';
import { qualificationReader } from './store.js';

type Policy = ReplyOf<(typeof qualification)['policy']>;

const monthDays = 30;

/** The table by which answers stop or pass, and what was let through this week. */
export function policyService(
  { database, clock, timeZone }: Foundation,
  { policy }: { readonly policy: PolicyService },
) {
  return {
    setPolicy: policy.change,
    async policy(): Promise<Policy> {
      const now = clock.now();
      const monday = mondayOf(shopDay(now, timeZone));
      const from = monday.toZonedDateTime(timeZone).epochMilliseconds;
      const monthAgo = now.getTime() - monthDays * 86_400_000;
      const store = qualificationReader(database.reader);
      const [signed, codes] = await Promise.all([
        store.overridesSince(new Date(Math.min(from, monthAgo))),
        store.personCodes(),
      ]);
      const inMonth = signed.filter(({ signedAt }) => signedAt.getTime() >= monthAgo);
      const ofWeek = signed.filter(({ signedAt }) => signedAt.getTime() >= from);
      return {
        lines: await policy.lines(),
        from: monday.toString(),
        overrides: ofWeek.map(({ id, jobId, job, rule, reason, ...each }) => ({
          ...{ id, jobId, jobNumber: job.number, rule, reason },
          signedBy: codes.get(each.personId) ?? each.personId,
          forPerson: each.forPerson === null ? null : (codes.get(each.forPerson) ?? each.forPerson),
          signedAt: each.signedAt.toISOString(),
          expiresAt: each.expiresAt.toISOString(),
          timesInMonth: inMonth.filter((other) => other.rule === rule).length,
        })),
      };
    },
  };
}

function mondayOf(day: string): Temporal.PlainDate {
  const date = Temporal.PlainDate.from(day);
  return date.subtract({ days: date.dayOfWeek - 1 });
}
