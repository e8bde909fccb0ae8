import { fitPolicy, personPolicy } from '@tackboard/calc';
import type { qualification, ReplyOf } from '@tackboard/contract';
import { Temporal } from 'temporal-polyfill';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import { fitVariables, fitVariableWord } from '../queue/fit-words.js';
import { personVariables, personVariableWord } from '../queue/person-words.js';
import { qualificationReader } from './store.js';

type Policy = ReplyOf<(typeof qualification)['policy']>;

const monthDays = 30;

/** The table by which answers stop or pass, and what was let through this week. */
export function policyService({ database, clock, timeZone }: Foundation) {
  return {
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
        lines: policyLines(),
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

function policyLines(): Policy['lines'] {
  const procedure = fitVariables.map((variable) => ({
    subject: 'procedure' as const,
    variable: fitVariableWord(variable),
    outside: fitPolicy({ variable, result: 'outside', coded: false }),
    outsideCoded: fitPolicy({ variable, result: 'outside', coded: true }),
    cannotSay: fitPolicy({ variable, result: 'cannotSay', coded: false }),
  }));
  const person = personVariables.map((variable) => ({
    subject: 'person' as const,
    variable: personVariableWord(variable),
    outside: personPolicy({ variable, result: 'outside', coded: false }),
    outsideCoded: personPolicy({ variable, result: 'outside', coded: true }),
    cannotSay: personPolicy({ variable, result: 'cannotSay', coded: false }),
  }));
  return [...procedure, ...person];
}

function mondayOf(day: string): Temporal.PlainDate {
  const date = Temporal.PlainDate.from(day);
  return date.subtract({ days: date.dayOfWeek - 1 });
}
