import type { NotHeld, TestConditions, TestsFor, TestToMake, WeldInNeed } from '@tackboard/calc';
import type { Choices } from './choose-sets.js';

/** What the thread that looks for test pieces is started with. */
export interface TestsTask {
  readonly code: string;
  readonly edition: string;
  readonly for: TestsFor;
  readonly conditions: TestConditions;
  readonly welds: readonly WeldInNeed[];
  readonly budget: number;
  readonly limitMs: number;
}

/** Its one answer: pieces with the welds they hold, by place in the list, and which of them to make. */
export interface TestsFound extends Choices {
  readonly tests: readonly { readonly piece: TestToMake; readonly welds: readonly number[] }[];
  readonly notHeld: readonly NotHeld[];
}
