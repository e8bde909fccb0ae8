import type { Certificate } from '@tackboard/contract';
import type { Unit } from '../db/unit-of-work.js';
import { certificateWriter } from './certificate-store.js';

interface Written {
  readonly id: string;
  /** The shop's day, for the standing that the answer shows. */
  readonly day: string;
  readonly type: 'certificate.added' | 'certificate.confirmed';
  readonly meaning: 'checked' | 'approved';
  readonly reason?: string;
}

/** The certificate as it now stands, and its event. */
export async function certificateWritten(
  unit: Unit,
  { id, day, type, meaning, reason }: Written,
): Promise<Certificate> {
  const certificate = await certificateWriter(unit.tx).byId(id, day);
  if (certificate === null) throw new Error(`Certificate ${id} was written but is not there.`);
  unit.append({
    type,
    subjectType: 'certificate',
    subjectId: id,
    version: certificate.version,
    after: certificate,
    meaning,
    reason: reason ?? null,
  });
  return certificate;
}
