import {
  changeKinds,
  changeOver,
  type ChangeKind,
  type ChangeOver,
  type LearntChangeOver,
} from '@tackboard/calc';

/** What a cell is set up with for a step; null and '' stand for "none". */
export interface KeptSetUp {
  readonly wireItemId: string | null;
  readonly gasItemId: string | null;
  readonly torch: string;
  readonly fixtureId: string | null;
  readonly programId: string | null;
}

/** A step as its change-over at one cell depends on it. */
export interface SetUpNeed {
  /** Steps of the same kind need no change between them. */
  readonly stepId: string;
  /** Minutes to set the step up with nothing in place, as planned for the part. */
  readonly setUpMin: number;
  /** Null where no set-up is kept for this cell. */
  readonly kept: KeptSetUp | null;
}

/** What differs between two set-ups, a bit for each kind in the order of `changeKinds`: asked for every pair of steps. */
function differences(before: KeptSetUp, after: KeptSetUp): number {
  return (
    (before.wireItemId === after.wireItemId ? 0 : 1) |
    (before.gasItemId === after.gasItemId ? 0 : 2) |
    (before.torch === after.torch ? 0 : 4) |
    (before.fixtureId === after.fixtureId ? 0 : 8) |
    (before.programId === after.programId ? 0 : 16)
  );
}

function kindsOf(differing: number): ChangeKind[] {
  return changeKinds.filter((_, at) => ((differing >> at) & 1) === 1);
}

/** What differs between two set-ups. */
export function changedBetween(before: KeptSetUp, after: KeptSetUp): ChangeKind[] {
  return kindsOf(differences(before, after));
}

/** What is known of a change-over between two steps; null where either set-up is unknown. */
export function knownChangeOver(
  from: SetUpNeed,
  to: SetUpNeed,
  learnt: readonly LearntChangeOver[],
): (ChangeOver & { readonly changed: readonly ChangeKind[] }) | null {
  if (from.stepId === to.stepId || from.kept === null || to.kept === null) return null;
  const changed = changedBetween(from.kept, to.kept);
  return { changed, ...changeOver({ changed, setUpMin: to.setUpMin, learnt }) };
}

/**
 * Minutes to change one cell over from one step to the next; `from` is null for a cell of which nothing is known.
 * Where either set-up is unknown it is the whole setting up of the next step. Looked up once for each set of kinds: a
 * search asks for every pair of steps.
 */
export function changeOversAt(
  learnt: readonly LearntChangeOver[],
): (from: SetUpNeed | null, to: SetUpNeed) => number {
  const known: (ChangeOver | undefined)[] = [];
  const changeOverOf = (differing: number): ChangeOver =>
    (known[differing] ??= changeOver({
      ...{ changed: kindsOf(differing), setUpMin: Infinity, learnt },
    }));
  return (from, to) => {
    if (from?.stepId === to.stepId) return 0;
    const { kept } = to;
    const before = from?.kept ?? null;
    if (before === null || kept === null) return to.setUpMin;
    const { minutes, basis } = changeOverOf(differences(before, kept));
    return basis === 'measured' ? minutes : Math.min(minutes, to.setUpMin);
  };
}
