import type { BodyOf, qualification } from '@tackboard/contract';

type Typed = BodyOf<typeof qualification.suggestCertificate>;

/** What stands in the fields of the test piece; empty is not stated. */
export function emptyPiece() {
  return {
    jointType: '',
    product: '',
    position: '',
    thicknessMm: null as number | null,
    depositedMm: null as number | null,
    diameterMm: null as number | null,
    layers: null as number | null,
    weldDetail: '',
    fillerGroup: '',
    materialGroup: '',
    transfer: '',
    runs: '',
    supplementaryFillet: '',
  };
}

export type PieceDraft = ReturnType<typeof emptyPiece>;

export function pieceOf(draft: PieceDraft): Typed['testPiece'] {
  const { product, runs, supplementaryFillet, layers, ...rest } = draft;
  return {
    ...rest,
    product: product === 'plate' || product === 'pipe' ? product : null,
    runs: runs === 'single' || runs === 'multi' ? runs : null,
    supplementaryFillet: supplementaryFillet === '' ? null : supplementaryFillet === 'yes',
    layers: layers === null || !Number.isInteger(layers) ? null : layers,
  };
}
