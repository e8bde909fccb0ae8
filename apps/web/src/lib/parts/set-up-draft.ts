import { mechanisations, type BodyOf, type parts, type SetUp } from '@tackboard/contract';

type SetUpBody = BodyOf<typeof parts.freezeSetUp>;

/** What stands in the fields of a set-up; an empty text where nothing is chosen. */
export function setUpDraft(last?: SetUp) {
  return {
    wireItemId: last?.wireItemId ?? '',
    gasItemId: last?.gasItemId ?? '',
    torch: last?.torch ?? '',
    mechanisation: last?.mechanisation ?? 'partlyMechanised',
    currentA: last?.currentA ?? null,
    voltageV: last?.voltageV ?? null,
    wireSpeedMMin: last?.wireSpeedMMin ?? null,
    travelMmMin: last?.travelMmMin ?? null,
    gasFlowLMin: last?.gasFlowLMin ?? null,
    contactTipMm: last?.contactTipMm ?? null,
    preheatC: last?.preheatC ?? null,
    programId: last?.programId ?? '',
    fixtureId: last?.fixtureId ?? '',
    watchOuts: last?.watchOuts.join('\n') ?? '',
  };
}

export type SetUpDraft = ReturnType<typeof setUpDraft>;

/** The numbers that are dialled, in the order of the set-up card. */
export const dialFields = [
  { key: 'wireSpeedMMin', unit: 'm/min' },
  { key: 'voltageV', unit: 'V' },
  { key: 'currentA', unit: 'A' },
  { key: 'travelMmMin', unit: 'mm/min' },
  { key: 'gasFlowLMin', unit: 'l/min' },
  { key: 'contactTipMm', unit: 'mm' },
  { key: 'preheatC', unit: '°C' },
] as const satisfies readonly { key: keyof SetUpDraft; unit: string }[];

interface Program {
  readonly id: string;
  readonly revision: string;
}

/** What is sent for a set-up. The program's revision of today is kept with it; each line is one thing to watch. */
export function setUpBody(
  draft: SetUpDraft,
  cellId: string,
  programs: readonly Program[],
): SetUpBody {
  const { wireItemId, gasItemId, programId, fixtureId, watchOuts, ...rest } = draft;
  return {
    ...rest,
    cellId,
    mechanisation: mechanisations.find((one) => one === draft.mechanisation) ?? 'manual',
    wireItemId: wireItemId || null,
    gasItemId: gasItemId || null,
    programId: programId || null,
    programRevision: programs.find(({ id }) => id === programId)?.revision ?? null,
    fixtureId: fixtureId || null,
    watchOuts: watchOuts
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== ''),
  };
}
