import {
  cellKinds,
  mechanisations,
  travelUnits,
  type BodyOf,
  type Cell,
  type cells,
} from '@tackboard/contract';

/** What stands in the fields of the form; texts as typed, null for an empty number. */
export interface CellDraft {
  code: string;
  name: string;
  kind: string;
  processes: string;
  mechanisation: string;
  stations: string;
  sourceRatingA: number | null;
  sourceRatingPct: number | null;
  torchRatingA: number | null;
  torchRatingPct: number | null;
  torchMaxA: number | null;
  torchRatingGas: string;
  reachMm: number | null;
  loadKg: number | null;
  travelUnit: string;
  planningFactor: number | null;
  gasLossFactor: number | null;
  extraction: string;
  active: boolean;
}

/** The draft of a stored cell, or of a new booth with the usual planning factors. */
export function draftOf(cell?: Cell): CellDraft {
  return {
    code: cell?.code ?? '',
    name: cell?.name ?? '',
    kind: cell?.kind ?? 'booth',
    processes: cell?.processes.join(', ') ?? '',
    mechanisation: cell?.mechanisation ?? 'partlyMechanised',
    stations: String(cell?.stations ?? 1),
    sourceRatingA: cell?.sourceRatingA ?? null,
    sourceRatingPct: cell?.sourceRatingPct ?? null,
    torchRatingA: cell?.torchRatingA ?? null,
    torchRatingPct: cell?.torchRatingPct ?? null,
    torchMaxA: cell?.torchMaxA ?? null,
    torchRatingGas: cell?.torchRatingGas ?? '',
    reachMm: cell?.reachMm ?? null,
    loadKg: cell?.loadKg ?? null,
    travelUnit: cell?.travelUnit ?? 'mm/min',
    planningFactor: cell?.planningFactor ?? 0.8,
    gasLossFactor: cell?.gasLossFactor ?? 1,
    extraction: cell?.extraction ?? '',
    active: cell?.active ?? true,
  };
}

/** What is sent for a draft. An emptied factor goes back to its usual value. */
export function bodyOf(draft: CellDraft): BodyOf<typeof cells.add> {
  const { code, name, sourceRatingA, sourceRatingPct, torchRatingA, torchRatingPct } = draft;
  return {
    code,
    name,
    kind: oneOf(cellKinds, draft.kind),
    processes: draft.processes
      .split(/[,;\s]+/)
      .map((process) => process.trim())
      .filter((process) => process !== ''),
    mechanisation: oneOf(mechanisations, draft.mechanisation),
    stations: Number(draft.stations),
    sourceRatingA,
    sourceRatingPct,
    torchRatingA,
    torchRatingPct,
    torchMaxA: draft.torchMaxA,
    torchRatingGas: draft.torchRatingGas.trim() === '' ? null : draft.torchRatingGas,
    reachMm: draft.reachMm,
    loadKg: draft.loadKg,
    travelUnit: oneOf(travelUnits, draft.travelUnit),
    planningFactor: draft.planningFactor ?? 0.8,
    gasLossFactor: draft.gasLossFactor ?? 1,
    extraction: draft.extraction,
  };
}

function oneOf<const T extends readonly string[]>(allowed: T, value: string): T[number] {
  const found = allowed.find((one) => one === value);
  if (found === undefined) throw new Error(`${value} is none of ${allowed.join(', ')}.`);
  return found;
}
