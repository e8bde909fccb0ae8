import { cellKinds, type BodyOf, type parts, type Step } from '@tackboard/contract';

type StepBody = BodyOf<typeof parts.setSteps>['steps'][number];

/** What stands in the fields of a step; null for an empty number. `row` only tells steps apart on the screen. */
export interface StepDraft {
  readonly row: number;
  number: number | null;
  name: string;
  cellKind: string;
  wpsNumber: string;
  setUpMin: number | null;
  firstPieceMin: number | null;
  unitMin: number | null;
  startStopS: number | null;
  airMovesS: number | null;
  cleaningS: number | null;
  loadS: number | null;
  massKg: number | null;
  reachMm: number | null;
  instructions: string;
  holdPoint: boolean;
  witnessMin: number | null;
}

export const stepTimes = [
  { key: 'setUpMin', unit: 'min' },
  { key: 'firstPieceMin', unit: 'min' },
  { key: 'unitMin', unit: 'min' },
  { key: 'startStopS', unit: 's' },
  { key: 'airMovesS', unit: 's' },
  { key: 'cleaningS', unit: 's' },
  { key: 'loadS', unit: 's' },
] as const satisfies readonly { key: keyof StepDraft; unit: string }[];

export function draftOfStep(step: Step, row: number): StepDraft {
  return {
    row,
    number: step.number,
    name: step.name,
    cellKind: step.cellKind,
    wpsNumber: step.wpsNumber ?? '',
    setUpMin: step.setUpMin,
    firstPieceMin: step.firstPieceMin,
    unitMin: step.unitMin,
    startStopS: step.startStopS,
    airMovesS: step.airMovesS,
    cleaningS: step.cleaningS,
    loadS: step.loadS,
    massKg: step.massKg,
    reachMm: step.reachMm,
    instructions: step.instructions,
    holdPoint: step.holdPoint,
    witnessMin: step.witnessMin,
  };
}

export function nextStep(rows: readonly StepDraft[]): StepDraft {
  const highest = Math.max(0, ...rows.map(({ number }) => number ?? 0));
  return {
    row: Math.max(-1, ...rows.map((one) => one.row)) + 1,
    number: highest + 1,
    name: '',
    cellKind: rows.at(-1)?.cellKind ?? 'booth',
    wpsNumber: rows.at(-1)?.wpsNumber ?? '',
    setUpMin: 0,
    firstPieceMin: 0,
    unitMin: null,
    startStopS: 0,
    airMovesS: 0,
    cleaningS: 0,
    loadS: 0,
    massKg: null,
    reachMm: null,
    instructions: '',
    holdPoint: false,
    witnessMin: null,
  };
}

/** What is sent for the steps; null while a number of one is still empty. */
export function stepBodies(rows: readonly StepDraft[]): StepBody[] | null {
  const bodies = rows.map(stepBody).filter((body) => body !== null);
  return bodies.length === rows.length ? bodies : null;
}

function stepBody(draft: StepDraft): StepBody | null {
  const { number, setUpMin, firstPieceMin, unitMin, startStopS, airMovesS, cleaningS, loadS } =
    draft;
  const cellKind = cellKinds.find((kind) => kind === draft.cellKind);
  if (number === null || cellKind === undefined) return null;
  if (setUpMin === null || firstPieceMin === null || unitMin === null) return null;
  if (startStopS === null || airMovesS === null || cleaningS === null || loadS === null)
    return null;
  return {
    ...{ number, name: draft.name, cellKind, wpsNumber: draft.wpsNumber.trim() || null },
    ...{ setUpMin, firstPieceMin, unitMin, startStopS, airMovesS, cleaningS, loadS },
    ...{ massKg: draft.massKg, reachMm: draft.reachMm },
    ...{ instructions: draft.instructions, holdPoint: draft.holdPoint },
    witnessMin: draft.witnessMin,
  };
}
