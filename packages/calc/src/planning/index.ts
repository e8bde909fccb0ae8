export type {
  AnnouncedStart,
  LaneOrder,
  OpenHours,
  PlanCell,
  PlanProblem,
  PlanStep,
} from './problem.js';
export {
  changeKinds,
  changeOver,
  learnChangeOvers,
  type ChangeKind,
  type ChangeOver,
  type LearntChangeOver,
  type MeasuredChangeOver,
} from './change-over.js';
export { layOut, type LaidOut } from './laid-out.js';
export type { PlanNote } from './notes.js';
export { planStepsMax } from './check.js';
export { exactStepsMax } from './exact.js';
export { stopAfterSlices, type ShouldStop } from './stop.js';
export {
  evaluateOrder,
  planOrder,
  searchOrder,
  type OrderSearch,
  type PlacedStep,
  type PlannedOrder,
} from './search.js';
export {
  acceptMoves,
  explainOrder,
  type MoveReason,
  type Proposal,
  type ProposedMove,
} from './explain.js';
