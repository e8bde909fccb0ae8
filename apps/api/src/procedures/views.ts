import type { BodyOf, procedures, Wpqr, Wps, WpsSummary } from '@tackboard/contract';
import type { z } from 'zod';
import { breachesOf } from './breaches.js';
import { comparisonsOf } from './comparisons.js';
import type { proceduresReader, WpsRecord } from './store.js';
import type { WpqrRecord } from './wpqr-store.js';

export type WpqrInput = BodyOf<(typeof procedures)['addWpqr']>;
export type WpsInput = BodyOf<(typeof procedures)['edit']>;

type Reader = ReturnType<typeof proceduresReader>;

export function toWpqrView({ approvedWps: _approvedWps, ...record }: WpqrRecord): Wpqr {
  return record;
}

export function toSummary(wps: WpsRecord, names: Map<string, string>): z.infer<typeof WpsSummary> {
  const { ranges } = wps;
  return {
    id: wps.id,
    version: wps.version,
    number: wps.number,
    revision: wps.revision,
    title: wps.title,
    state: wps.state,
    code: wps.code,
    process: ranges.process,
    mechanisations: ranges.mechanisations,
    thicknessMm: ranges.thicknessMm,
    positions: ranges.positions,
    approvedBy: nameOf(wps.approvedById, names),
    approvedAt: wps.approvedAt?.toISOString() ?? null,
  };
}

/** One revision with the records behind it, its sisters and where it is used. */
export async function wpsView(from: Reader, wps: WpsRecord): Promise<Wps> {
  const names = await from.names([
    wps.writtenById,
    ...(wps.approvedById ? [wps.approvedById] : []),
  ]);
  return {
    id: wps.id,
    version: wps.version,
    number: wps.number,
    revision: wps.revision,
    state: wps.state,
    title: wps.title,
    code: wps.code,
    ranges: wps.ranges,
    joint: wps.joint,
    details: wps.details,
    technique: wps.technique,
    changeNote: wps.changeNote,
    writtenById: wps.writtenById,
    writtenBy: names.get(wps.writtenById) ?? wps.writtenById,
    createdAt: wps.createdAt.toISOString(),
    approvedBy: nameOf(wps.approvedById, names),
    approvedAt: wps.approvedAt?.toISOString() ?? null,
    supersededAt: wps.supersededAt?.toISOString() ?? null,
    wpqrIds: wps.records.map(({ id }) => id),
    wpqrs: wps.records.map(({ id, number }) => ({ id, number })),
    breaches: breachesOf(wps, wps.records),
    comparisons: comparisonsOf(wps.details, wps.records),
    revisions: await from.revisions(wps.number),
    usedBy: await from.usedBy(wps.number),
  };
}

function nameOf(id: string | null, names: Map<string, string>): string | null {
  return id === null ? null : (names.get(id) ?? id);
}
