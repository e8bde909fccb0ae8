import type {
  BodyOf,
  CertificateSuggestions,
  qualification,
  Suggestions,
} from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import type { PeopleService } from '../people/service.js';
import type { PolicyService } from '../policy/service.js';
import type { ProceduresService } from '../procedures/service.js';
import type { QueueService } from '../queue/service.js';
import { notFound } from '../refusal.js';
import { finderService } from './finder-service.js';
import { lapsesService } from './lapses-service.js';
import { policyService } from './policy-service.js';
import { qualificationReader } from './store.js';
import { testsService } from './tests-service.js';
import { certificateSuggestions } from './suggest-certificate.js';
import { wpqrSuggestions } from './suggest-wpqr.js';
import { touchedService } from './touched-service.js';

type Routes = typeof qualification;
export type QualificationService = ReturnType<typeof createQualificationService>;

/** Answers across procedures, people and the work in the queues; it writes nothing. */
export function createQualificationService(
  foundation: Foundation,
  others: {
    readonly people: PeopleService;
    readonly policy: PolicyService;
    readonly procedures: ProceduresService;
    readonly queue: QueueService;
  },
) {
  return {
    ...suggestionService(foundation),
    ...touchedService(foundation, others),
    ...finderService(foundation, others),
    ...lapsesService(foundation, others),
    ...policyService(foundation, others),
    ...testsService(foundation, others),
  };
}

function suggestionService({ database }: Foundation) {
  return {
    async suggestWpqr(typed: BodyOf<Routes['suggestWpqr']>): Promise<Suggestions> {
      return wpqrSuggestions(typed);
    },
    async suggestCertificate(
      typed: BodyOf<Routes['suggestCertificate']>,
    ): Promise<CertificateSuggestions> {
      const { cellId } = typed;
      if (cellId === null) return certificateSuggestions(typed, null);
      const unit = await qualificationReader(database.reader).cell(cellId);
      if (unit === null) throw notFound('cell', cellId, 'body.cellId');
      return certificateSuggestions(typed, unit);
    },
  };
}
