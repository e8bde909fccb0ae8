import { coveragePicture, findProcedures, type Holder } from '@tackboard/calc';
import type { Certificate, ProcessCoverage, Weld, WeldProcedures } from '@tackboard/contract';
import type { Foundation } from '../foundation.js';
import type { PeopleService } from '../people/service.js';
import type { ApprovedWps, ProceduresService } from '../procedures/service.js';
import { fitVariableWord, fitWords } from '../queue/fit-words.js';
import { weldFacts } from '../queue/fit.js';
import { notFound } from '../refusal.js';
import { qualificationReader } from './store.js';

interface Others {
  readonly procedures: Pick<ProceduresService, 'allApproved'>;
  readonly people: Pick<PeopleService, 'certificates'>;
}
type StepRow = Awaited<ReturnType<ReturnType<typeof qualificationReader>['revisionSteps']>>[number];

const byHand: ReadonlySet<string> = new Set(['manual', 'partlyMechanised']);

/** Which approved procedures cover a weld, and where thickness and position are held by nobody. */
export function finderService({ database }: Foundation, { procedures, people }: Others) {
  return {
    async proceduresFor(revisionId: string): Promise<{ welds: WeldProcedures[] }> {
      const store = qualificationReader(database.reader);
      if (!(await store.hasRevision(revisionId))) throw notFound('revision', revisionId);
      const steps = new Map(
        (await store.revisionSteps(revisionId)).map((step) => [step.number, step]),
      );
      const welds = (await store.weldsOf([revisionId])).get(revisionId) ?? [];
      const approved = await procedures.allApproved();
      return { welds: welds.map((weld) => found(weld, steps.get(weld.stepNumber), approved)) };
    },

    async coverage(): Promise<{ processes: ProcessCoverage[] }> {
      const store = qualificationReader(database.reader);
      const [approved, { certificates }, welds] = await Promise.all([
        procedures.allApproved(),
        people.certificates(),
        store.weldsOnFile(),
      ]);
      const picture = coveragePicture({
        holders: [...approved.map(procedureHolder), ...certificates.flatMap(personHolder)],
        welds: welds.map(({ number, process, position, thicknessAMm, thicknessBMm, revision }) => ({
          id: `${revision.part.number} ${revision.label}, weld ${number}`,
          process,
          position,
          thicknessesMm: [thicknessAMm, thicknessBMm],
        })),
      });
      return {
        processes: picture.map(({ process, positions, cells, notPlaced }) => ({
          process,
          positions: [...positions],
          notPlaced: [...new Set(notPlaced)],
          cells: cells.map((cell) => ({
            position: cell.position,
            fromMm: cell.fromMm,
            toMm: cell.toMm,
            procedures: [...new Set(cell.procedures)],
            people: [...new Set(cell.people)],
            welds: cell.welds.length,
            withoutProcedure: [...cell.withoutProcedure],
            withoutPerson: [...cell.withoutPerson],
          })),
        })),
      };
    },
  };
}

/** At a booth a procedure for machines alone is no answer; at a robot the mechanisation is one of the variables. */
function found(
  weld: Weld,
  step: StepRow | undefined,
  approved: readonly ApprovedWps[],
): WeldProcedures {
  const atRobot = step?.cellKind === 'robot';
  const asked = atRobot
    ? approved
    : approved.filter(({ ranges }) => ranges.mechanisations.some((each) => byHand.has(each)));
  const [answer] = findProcedures({
    welds: [
      {
        id: weld.id,
        ...weldFacts(weld),
        ...(atRobot ? { mechanisation: 'fullyMechanised' } : {}),
      },
    ],
    procedures: asked,
  });
  const byId = new Map(asked.map((wps) => [wps.id, wps]));
  const refs = (ids: readonly string[] = []) =>
    ids.flatMap((id) => {
      const wps = byId.get(id);
      return wps === undefined ? [] : [{ wpsId: id, label: labelOf(wps) }];
    });
  return {
    weldNumber: weld.number,
    stepNumber: weld.stepNumber,
    weld: weldWords(weld),
    named: step?.wpsNumber ?? null,
    covering: refs(answer?.covering),
    cannotSay: refs(answer?.cannotSay),
    nearestMisses: (answer?.nearestMisses ?? []).flatMap(({ procedureId, line }) =>
      refs([procedureId]).map((ref) => ({
        ...ref,
        variable: fitVariableWord(line.variable),
        words: fitWords(line),
        distance: line.margin === null ? null : Math.abs(line.margin),
        unit: line.margin === null ? null : line.unit,
      })),
    ),
  };
}

function labelOf({ number, revision }: Pick<ApprovedWps, 'number' | 'revision'>): string {
  return `${number} r${revision}`;
}

function weldWords(weld: Weld): string {
  const size =
    weld.throatMm !== null ? ` a${weld.throatMm}` : weld.legMm !== null ? ` z${weld.legMm}` : '';
  const parts = [...new Set([weld.thicknessAMm, weld.thicknessBMm])].join(' and ');
  const groups = [...new Set([weld.materialGroupA, weld.materialGroupB])].join(' and ');
  return `${weld.jointType}${size}, ${parts} mm, group ${groups}, ${weld.position}, ${weld.process}`;
}

function procedureHolder(wps: ApprovedWps): Holder {
  const { process, positions, thicknessMm } = wps.ranges;
  return { id: labelOf(wps), kind: 'procedure', processes: [process], positions, thicknessMm };
}

/** A lapsed or withdrawn certificate holds nothing today. */
function personHolder(certificate: Certificate): Holder[] {
  const { personCode, process, positions, thicknessMm, standing } = certificate;
  if (standing === 'lapsed' || standing === 'revoked') return [];
  return [{ id: personCode, kind: 'person', processes: [process], positions, thicknessMm }];
}
