import type { Database } from './db/client.js';
import type { UnitOfWork } from './db/unit-of-work.js';
import type { Shared } from './events/shared-answers.js';

/** What services are made from: nothing in it knows HTTP. */
export interface Foundation {
  readonly database: Pick<Database, 'reader'>;
  readonly uow: UnitOfWork;
  readonly shared: Shared;
  readonly clock: { now(): Date };
  readonly newId: () => string;
  readonly timeZone: string;
}
