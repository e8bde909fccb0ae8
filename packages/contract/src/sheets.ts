import { z } from 'zod';
import { access } from './access.js';
import { defineRoute } from './route.js';
import { Id } from './values.js';

/** A document for the printer: the bytes of the file, not JSON. */
const Printed = z.custom<Uint8Array>((value) => value instanceof Uint8Array, 'a printed sheet');

const area = 'sheets';
const sheet = {
  area,
  method: 'GET',
  access: access.signedIn,
  media: 'application/pdf',
  reply: Printed,
  refusals: ['NOT_FOUND'],
} as const;

export const sheets = {
  wps: defineRoute({
    ...sheet,
    id: 'wpsSheet',
    path: '/api/wpss/:wpsId/sheet.pdf',
    summary: 'One procedure revision as a sheet, in the order of the fields of ISO 15609-1',
    params: z.object({ wpsId: Id }),
  }),
  wpqr: defineRoute({
    ...sheet,
    id: 'wpqrSheet',
    path: '/api/wpqrs/:wpqrId/sheet.pdf',
    summary: 'A procedure qualification record as a sheet',
    params: z.object({ wpqrId: Id }),
  }),
  certificates: defineRoute({
    ...sheet,
    id: 'certificatesSheet',
    path: '/api/people/:personId/certificates.pdf',
    summary: 'The certificates of a person with their confirmations as a sheet',
    params: z.object({ personId: Id }),
  }),
  traveler: defineRoute({
    ...sheet,
    id: 'travelerSheet',
    path: '/api/jobs/:jobId/traveler.pdf',
    summary: 'The traveler of a job, with a code to scan at the cell',
    params: z.object({ jobId: Id }),
  }),
  dossier: defineRoute({
    ...sheet,
    id: 'dossierSheet',
    path: '/api/jobs/:jobId/dossier.pdf',
    summary:
      'All records of a job together: people, procedures, lots, checks, NCRs, overrides, signatures',
    params: z.object({ jobId: Id }),
  }),
  setUp: defineRoute({
    ...sheet,
    id: 'setUpSheet',
    path: '/api/revisions/:revisionId/set-ups/:setUpId/sheet.pdf',
    summary: 'How a step is set up at a cell, as a sheet',
    params: z.object({ revisionId: Id, setUpId: Id }),
  }),
};

const jobAddress =
  /(?:^|\/)orders\/jobs\/([0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12})\/?$/;

/** What the code on a traveler holds: the address of the job's page, without the host it is opened at. */
export function jobAddressOf(jobId: string): string {
  return `/orders/jobs/${jobId}`;
}

/**
 * The job that a scanned or typed code names: the address on a traveler, with or without host, or the number of
 * the job. Null where it is neither.
 */
export function jobNamedBy(
  code: string,
): { readonly jobId: string } | { readonly jobNumber: number } | null {
  const given = code.trim();
  const jobId = jobAddress.exec(given)?.[1];
  if (jobId !== undefined) return { jobId };
  return /^\d{1,9}$/.test(given) ? { jobNumber: Number(given) } : null;
}
