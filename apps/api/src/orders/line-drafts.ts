import { daysBefore } from '../clock.js';
import type { Foundation } from '../foundation.js';
import { openOn, type Draft } from '../assignments/open.js';
import type { PlacedNote } from '../assignments/missing.js';
import { draftsOf, judgeLine } from './line-notes.js';
import { loadLineFacts, planLine, withQueued, type LinePlan, type OrderLine } from './line-plan.js';
import { placeLine, type PlacedLine } from './places.js';
import { readQueues, type ShopQueues } from './shop-queues.js';
import { surroundings, type OtherAreas } from './surroundings.js';

export interface DraftedLine {
  readonly notes: readonly PlacedNote[];
  readonly placed: PlacedLine;
  readonly drafts: readonly Draft[];
}

/** One planned line against the shop: what it lacks, where it goes, and who is to see to it. */
export async function draftLine(
  foundation: Foundation,
  others: OtherAreas,
  asked: {
    readonly line: Pick<OrderLine, 'quantity' | 'dueOn'>;
    readonly plan: LinePlan;
    readonly cells: Parameters<typeof placeLine>[1]['cells'];
    readonly queues: ShopQueues;
    readonly now: Date;
    readonly takerId: string;
  },
): Promise<DraftedLine> {
  const { line, plan, cells, queues, now, takerId } = asked;
  const { timeZone, database } = foundation;
  const around = await surroundings(foundation, others, { steps: plan.steps, now, queues });
  const weldBy = daysBefore(line.dueOn, plan.part.outsideDays);
  const placed = placeLine(queues, { steps: plan.steps, cells, weldBy, timeZone });
  const notes = judgeLine(plan, line.quantity, around);
  const { people } = await others.people.list();
  const openOf = await openOn(database.reader).openByPerson();
  return { notes, placed, drafts: draftsOf(notes, { placed, around, people, takerId, openOf }) };
}

/** What each line of an order lacks, as the shop stands before the order is taken. */
export async function draftsForLines(
  foundation: Foundation,
  others: OtherAreas,
  {
    lines,
    customerId,
    takerId,
  }: {
    readonly lines: readonly OrderLine[];
    readonly customerId: string;
    readonly takerId: string;
  },
): Promise<readonly (readonly Draft[])[]> {
  const now = foundation.clock.now();
  const { database, timeZone } = foundation;
  const facts = await loadLineFacts(
    database.reader,
    lines.map(({ partId }) => partId),
  );
  const queues = await readQueues(others, { now });
  let { cells } = facts;
  const found: (readonly Draft[])[] = [];
  for (const [at, line] of lines.entries()) {
    const where = { now, timeZone, field: `body.lines.${at}`, customerId };
    const plan = planLine(line, { ...facts, cells }, where);
    const asked = { line, plan, cells, queues, now, takerId };
    found.push((await draftLine(foundation, others, asked)).drafts);
    cells = withQueued(cells, plan.steps);
  }
  return found;
}
