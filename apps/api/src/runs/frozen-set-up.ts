import { settingVariables, type Run, type SetUp } from '@tackboard/contract';
import type { ChangeRow, Closing } from './memory-store.js';
import { outsideSince, settingsAfter } from './settings.js';

type NewSetUp = Omit<SetUp, 'id' | 'version' | 'frozenAt' | 'frozenBy' | 'frozenFromRunId'>;

const dialled = ['currentA', 'voltageV', 'wireSpeedMMin', 'travelMmMin', 'preheatC'] as const;

/** Where a step is made and what hangs there: the little that is known of a set-up nobody has written. */
export interface Bench extends Pick<SetUp, 'mechanisation' | 'wireItemId' | 'gasItemId'> {
  readonly stepId: string;
  readonly cellId: string;
  readonly cellCode: string;
}

/** The first set-up of a step: what is loaded, and of each value the last one that was read off the dial. */
export function firstSetUp(bench: Bench, readings: Run['readings']): NewSetUp {
  const values = Object.fromEntries(
    dialled.map((name) => [name, readings.findLast((one) => one[name] !== null)?.[name] ?? null]),
  ) as Pick<SetUp, (typeof dialled)[number]>;
  return {
    ...bench,
    ...{ wireName: null, wireDesignation: null, wireDiameterMm: null },
    ...{ gasName: null, gasDesignation: null, torch: '' },
    ...values,
    ...{ gasFlowLMin: null, contactTipMm: null },
    ...{ programId: null, programName: null, programRevision: null },
    ...{ fixtureId: null, fixtureCode: null, fixturePlace: null, fixtureCondition: null },
    watchOuts: [],
  };
}

/**
 * What a good run leaves for the next return: the set-up that it started from, with every change on top. Null where
 * the run is no example: short of its batch, or ended with settings outside the procedure, or began without a
 * set-up and nobody has said a single value.
 */
export function frozenFrom(facts: {
  setUp: NewSetUp;
  changes: readonly Pick<ChangeRow, 'variable' | 'to' | 'result' | 'at'>[];
  closing: Closing;
  good: number;
  quantity: number;
}): NewSetUp | null {
  const { setUp, changes, closing, good, quantity } = facts;
  if (good < quantity || outsideSince(changes) !== null) return null;
  const settings = settingsAfter(setUp, changes);
  if (settingVariables.every((variable) => settings[variable] === null)) return null;
  return {
    ...setUp,
    ...settings,
    programRevision: closing.programAtClose ?? closing.programAtStart ?? setUp.programRevision,
    watchOuts: closing.watchOuts === null ? setUp.watchOuts : [...closing.watchOuts],
  };
}
