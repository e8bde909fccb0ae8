import type { BodyOf, orders, Place } from '@tackboard/contract';

type AddOrder = BodyOf<typeof orders.add>;
export type OrderLineBody = AddOrder['lines'][number];

/** What stands in the fields of one line; texts as typed, null for an empty number or day. */
export interface LineDraft {
  partId: string;
  orderedRevision: string;
  /** Fingerprint of the drawing that came with the order. */
  drawingPrint: string | null;
  quantity: number | null;
  dueOn: string | null;
  pastDueReason: string;
  /** The quantity that was confirmed; a changed quantity is asked about again. */
  confirmedQuantity: number | null;
  /** The part that was confirmed to be the one meant; another part is asked about again. */
  confirmedPartId: string | null;
  /** What programming would take; asked where the robot cannot be judged without it. */
  programmingMin: number | null;
  /** The places that were chosen instead of the proposed ones, by step number. */
  cells: Record<number, Pick<Place, 'cellId' | 'beforeStepId'>>;
}

export type LineField = 'partId' | 'orderedRevision' | 'quantity' | 'dueOn';

export function emptyLine(): LineDraft {
  return {
    partId: '',
    orderedRevision: '',
    drawingPrint: null,
    quantity: null,
    dueOn: null,
    pastDueReason: '',
    confirmedQuantity: null,
    confirmedPartId: null,
    programmingMin: null,
    cells: {},
  };
}

/** Whether the text is the number or another name of a part, in whole; case does not count. */
export function isNameOf(
  part: { readonly number: string; readonly aliases: readonly string[] },
  text: string,
): boolean {
  const wanted = text.trim().toLocaleUpperCase();
  return [part.number, ...part.aliases].some((name) => name.toLocaleUpperCase() === wanted);
}

/** The fields that are still empty, in the order in which they are filled in. */
export function missingFields(line: LineDraft): LineField[] {
  const missing: LineField[] = [];
  if (line.partId === '') missing.push('partId');
  if (line.orderedRevision.trim() === '') missing.push('orderedRevision');
  if (line.quantity === null) missing.push('quantity');
  if (line.dueOn === null) missing.push('dueOn');
  return missing;
}

/** What is asked or sent for a line; null while a field is missing. */
export function lineBody(line: LineDraft): OrderLineBody | null {
  const { quantity, dueOn } = line;
  if (quantity === null || dueOn === null || missingFields(line).length > 0) return null;
  const reason = line.pastDueReason.trim();
  return {
    partId: line.partId,
    orderedRevision: line.orderedRevision.trim(),
    drawingPrint: line.drawingPrint,
    quantity,
    dueOn,
    pastDueReason: reason.length < shortestReason ? null : reason,
    quantityConfirmed: line.confirmedQuantity === quantity,
    partConfirmed: line.confirmedPartId === line.partId,
    cells: Object.entries(line.cells).map(([stepNumber, { cellId, beforeStepId }]) => ({
      ...{ stepNumber: Number(stepNumber), cellId, beforeStepId },
    })),
  };
}

/** A reason that is only begun is not asked about yet, so that the question stays while it is typed. */
const shortestReason = 3;
