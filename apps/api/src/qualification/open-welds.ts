import { findProcedures, type WeldInNeed } from '@tackboard/calc';
import { groupBy } from '../group-by.js';
import type { ApprovedWps } from '../procedures/service.js';
import type { CertificateFacts } from '../queue/facts.js';
import { weldFacts } from '../queue/fit.js';
import { judgeCertificate, type PersonQuestion } from '../queue/person-fit.js';
import type { QueuedStep, WeldToHold } from './store.js';

interface CellAt {
  readonly id: string;
  readonly code: string;
  readonly kind: 'robot' | 'booth';
}

/** A weld on file or in the queues, at the cells it may be made at, with the queued work that waits for it. */
export interface PlacedWeld extends WeldToHold {
  /** As people know it: part, revision, weld and, where it is bound to one, the cell. */
  readonly name: string;
  readonly cells: readonly CellAt[];
  readonly queued: readonly QueuedStep[];
}

const byHand: ReadonlySet<string> = new Set(['manual', 'partlyMechanised']);

/** A weld that is queued is wanted at that cell; one that is only on file may go to any cell of its kind. */
export function placedWelds(
  welds: readonly WeldToHold[],
  queued: readonly QueuedStep[],
  cells: readonly CellAt[],
): PlacedWeld[] {
  const byStep = groupBy(queued, ({ job, step }) => `${job.revisionId} ${step.number}`);
  return welds.flatMap((each): PlacedWeld[] => {
    const { weld, part, label, revisionId, cellKind } = each;
    const name = `${part.number} ${label}, weld ${weld.number}`;
    const waiting = byStep.get(`${revisionId} ${weld.stepNumber}`) ?? [];
    if (cellKind === 'booth' || waiting.length === 0) {
      const ofKind = cells.filter(({ kind }) => kind === cellKind);
      return [{ ...each, name, cells: ofKind, queued: waiting }];
    }
    return [...groupBy(waiting, ({ cell }) => cell.id).values()].flatMap((steps) => {
      const cell = steps[0]?.cell;
      return cell === undefined
        ? []
        : [{ ...each, name: `${name} at ${cell.code}`, cells: [cell], queued: steps }];
    });
  });
}

/** Welds that so many approved procedures cover at most, by what the drawing says. */
export function withoutProcedure(
  welds: readonly WeldToHold[],
  approved: readonly ApprovedWps[],
  most: 0 | 1,
): WeldToHold[] {
  const atBooths = approved.filter(({ ranges }) =>
    ranges.mechanisations.some((each) => byHand.has(each)),
  );
  const few = (kind: 'robot' | 'booth') => {
    const asked = welds.filter(({ cellKind }) => cellKind === kind);
    const found = findProcedures({
      welds: asked.map(({ weld }) => ({
        ...{ id: weld.id, ...weldFacts(weld) },
        ...(kind === 'robot' ? { mechanisation: 'fullyMechanised' } : {}),
      })),
      procedures: kind === 'robot' ? approved : atBooths,
      mostMisses: 0,
    });
    return found.filter(({ covering }) => covering.length <= most).map(({ weldId }) => weldId);
  };
  const open = new Set([...few('robot'), ...few('booth')]);
  return welds.filter(({ weld }) => open.has(weld.id));
}

/** Welds that so many people may make today at most, by their certificates. */
export function withoutPerson(
  welds: readonly PlacedWeld[],
  certificates: readonly CertificateFacts[],
  { most, ...asked }: { most: 0 | 1 } & Pick<PersonQuestion, 'today' | 'policy'>,
): PlacedWeld[] {
  const holds = (certificate: CertificateFacts, { weld, cells }: PlacedWeld) =>
    cells.some((cell) =>
      judgeCertificate(certificate, weld, { cell, coded: true, ...asked }).every(
        ({ strength }) => strength === 'pass' || strength === 'tell',
      ),
    );
  return welds.filter((each) => {
    const people = new Set<string>();
    for (const certificate of certificates) {
      if (!people.has(certificate.personId) && holds(certificate, each)) {
        people.add(certificate.personId);
      }
      if (people.size > most) return false;
    }
    return true;
  });
}

/** Covered electrodes and TIG are led by hand at a booth, wire-fed processes partly by the machine. */
const isManual = (process: string) => /^(111|14\d?|15|3\d*)$/.test(process.trim());

/** The weld as a test piece is judged by it. */
export function weldInNeed({ weld, cellKind, cells, name }: PlacedWeld): WeldInNeed {
  const part = (side: 'A' | 'B') => ({
    group: weld[`materialGroup${side}`],
    material: weld[`material${side}`],
    thicknessMm: weld[`thickness${side}Mm`],
  });
  return {
    id: name,
    process: weld.process,
    mechanisation:
      cellKind === 'robot'
        ? 'fullyMechanised'
        : isManual(weld.process)
          ? 'manual'
          : 'partlyMechanised',
    jointType: weld.jointType,
    position: weld.position,
    parts: [part('A'), part('B')],
    throatMm: weld.jointType === 'fillet' ? weldFacts(weld).throatMm : null,
    depositedMm:
      weld.jointType === 'butt'
        ? (weld.grooveDepthMm ?? Math.min(weld.thicknessAMm, weld.thicknessBMm))
        : null,
    units: cells.map(({ code }) => code),
  };
}
