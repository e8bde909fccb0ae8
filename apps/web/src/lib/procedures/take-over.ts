import { jointTypes, mechanisations, positions, type SuggestedRange } from '@tackboard/contract';
import { rangeFields, type RangesDraft } from './ranges-draft.js';

const texts = ['fillers', 'gases'] as const;
const groups = { mechanisations, jointTypes, positions } as const satisfies Partial<
  Record<keyof RangesDraft, readonly string[]>
>;

/**
 * Whether a suggestion can be put into its field as it stands. Material groups are left to be typed from the
 * record: beside its pairs the rule asks for yield strengths and sub-groups, which the pairs alone would leave out.
 */
export function mayTakeOver({ field, answer }: SuggestedRange): boolean {
  if (field === null) return false;
  if (answer === 'list') {
    return field === 'process' || field in groups || (texts as readonly string[]).includes(field);
  }
  if (answer !== 'range') return false;
  return (
    field === 'preheatMinC' ||
    field === 'interpassMaxC' ||
    rangeFields.some(({ key }) => key === field)
  );
}

/** Puts what the rule gives into the field it belongs to; only ever because a person pressed for it. */
export function takeOver(draft: RangesDraft, suggested: SuggestedRange): void {
  const { field, values, min, max } = suggested;
  if (!mayTakeOver(suggested)) return;
  if (field === 'preheatMinC') draft.preheatMinC = min;
  else if (field === 'interpassMaxC') draft.interpassMaxC = max;
  else if (field === 'process') draft.process = values[0] ?? '';
  else if (field === 'fillers' || field === 'gases') draft[field] = values.join(', ');
  else if (field === 'mechanisations' || field === 'jointTypes' || field === 'positions') {
    const offered: readonly string[] = groups[field];
    draft[field] = offered.filter((one) => values.includes(one));
  } else {
    const range = rangeFields.find(({ key }) => key === field);
    if (range !== undefined) draft[range.key] = { min, max };
  }
}
