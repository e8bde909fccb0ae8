/** What is half typed for one job: the form that is open and its fields, as typed. */
type DraftFields = Readonly<Record<string, string>>;
/** By job step, the one typed into last at the end. */
export type Drafts = Readonly<Record<string, DraftFields>>;

/** A cell holds one job at a time; a few more are kept for jobs that were put down and come back. */
const keptDrafts = 5;

/** The drafts with one field set; an empty field is left out, and so is a draft without fields. */
export function withField(
  drafts: Drafts,
  at: { readonly stepId: string; readonly name: string; readonly value: string },
): Drafts {
  const { [at.stepId]: former = {}, ...others } = drafts;
  const { [at.name]: _former, ...rest } = former;
  const fields = at.value === '' ? rest : { ...rest, [at.name]: at.value };
  const all = Object.keys(fields).length === 0 ? others : { ...others, [at.stepId]: fields };
  return Object.fromEntries(Object.entries(all).slice(-keptDrafts));
}

/** Reads drafts from their stored text; anything else than fields of text is left out. */
export function draftsFrom(stored: string | null): Drafts {
  if (stored === null) return {};
  try {
    const read: unknown = JSON.parse(stored);
    return Object.fromEntries(
      entriesOf(read).map(([stepId, fields]) => [
        stepId,
        Object.fromEntries(
          entriesOf(fields).filter(
            (entry): entry is [string, string] => typeof entry[1] === 'string',
          ),
        ),
      ]),
    );
  } catch {
    return {};
  }
}

function entriesOf(value: unknown): [string, unknown][] {
  return typeof value === 'object' && value !== null ? Object.entries(value) : [];
}
