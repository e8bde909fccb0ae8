import type { PlanProblem } from './problem.js';

/** Something to know about a plan that can be made all the same. */
export interface PlanNote {
  code: 'dueBeforeRelease' | 'cellWithoutHours' | 'allHeld';
  /** Id of the step or cell; null when the whole plan is meant. */
  about: string | null;
  words: string;
}

export function notesOf(problem: PlanProblem): PlanNote[] {
  const notes: PlanNote[] = [];
  for (const step of problem.steps) {
    if (step.dueMin >= step.releaseMin) continue;
    const late = step.releaseMin - step.dueMin;
    notes.push({
      code: 'dueBeforeRelease',
      about: step.id,
      words: `Step "${step.id}" is due ${late} minutes before it can begin: it will be late in any order.`,
    });
  }
  for (const cell of problem.cells) {
    if (cell.hours?.length !== 0) continue;
    notes.push({
      code: 'cellWithoutHours',
      about: cell.id,
      words: `Cell "${cell.id}" has no hours in its calendar: nothing is planned there.`,
    });
  }
  if (problem.steps.every((step) => step.hold)) {
    notes.push({
      code: 'allHeld',
      about: null,
      words: 'All work is started or pinned: the order stays as it is.',
    });
  }
  return notes;
}
