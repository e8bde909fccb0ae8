import type { FieldRefusal, Revision } from '@tackboard/contract';
import { Refusal, refuseField } from '../refusal.js';
import { folded } from './search-words.js';

type Draft = Pick<Revision, 'label' | 'partNumber' | 'state' | 'welds' | 'steps'>;

export function refuseUnlessDraft({ label, partNumber, state }: Draft): void {
  if (state === 'draft') return;
  throw new Refusal(
    'NOT_NOW',
    `Revision ${label} of ${partNumber} is ${state} and stays as it is. Start a new revision to change it.`,
  );
}

/** Numbers that stand twice in a list, each at the place where it stands again. */
export function refuseRepeatedNumbers(
  rows: readonly { readonly number: number }[],
  list: 'welds' | 'steps',
): void {
  const what = list === 'welds' ? 'weld' : 'step';
  const fields = rows.flatMap(({ number }, at): FieldRefusal[] =>
    rows.findIndex((row) => row.number === number) === at
      ? []
      : [
          {
            field: `body.${list}.${at}.number`,
            given: String(number),
            allowed: `a number that no other ${what} of the list has`,
          },
        ],
  );
  if (fields.length === 0) return;
  const numbers = [...new Set(fields.map(({ given }) => given))].join(', ');
  throw new Refusal(
    'INVALID',
    `The numbers of the ${list} must be unique; ${numbers} stands more than once. Number them anew.`,
    { fields },
  );
}

export function refuseLabelTaken(label: string, labels: readonly string[], partNumber: string) {
  const taken = labels.find((each) => folded(each) === folded(label));
  if (taken === undefined) return;
  throw refuseField(
    'DUPLICATE',
    `${partNumber} has a revision ${taken} already. Open it, or choose the label on the new drawing.`,
    'body.label',
    label,
    `another label than ${labels.join(', ')}`,
  );
}

/** What a draft lacks before anything may be made by it. */
export function refuseUnlessComplete(draft: Draft): void {
  const lacks = lacksOf(draft);
  if (lacks.length === 0) return;
  throw new Refusal(
    'NOT_NOW',
    `Revision ${draft.label} of ${draft.partNumber} cannot be released: ${lacks.join('; ')}. Complete it first.`,
  );
}

function lacksOf({ welds, steps }: Draft): string[] {
  const numbers = new Set(steps.map(({ number }) => number));
  const strays = welds.filter(({ stepNumber }) => !numbers.has(stepNumber));
  return [
    ...(welds.length === 0 ? ['it has no weld'] : []),
    ...(steps.length === 0 ? ['it has no step'] : []),
    ...(steps.length === 0
      ? []
      : strays.map(
          ({ number, stepNumber }) =>
            `weld ${number} is made in step ${stepNumber}, which is not among the steps (${[...numbers].join(', ')})`,
        )),
  ];
}
