import { lookAhead, type PolicyTable } from '@tackboard/calc';
import type { Lapse, Weld } from '@tackboard/contract';
import { certificateDates } from '../people/certificate-dates.js';
import type { CertificateFacts } from '../queue/facts.js';
import { judgeCertificate } from '../queue/person-fit.js';
import { isDateLine } from '../queue/person-words.js';

export interface QueuedJob {
  readonly jobStepId: string;
  readonly jobId: string;
  readonly jobNumber: number;
  readonly partNumber: string;
  readonly dueOn: string;
  readonly coded: boolean;
  readonly cell: { readonly id: string; readonly code: string; readonly kind: 'robot' | 'booth' };
  readonly welds: readonly Weld[];
  readonly procedure: { readonly code: string | null; readonly preheatMinC: number | null } | null;
}

interface InstrumentFacts {
  readonly id: string;
  readonly code: string;
  readonly kind: string;
  readonly dueOn: string;
}

interface Facts {
  readonly day: string;
  readonly certificates: readonly CertificateFacts[];
  readonly instruments: readonly InstrumentFacts[];
  readonly jobs: readonly QueuedJob[];
  readonly policy: PolicyTable;
}

interface Item {
  readonly id: string;
  readonly lastDay: string | null;
  readonly kind: Lapse['kind'];
  readonly subjectId: string;
  readonly label: string;
  readonly personId: string | null;
}

/**
 * What lapses within ninety days, soonest first, and the queued jobs that nothing else would carry on the day they
 * are due. A job that nobody may weld today is stopped already and is not counted here.
 */
export function lapsesOf(facts: Facts): { lapses: Lapse[]; unreadable: string[] } {
  const { day, certificates, instruments, jobs } = facts;
  const items = [...certificates.flatMap(certificateItems), ...instruments.map(instrumentItem)];
  const byId = new Map(items.map((item) => [item.id, item]));
  const jobOf = new Map(jobs.map((job) => [job.jobStepId, job]));
  const found = lookAhead({
    day,
    items,
    jobs: jobs.map((job) => ({
      id: job.jobStepId,
      plannedOn: job.dueOn < day ? day : job.dueOn,
      needs: needsOf(job, facts),
    })),
  });
  const lapses = found.lapses.flatMap(({ id, lastDay, daysLeft, within, stops }): Lapse[] => {
    const item = byId.get(id);
    if (item === undefined) return [];
    const { kind, subjectId, label, personId } = item;
    const stopped = stops.flatMap((stepId) => jobOf.get(stepId) ?? []);
    return [
      {
        ...{ kind, subjectId, label, personId, lastDay, daysLeft },
        within: within === 'lapsed' ? within : (String(within) as Lapse['within']),
        stops: stopped.map(({ jobId, jobNumber, partNumber, dueOn }) => {
          return { jobId, jobNumber, partNumber, dueOn };
        }),
      },
    ];
  });
  return {
    lapses,
    unreadable: found.unreadable.map((id) => byId.get(id)?.label ?? id),
  };
}

const standing = (certificateId: string) => `certificate ${certificateId}`;

/** A certificate holds while both its end and its confirmation do; the one that comes first is what lapses. */
function certificateItems(certificate: CertificateFacts): Item[] {
  if (certificate.revokedOn !== null) return [];
  const { validUntil, confirmedUntil } = certificateDates({
    ...certificate,
    confirmedOn: certificate.confirmedOn === null ? [] : [certificate.confirmedOn],
  });
  const common = {
    subjectId: certificate.id,
    label: `${certificate.personCode} ${certificate.personName}: ${certificate.number}`,
    personId: certificate.personId,
  };
  const endsFirst =
    validUntil !== null && (confirmedUntil === null || validUntil <= confirmedUntil);
  const first: Item = {
    ...common,
    id: standing(certificate.id),
    kind: endsFirst ? 'certificate' : 'confirmation',
    lastDay: endsFirst ? validUntil : confirmedUntil,
  };
  if (endsFirst || validUntil === null) return [first];
  return [
    first,
    { ...common, id: `end of ${certificate.id}`, kind: 'certificate', lastDay: validUntil },
  ];
}

function instrumentItem({ id, code, kind, dueOn }: InstrumentFacts): Item {
  const label = `${code} (${kind})`;
  return { id, kind: 'instrument', subjectId: id, label, personId: null, lastDay: dueOn };
}

/** Of each list any one will do; a list that is empty today rests on nothing that could lapse. */
function needsOf(job: QueuedJob, { day, certificates, instruments, policy }: Facts): string[][] {
  const welds = job.welds.length === 0 ? [null] : job.welds;
  const people = welds.map((weld) =>
    certificates
      .filter((certificate) => holdsButForDates(certificate, weld, { job, day, policy }))
      .map(({ id }) => standing(id)),
  );
  const preheated = job.procedure !== null && job.procedure.preheatMinC !== null;
  const thermometers = preheated
    ? [instruments.filter(({ kind }) => /therm/i.test(kind)).map(({ id }) => id)]
    : [];
  return [...people, ...thermometers].filter((anyOf) => anyOf.length > 0);
}

function holdsButForDates(
  certificate: CertificateFacts,
  weld: Weld | null,
  { job, day, policy }: { job: QueuedJob; day: string; policy: PolicyTable },
): boolean {
  const { cell, coded, procedure } = job;
  const lines = judgeCertificate(certificate, weld, {
    ...{ cell, coded, policy, today: day },
    code: procedure?.code ?? null,
  });
  return lines.every(
    ({ line, strength }) => isDateLine(line.variable) || strength === 'pass' || strength === 'tell',
  );
}
