import { missingOf, type PlacedNote } from '../assignments/missing.js';
import type { Draft } from '../assignments/open.js';
import { dayFor, personFor, type Candidate } from '../assignments/propose.js';
import type { LinePlan } from './line-plan.js';
import type { PlacedLine } from './places.js';
import { stepNotes } from './ready-notes.js';
import { factsOf, type StepAtCell, type Surroundings } from './surroundings.js';

type Planned = Pick<LinePlan, 'revision' | 'part' | 'steps'>;

/** What an order line needs and whether it is there: first the revision, then each of its steps. */
export function judgeLine(
  plan: Planned,
  quantity: number,
  around: Surroundings,
): readonly PlacedNote[] {
  const ofSteps = judgeSteps(plan.steps, { quantity, coded: plan.part.coded }, around);
  return [{ stepNumber: null, note: revisionNote(plan) }, ...ofSteps];
}

export function judgeSteps(
  steps: readonly StepAtCell[],
  batch: { readonly quantity: number; readonly coded: boolean },
  around: Surroundings,
): readonly PlacedNote[] {
  return steps.flatMap((planned) =>
    stepNotes(factsOf(planned, batch, around)).map((note) => ({
      stepNumber: planned.step.number,
      note,
    })),
  );
}

function revisionNote({ revision }: Pick<LinePlan, 'revision'>): PlacedNote['note'] {
  const clearedBy = revision.note === 'ok' ? null : ('coordinator' as const);
  return { topic: 'revision', state: revision.note, text: revision.words, clearedBy };
}

/** To whom what is missing goes, due before the planned start of the step it holds up. */
export function draftsOf(
  notes: readonly PlacedNote[],
  shop: {
    readonly placed: PlacedLine;
    readonly around: Pick<Surroundings, 'queues' | 'now' | 'timeZone'>;
    readonly people: readonly Candidate[];
    readonly takerId: string;
    readonly openOf: ReadonlyMap<string, number>;
  },
): Draft[] {
  const { queues, now, timeZone } = shop.around;
  const chosen = shop.placed.places.filter((place) => place.chosen);
  const openOf = new Map(shop.openOf);
  return missingOf(notes).flatMap((missing) => {
    const { stepNumber, clearedBy } = missing;
    const person = personFor(clearedBy, {
      ...{ people: shop.people, takerId: shop.takerId, openOf },
    });
    if (person === null) return [];
    openOf.set(person.id, (openOf.get(person.id) ?? 0) + 1);
    // What the whole job lacks has to be there before its first step.
    const place = chosen.find((each) => stepNumber === null || each.stepNumber === stepNumber);
    const windows = queues.lanes.find(({ cellId }) => cellId === place?.cellId)?.windows ?? [];
    const dueOn = dayFor(place?.startAt ?? null, { now, timeZone, windows });
    return [{ ...missing, person, dueOn }];
  });
}
