import { testBooks, type TestConditions } from '@tackboard/calc';
import type { QueryOf, testsToMake, TestsToMake } from '@tackboard/contract';
import { shopDay } from '../clock.js';
import type { Foundation } from '../foundation.js';
import { groupBy } from '../group-by.js';
import type { ProceduresService } from '../procedures/service.js';
import type { PolicyService } from '../policy/service.js';
import type { QueueService } from '../queue/service.js';
import { Refusal, refuseField } from '../refusal.js';
import type { TestsFound, TestsTask } from '../tasks/tests-messages.js';
import { startTests, type RunningTests } from '../tasks/tests-search.js';
import {
  placedWelds,
  weldInNeed,
  withoutPerson,
  withoutProcedure,
  type PlacedWeld,
} from './open-welds.js';
import { qualificationReader } from './store.js';
import { testsView } from './tests-view.js';

interface Others {
  readonly policy: Pick<PolicyService, 'table'>;
  readonly procedures: Pick<ProceduresService, 'allApproved'>;
  readonly queue: Pick<QueueService, 'certificateFacts'>;
}
type Query = QueryOf<typeof testsToMake.find>;

/** How long the choice of tests is looked for; then the best one so far is told, with its bound. */
const limitMs = 4000;

/** Which tests would pay: one code and edition at a time, one search at a time. */
export function testsService(foundation: Foundation, { policy, procedures, queue }: Others) {
  const { database, clock, timeZone } = foundation;
  const search = oneAtATime();
  return {
    async testsToMake(query: Query): Promise<TestsToMake> {
      const book = bookOf(query);
      const today = shopDay(clock.now(), timeZone);
      const open = await openWelds(query, today);
      const conditions: TestConditions = {
        propertiesDemanded: query.properties === 'demanded',
        runs: query.runs,
      };
      const { code, edition, for: whom } = book;
      const found = await search.run({
        ...{ code, edition, for: whom, conditions, limitMs, budget: query.budget },
        welds: open.map(weldInNeed),
      });
      const codes = testBooks.filter((each) => each.for === whom);
      return {
        ...{ day: today, code, edition, for: whom },
        codes: codes.map((each) => ({ code: each.code, edition: each.edition })),
        ...testsView(found, { code, edition, for: whom, conditions, open }),
      };
    },
    /** Ends a search that runs. */
    close: search.end,
  };

  async function openWelds(query: Query, today: string): Promise<PlacedWeld[]> {
    const store = qualificationReader(database.reader);
    const most = query.gap === 'one' ? 1 : 0;
    const queued = await store.queuedSteps();
    const [welds, cells] = await Promise.all([
      store.weldsToHold(queued.map(({ job }) => job.revisionId)),
      store.cells(),
    ]);
    if (query.for === 'procedures') {
      const open = withoutProcedure(welds, await procedures.allApproved(), most);
      return onePlace(placedWelds(open, queued, cells));
    }
    const certificates = await queue.certificateFacts();
    const asked = { most, today, policy: await policy.table() } as const;
    return withoutPerson(placedWelds(welds, queued, cells), certificates, asked);
  }
}

/** A procedure is not bound to a cell: a weld that is queued at two is one weld. */
function onePlace(placed: readonly PlacedWeld[]): PlacedWeld[] {
  return [...groupBy(placed, ({ weld }) => weld.id).values()].flatMap((each) => {
    const [first] = each;
    if (first === undefined) return [];
    const name = `${first.part.number} ${first.label}, weld ${first.weld.number}`;
    return [
      {
        ...{ ...first, name, cells: each.flatMap(({ cells }) => cells) },
        queued: each.flatMap(({ queued }) => queued),
      },
    ];
  });
}

function bookOf({ for: whom, code, edition }: Query) {
  const books = testBooks.filter((book) => book.for === whom);
  const found = books.find(
    (book) =>
      (code === undefined || book.code === code) &&
      (edition === undefined || book.edition === edition),
  );
  if (found !== undefined) return found;
  const allowed = books.map((book) => `${book.code}:${book.edition}`).join(', ');
  const given = [code, edition].filter((each) => each !== undefined).join(':');
  const field = code === undefined ? 'query.edition' : 'query.code';
  throw refuseField(
    'INVALID',
    `There are no rules on file for tests of ${whom} under ${given}. Choose one of ${allowed}.`,
    ...([field, given, allowed] as const),
  );
}

/** Searches wait for each other: each takes a processor of its own for seconds. */
function oneAtATime() {
  let running: RunningTests | null = null;
  let last: Promise<unknown> = Promise.resolve();
  let closed = false;
  const broken = (why: string) =>
    new Refusal(
      'NOT_NOW',
      `The search for tests broke off (${why}). Nothing was changed: ask again.`,
    );

  async function begin(task: TestsTask): Promise<TestsFound> {
    if (closed) throw broken('the service is closing');
    running = startTests(task);
    try {
      const found = await running.answer;
      if (found === null) throw broken('the service is closing');
      return found;
    } catch (error) {
      throw error instanceof Refusal ? error : broken((error as Error).message);
    } finally {
      running = null;
    }
  }
  return {
    async run(task: TestsTask): Promise<TestsFound> {
      const mine = last.then(async () => begin(task));
      last = mine.catch(() => undefined);
      return mine;
    },
    async end(): Promise<void> {
      closed = true;
      await running?.end();
      await last;
    },
  };
}
