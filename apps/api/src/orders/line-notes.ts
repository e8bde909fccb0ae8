import { missingOf, type PlacedNote } from '../assignments/missing.js';
import type { Draft } from '../assignments/open.js';
import { dayFor, personFor, type Candidate } from '../assignments/propose.js';
import type { LinePlan } from './line-plan.js';
import type { PlacedLine } from './places.js';
import { stepNotes } from './ready-notes.js';
import { factsOf, type StepAtCell, type Surroundings } from './surroundings.js';

type Planned = Pick<LinePlan, 'revision' | 'part' | 'steps'>;

export interface JudgedLine {
  readonly notes: readonly PlacedNote[];
  /** Labels of the people who may weld a step, by its number. */
  readonly fitting: ReadonlyMap<number, readonly string[]>;
}

/** What an order line needs and whether it is there: first the revision, then each of its steps. */
export function judgeLine(plan: Planned, quantity: number, around: Surroundings): JudgedLine {
  const { notes, fitting } = judgeSteps(plan.steps, { quantity, coded: plan.part.coded }, around);
  return { notes: [{ stepNumber: null, note: revisionNote(plan) }, ...notes], fitting };
}

export function judgeSteps(
  steps: readonly StepAtCell[],
  batch: { readonly quantity: number; readonly coded: boolean },
  around: Surroundings,
): JudgedLine {
  const fitting = new Map<number, readonly string[]>();
  const notes = steps.flatMap((planned) => {
    const facts = factsOf(planned, batch, around);
    const stepNumber = planned.step.number;
    fitting.set(stepNumber, facts.qualifiedPeople);
    return stepNotes(facts).map((note) => ({ stepNumber, note }));
  });
  return { notes, fitting };
}

function revisionNote({ revision }: Pick<LinePlan, 'revision'>): PlacedNote['note'] {
  const clearedBy = revision.note === 'ok' ? null : ('coordinator' as const);
  return { topic: 'revision', state: revision.note, text: revision.words, clearedBy };
}

/** To whom what is missing goes, due before the planned start of the step it holds up. */
export function draftsOf(
  { notes, fitting }: JudgedLine,
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
      fitting: fitting.get(stepNumber ?? Number.NaN) ?? [],
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
