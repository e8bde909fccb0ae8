import type { PolicyTable } from '@tackboard/calc';
import type { ReadyLine } from '@tackboard/contract';
import { clearanceOf } from './clearance.js';
import { fitOf, type StepFit } from './fit.js';
import { fitWords, numberWords } from './fit-words.js';
import { figuresOf, type Figures } from './figures.js';
import { consumableLines } from './consumable-lines.js';
import type { CertificateFacts, PersonFacts, StepFacts } from './facts.js';
import { personLine } from './person-rule.js';

type Line = Pick<ReadyLine, 'rule' | 'strength' | 'text'>;

/** Who would pull; left out while nobody is signed in. */
export interface Asking {
  readonly person: PersonFacts;
  readonly certificates: readonly CertificateFacts[];
}

export interface Readiness {
  readonly fit: StepFit;
  readonly figures: Figures;
  readonly lines: readonly ReadyLine[];
  /** Neither refused nor gated without an override. */
  readonly ready: boolean;
}

/** May this step be started now? Every rule in words, with what it does and who let it pass. */
export function readinessOf(
  facts: StepFacts,
  at: { now: Date; today: string; asking: Asking | null; policy: PolicyTable },
): Readiness {
  const fit = fitOf({ ...facts, policy: at.policy });
  const figures = figuresOf(facts);
  const lines = [
    ...revisionLines(facts),
    ...holdLines(facts, at.now),
    ...kitLines(facts),
    ...procedureLines(facts),
    ...fitLines(facts, fit),
    ...equipmentLines(facts),
    ...consumableLines(facts),
    ...feederLines(facts, figures),
    ...holdPointLines(facts),
    ...runLines(facts),
    ...personLines(facts, at),
  ].map((line) => {
    const judged = { ...line, overriddenBy: overriddenBy(line, facts, at) };
    return { ...judged, ...clearanceOf(judged, fit.answer) };
  });
  return { fit, figures, lines, ready: !lines.some(stops) };
}

export function stops({
  strength,
  overriddenBy,
}: Pick<ReadyLine, 'strength' | 'overriddenBy'>): boolean {
  return strength === 'refuse' || (strength === 'gate' && overriddenBy === null);
}

/** An override passes a gate, never a refusal, and only for the person it names. */
function overriddenBy(
  { rule, strength }: Line,
  { overrides, record }: StepFacts,
  { now, asking }: { now: Date; asking: Asking | null },
): string | null {
  if (strength !== 'gate') return null;
  const passing = overrides.find(
    (each) =>
      each.rule === rule &&
      (each.jobStepId === null || each.jobStepId === record.id) &&
      each.expiresAt > now &&
      (each.forPersonId === null || asking === null || each.forPersonId === asking.person.id),
  );
  return passing?.signedBy ?? null;
}

function revisionLines({ record, jobReleased, holdReason, revisionState }: StepFacts): Line[] {
  const rule = 'revision';
  if (!jobReleased) {
    const why = holdReason ?? 'the ordered and the released revision differ';
    return [{ rule, strength: 'refuse', text: `The job is not released: ${why}.` }];
  }
  if (revisionState === 'released') {
    return [{ rule, strength: 'pass', text: `Revision ${record.revision} is released.` }];
  }
  const state = revisionState === 'draft' ? 'still a draft' : 'superseded';
  const text = `Revision ${record.revision} of ${record.partNumber} is ${state}.`;
  return [{ rule, strength: 'refuse', text }];
}

function kitLines({ record }: StepFacts): Line[] {
  return record.kitComplete
    ? [{ rule: 'kit', strength: 'pass', text: 'The kit is complete.' }]
    : [{ rule: 'kit', strength: 'refuse', text: 'The kit is not complete: parts are missing.' }];
}

function procedureLines({ record, wps }: StepFacts): Line[] {
  const rule = 'wps';
  const { wpsNumber, coded } = record;
  if (wpsNumber === null) {
    return coded
      ? [{ rule, strength: 'refuse', text: 'No procedure is named, and the part is coded.' }]
      : [{ rule, strength: 'tell', text: 'No procedure is named for this step.' }];
  }
  if (wps === null) {
    const text = `Procedure ${wpsNumber} has no approved revision.`;
    return [{ rule, strength: 'refuse', text }];
  }
  const label = `${wps.number} r${wps.revision}`;
  if (wps.state === 'approved') {
    return [{ rule, strength: 'pass', text: `${label} is approved.` }];
  }
  const text = `${label}, under which this was pulled, is ${wps.state}; the coordinator decides.`;
  return [{ rule, strength: 'tell', text }];
}

export function fitLines({ wps }: Pick<StepFacts, 'wps'>, { welds }: StepFit): Line[] {
  const byRule = new Map<string, { strength: Line['strength']; words: Map<string, number[]> }>();
  const order: Line['strength'][] = ['pass', 'tell', 'gate', 'refuse'];
  for (const { weldNumber, lines } of welds) {
    for (const { judged, strength } of lines) {
      if (strength === 'pass') continue;
      const rule = byRule.get(judged.variable) ?? { strength, words: new Map<string, number[]>() };
      if (order.indexOf(strength) > order.indexOf(rule.strength)) rule.strength = strength;
      const words = fitWords(judged);
      rule.words.set(words, [...(rule.words.get(words) ?? []), weldNumber]);
      byRule.set(judged.variable, rule);
    }
  }
  if (byRule.size === 0) {
    if (wps === null || welds.length === 0) return [];
    const text = `All welds fit ${wps.number} r${wps.revision}.`;
    return [{ rule: 'fit', strength: 'pass', text }];
  }
  return [...byRule].map(([rule, { strength, words }]) => ({
    rule,
    strength,
    text: `${[...words].map(([text, numbers]) => `${weldWords(numbers)}: ${text}`).join('; ')}.`,
  }));
}

function weldWords(numbers: readonly number[]): string {
  return `${numbers.length === 1 ? 'weld' : 'welds'} ${numbers.join(', ')}`;
}

function equipmentLines({ setUp, cell, programOnFile }: StepFacts): Line[] {
  if (setUp === null) {
    const text = `No set-up is kept for this step at ${cell.code}; work from the procedure.`;
    return [{ rule: 'setUp', strength: 'tell', text }];
  }
  const lines: Line[] = [];
  if (setUp.fixtureCode !== null) {
    const place = `${setUp.fixtureCode} at ${setUp.fixturePlace}`;
    const good = setUp.fixtureCondition === 'good';
    const state = setUp.fixtureCondition === 'missing' ? 'missing' : 'in repair';
    const text = good ? `Fixture ${place}, good.` : `Fixture ${place} is ${state}.`;
    lines.push({ rule: 'fixture', strength: good ? 'pass' : 'gate', text });
  }
  return cell.kind === 'robot' ? [...lines, programLine(setUp, programOnFile)] : lines;
}

function programLine(setUp: NonNullable<StepFacts['setUp']>, onFile: string | null): Line {
  const rule = 'program';
  const { programName, programRevision } = setUp;
  if (programName === null) {
    return { rule, strength: 'gate', text: 'The set-up names no robot program.' };
  }
  const name = `Program ${programName} revision ${programRevision ?? onFile}`;
  if (programRevision === null || programRevision === onFile) {
    return { rule, strength: 'pass', text: `${name}.` };
  }
  const text = `${name} made the set-up, but revision ${onFile} is on file.`;
  return { rule, strength: 'gate', text };
}

function feederLines({ record }: StepFacts, figures: Figures): Line[] {
  const { wireKgBatch, feederKg, partsFromFeeder } = figures;
  if (wireKgBatch === null || feederKg === null || partsFromFeeder === null) return [];
  const rest = record.quantity - record.goodCount;
  const amounts = `${numberWords(feederKg)} kg of wire on the feeder, ${numberWords(wireKgBatch)} kg needed`;
  return partsFromFeeder >= rest
    ? [{ rule: 'feeder', strength: 'pass', text: `${amounts} for ${rest} parts.` }]
    : [
        {
          rule: 'feeder',
          strength: 'tell',
          text: `${amounts}: enough for ${partsFromFeeder} of ${rest} parts, change the spool then.`,
        },
      ];
}

const msPerMinute = 60_000;

/** Quarantine and hold points refuse; a witness point refuses until its time is over, then it is only told. */
function holdLines({ holds, record }: StepFacts, now: Date): Line[] {
  return holds.flatMap(({ kind, reason, stepNumber, dueAt }): Line[] => {
    if (kind === 'quarantine') {
      const text = `Job ${record.jobNumber} is in quarantine: ${reason}. QA takes it out.`;
      return [{ rule: 'quarantine', strength: 'refuse', text }];
    }
    if (stepNumber >= record.stepNumber) return [];
    if (kind === 'hold') {
      const text = `The hold point after step ${stepNumber} waits for QA: call the inspector.`;
      return [{ rule: 'holdPoint', strength: 'refuse', text }];
    }
    const leftMin = dueAt === null ? 0 : (dueAt.getTime() - now.getTime()) / msPerMinute;
    const rule = 'witnessPoint';
    const point = `Witness point after step ${stepNumber}:`;
    return leftMin > 0
      ? [
          {
            ...{ rule, strength: 'refuse' },
            text: `${point} the inspector is called and has ${Math.ceil(leftMin)} more minutes to come.`,
          },
        ]
      : [{ rule, strength: 'tell', text: `${point} nobody came in time; the work goes on.` }];
  });
}

function holdPointLines({ step }: StepFacts): Line[] {
  if (!step.holdPoint) return [];
  const text = 'Hold point after this step: the next one waits until QA has passed it.';
  return [{ rule: 'holdPoint', strength: 'tell', text }];
}

/** What happened at the cell during the run or before it. */
function runLines({ cell, record, settingsOutside, toolPointOpen }: StepFacts): Line[] {
  const lines: Line[] = [];
  if (toolPointOpen) {
    const text = `The tool point of ${cell.code} was knocked, and no check since was good: check it before the next part.`;
    lines.push({ rule: 'toolPoint', strength: 'refuse', text });
  }
  if (settingsOutside && record.state === 'held') {
    const text = `The last change left settings outside the procedure: set them back, or let the coordinator sign.`;
    lines.push({ rule: 'settings', strength: 'gate', text });
  }
  return lines;
}

function personLines(
  { cell, record, welds, wps }: StepFacts,
  { today, asking, policy }: { today: string; asking: Asking | null; policy: PolicyTable },
): Line[] {
  if (asking === null) return [];
  const code = wps?.code ?? null;
  return [personLine({ ...asking, cell, code, coded: record.coded, welds, today, policy })];
}
