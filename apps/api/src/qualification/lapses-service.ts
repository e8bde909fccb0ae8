import { addDays } from '@tackboard/calc';
import type { Certificate, Lapse, ProposedConfirmation } from '@tackboard/contract';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import { evidenceWords, proofAmong, type WorkedRun } from '../people/evidence.js';
import type { PeopleService } from '../people/service.js';
import type { PolicyService } from '../policy/service.js';
import type { ProceduresService } from '../procedures/service.js';
import type { QueueService } from '../queue/service.js';
import { lapsesOf, type QueuedJob } from './lapses.js';
import { qualificationReader, type QueuedStep } from './store.js';
import { weldsOfStep } from './touched-service.js';

interface Others {
  readonly people: Pick<PeopleService, 'certificates' | 'workedRuns'>;
  readonly policy: Pick<PolicyService, 'table'>;
  readonly procedures: Pick<ProceduresService, 'approvedByNumbers'>;
  readonly queue: Pick<QueueService, 'certificateFacts'>;
}
export interface LookAhead {
  readonly day: string;
  readonly lapses: Lapse[];
  readonly unreadable: string[];
  readonly confirmations: ProposedConfirmation[];
}

/** How far ahead confirmations are proposed, in days. */
const aheadDays = 90;

/** What lapses soon, what it stops, and the confirmations that could be signed, with the work that proves them. */
export function lapsesService({ database, clock, timeZone }: Foundation, others: Others) {
  return {
    async lapses(): Promise<LookAhead> {
      const day = shopDay(clock.now(), timeZone);
      const store = qualificationReader(database.reader);
      const [steps, instruments, facts, { certificates }, policy] = await Promise.all([
        store.queuedSteps(),
        store.instruments(),
        others.queue.certificateFacts(),
        others.people.certificates(),
        others.policy.table(),
      ]);
      const jobs = await queuedJobs(steps);
      const active = new Set(facts.map(({ id }) => id));
      const due = certificates.filter((each) => active.has(each.id) && isDue(each, day));
      return {
        day,
        ...lapsesOf({ day, certificates: facts, instruments, jobs, policy }),
        confirmations: await proposals(due, day),
      };
    },
  };

  async function queuedJobs(steps: readonly QueuedStep[]): Promise<QueuedJob[]> {
    const store = qualificationReader(database.reader);
    const welds = await store.weldsOf(steps.map(({ job }) => job.revisionId));
    const approved = await others.procedures.approvedByNumbers(
      steps.flatMap(({ step }) => step.wpsNumber ?? []),
    );
    return steps.map((each) => {
      const { id, job, cell, step } = each;
      const wps = step.wpsNumber === null ? undefined : approved.get(step.wpsNumber);
      return {
        jobStepId: id,
        jobId: job.id,
        jobNumber: job.number,
        partNumber: job.revision.part.number,
        dueOn: job.dueOn,
        coded: job.revision.part.coded,
        cell,
        welds: weldsOfStep(each, welds),
        procedure:
          wps === undefined ? null : { code: wps.code, preheatMinC: wps.ranges.preheatMinC },
      };
    });
  }

  async function proposals(
    due: readonly Certificate[],
    day: string,
  ): Promise<ProposedConfirmation[]> {
    const worked = await others.people.workedRuns(
      due.map(({ personId }) => personId),
      day,
    );
    return due.map((certificate) => {
      const runs = proofAmong(worked, certificate, timeZone);
      return proposalOf(certificate, runs);
    });
  }

  function proposalOf(certificate: Certificate, runs: readonly WorkedRun[]): ProposedConfirmation {
    const last = runs[0];
    return {
      certificateId: certificate.id,
      certificateNumber: certificate.number,
      personId: certificate.personId,
      personCode: certificate.personCode,
      personName: certificate.personName,
      process: certificate.process,
      confirmedUntil: certificate.confirmedUntil,
      confirmedOn: last === undefined ? null : shopDay(last.startedAt, timeZone),
      evidence: evidenceWords(runs, certificate.process, timeZone),
      runs: runs.map(({ id, jobNumber, partNumber, cellCode, startedAt, goodCount }) => ({
        ...{ runId: id, jobNumber, partNumber, cellCode, goodCount },
        on: shopDay(startedAt, timeZone),
      })),
    };
  }
}

/** A certificate that is withdrawn or has come to its end takes a test, not a confirmation. */
function isDue({ standing, validUntil, confirmedUntil }: Certificate, day: string): boolean {
  if (standing === 'revoked' || (validUntil !== null && validUntil < day)) return false;
  return confirmedUntil === null || confirmedUntil <= (addDays(day, aheadDays) ?? day);
}
