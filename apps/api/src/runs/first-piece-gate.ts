import { Refusal } from '../refusal.js';
import type { RunRecord } from './store.js';

type Checked = Pick<RunRecord, 'goodLikeThis'> & {
  readonly view: Pick<
    RunRecord['view'],
    'jobNumber' | 'stepGoodCount' | 'firstPiece' | 'partNumber'
  >;
};

/** Good parts made like this that no first piece speaks for; parts that an NCR took out do not count. */
function unchecked({ view, goodLikeThis }: Checked): number {
  return view.firstPiece === 'passed' ? 0 : Math.min(view.stepGoodCount, goodLikeThis);
}

function whatToDo({ firstPiece }: Checked['view']): string {
  if (firstPiece === 'waitingQa') return 'It is checked and waits for the signature of QA';
  if (firstPiece === 'failed') {
    return 'It did not pass: rework it and check it again, or raise an NCR and check another one';
  }
  return 'Check it and sign it first';
}

/** Until the first piece has passed, one part is counted and no more; scrap is counted as it falls. */
export function refuseUnchecked(run: Checked, { good, rework }: { good: number; rework: number }) {
  const { view } = run;
  if (view.firstPiece === 'passed' || good + rework === 0) return;
  const parts = unchecked(run) + good + rework;
  if (parts <= 1) return;
  throw new Refusal(
    'NOT_NOW',
    `The first piece of job ${view.jobNumber} (${view.partNumber}) has not passed, so ${parts} parts cannot be counted. ${whatToDo(view)}.`,
    {
      fields: [
        {
          field: good > 0 ? 'body.good' : 'body.rework',
          given: String(good > 0 ? good : rework),
          allowed: '1 part until the first piece has passed',
        },
      ],
      current: view,
    },
  );
}

/** A batch of one is checked like any other: a step does not end on a part that nobody has signed. */
export function refuseUncheckedEnd(run: Checked): void {
  if (unchecked(run) === 0) return;
  const { view } = run;
  throw new Refusal(
    'NOT_NOW',
    `Job ${view.jobNumber} (${view.partNumber}) cannot be put down as complete: its first piece has not passed. ${whatToDo(view)}.`,
    { current: view },
  );
}
