import type { Job, Wps } from '@tackboard/contract';
import { actingPerson, type Actor } from '../actor.js';
import type { CellsService } from '../cells/service.js';
import type { ConsumablesService } from '../consumables/service.js';
import { shopDay } from '../clock.js';
import type { FilesService } from '../files/service.js';
import type { Foundation } from '../foundation.js';
import { clockWords, dayWords, weekdayWords } from '../orders/day-words.js';
import type { OrdersService } from '../orders/service.js';
import type { OutsideService } from '../outside/service.js';
import type { PartsService } from '../parts/service.js';
import type { PeopleService } from '../people/service.js';
import type { ProceduresService } from '../procedures/service.js';
import type { QualityService } from '../quality/service.js';
import type { RecordsService } from '../records/service.js';
import { notFound } from '../refusal.js';
import type { RunsService } from '../runs/service.js';
import { certificatesSheet } from './certificates-sheet.js';
import { dossierSheet } from './dossier-sheet.js';
import { documentOf, type Sheet } from './frame.js';
import { photosToPrint } from './photos.js';
import { printed } from './print.js';
import { setUpSheet } from './set-up-sheet.js';
import { travelerSheet } from './traveler-sheet.js';
import { wpqrSheet } from './wpqr-sheet.js';
import { wpsSheet } from './wps-sheet.js';

export type SheetsService = ReturnType<typeof createSheetsService>;

interface Others {
  readonly cells: CellsService;
  readonly consumables: ConsumablesService;
  readonly files: FilesService;
  readonly orders: OrdersService;
  readonly outside: OutsideService;
  readonly parts: PartsService;
  readonly people: PeopleService;
  readonly procedures: ProceduresService;
  readonly quality: QualityService;
  readonly records: RecordsService;
  readonly runs: RunsService;
}

/** A file to print, with the name under which it is kept. */
export interface PrintedSheet {
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

/** Sheets for the printer, drawn from what the other areas answer; nothing is stored. */
export function createSheetsService(
  { clock, timeZone }: Pick<Foundation, 'clock' | 'timeZone'>,
  others: Others,
  shopName: string,
) {
  const { cells, orders, parts, people, procedures } = others;
  const inWords = (instant: string) => clockWords(new Date(instant), timeZone);

  async function print(actor: Actor, fileName: string, sheet: Sheet): Promise<PrintedSheet> {
    const { code, name } = actingPerson(actor);
    const printedAt = clockWords(clock.now(), timeZone);
    const printing = { shopName, printedAt, printedBy: `${name} (${code})` };
    return {
      fileName: `${fileName.replace(/[^A-Za-z0-9._-]+/g, '-')}.pdf`,
      bytes: await printed(documentOf(sheet, printing)),
    };
  }

  return {
    async wps(actor: Actor, wpsId: string): Promise<PrintedSheet> {
      const wps = await procedures.get(wpsId);
      const records = await recordsOf(procedures, wps);
      const approvedAt = wps.approvedAt === null ? null : inWords(wps.approvedAt);
      const sheet = wpsSheet({ wps, records, shopName, approvedAt });
      return print(actor, `${wps.number}-r${wps.revision}`, sheet);
    },
    async wpqr(actor: Actor, wpqrId: string): Promise<PrintedSheet> {
      const record = await procedures.wpqr(wpqrId);
      return print(actor, record.number, wpqrSheet(record, dayWords(record.testedOn)));
    },
    async certificates(actor: Actor, personId: string): Promise<PrintedSheet> {
      const person = (await people.list()).people.find(({ id }) => id === personId);
      if (person === undefined) throw notFound('person', personId, 'params.personId');
      const { certificates } = await people.certificates(personId);
      const codes = (await cells.list()).cells.map(({ id, code }) => [id, code] as const);
      const dayOf = (instant: string | Date) => shopDay(new Date(instant), timeZone);
      const held = { person, certificates, cellCodes: new Map(codes), dayOf };
      return print(
        actor,
        `certificates-${person.code}`,
        certificatesSheet({ ...held, day: dayOf(clock.now()) }),
      );
    },
    async traveler(actor: Actor, jobId: string): Promise<PrintedSheet> {
      const job = await orders.job(jobId);
      const sheet = travelerSheet(await travelerOnFile(others, job));
      return print(actor, `traveler-${job.number}`, sheet);
    },
    async dossier(actor: Actor, jobId: string): Promise<PrintedSheet> {
      const job = await orders.job(jobId);
      const sheet = dossierSheet({
        ...(await recordsOfJob(others, job)),
        ...{ job, at: inWords, dueOn: weekdayWords(job.dueOn) },
      });
      return print(actor, `dossier-${job.number}`, sheet);
    },
    async setUp(actor: Actor, at: { revisionId: string; setUpId: string }): Promise<PrintedSheet> {
      const revision = await parts.revision(at.revisionId);
      const step = revision.steps.find(({ setUps }) => setUps.some(({ id }) => id === at.setUpId));
      const setUp = step?.setUps.find(({ id }) => id === at.setUpId);
      if (step === undefined || setUp === undefined)
        throw notFound('set-up in use', at.setUpId, 'params.setUpId');
      const cell = await cells.get(setUp.cellId);
      const { wpsNumber } = step;
      const wps = wpsNumber === null ? null : await procedures.approvedByNumber(wpsNumber);
      const onFile = {
        ...{ revision, step, setUp, cell, keptAt: inWords(setUp.frozenAt) },
        wps: wps && { label: `${wps.number} r${wps.revision}`, ranges: wps.ranges },
      };
      const name = `set-up-${revision.partNumber}-${step.number}-${cell.code}`;
      const photos = await photosToPrint(others.files, setUp);
      // A photo that the printer cannot read does not keep the sheet from the cell: its name is printed alone.
      return print(actor, name, setUpSheet({ ...onFile, photos })).catch(async () => {
        const named = photos.map((photo) => ({ ...photo, image: null }));
        return print(actor, name, setUpSheet({ ...onFile, photos: named }));
      });
    },
  };
}

async function travelerOnFile({ parts, procedures }: Others, job: Job) {
  const revision = await parts.revision(job.revisionId);
  const part = await parts.get(job.partId);
  const named = revision.steps.flatMap(({ wpsNumber }) => wpsNumber ?? []);
  const approved = await procedures.approvedByNumbers(named);
  const labels = [...approved].map(([number, { revision: of }]) => [number, `${number} r${of}`]);
  return {
    ...{ job, revision, part, dueOn: weekdayWords(job.dueOn) },
    procedures: new Map(labels as [string, string][]),
  };
}

/** As many as a list answers at once: a job of one shop never comes near it. */
const most = 200;

async function recordsOfJob(
  { consumables, outside, parts, quality, records, runs }: Others,
  job: Job,
) {
  const jobId = job.id;
  return {
    drawingNumber: (await parts.revision(job.revisionId)).drawingNumber,
    runs: (await runs.ofJob(jobId)).runs,
    lots: (await consumables.lotsOfJob(jobId)).lots,
    firstPieces: (await quality.firstPieces({ jobId, limit: most })).firstPieces,
    ncrs: (await quality.ncrs({ jobId, limit: most, offset: 0 })).ncrs,
    points: (await quality.points({ jobId })).points,
    jobHolds: (await quality.holds({ jobId })).holds,
    overrides: (await quality.overrides({ jobId })).overrides,
    trips: (await outside.trips(jobId)).trips,
    history: (await records.history('job', jobId, most)).entries,
  };
}

async function recordsOf(procedures: ProceduresService, { wpqrIds }: Wps) {
  return Promise.all(wpqrIds.map(async (id) => procedures.wpqr(id)));
}
