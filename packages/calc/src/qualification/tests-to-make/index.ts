export { testBook, testBooks } from './books.js';
export { candidateTests, type CandidateTest, type NotHeld } from './candidates.js';
export {
  greedyCover,
  heldWeight,
  mergedCover,
  type CoverProblem,
  type MergedCover,
} from './cover.js';
export type {
  NeedVariable,
  TestBook,
  TestConditions,
  TestsFor,
  TestToMake,
  WeldInNeed,
} from './facts.js';
