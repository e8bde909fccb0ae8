import { batchWire } from '@tackboard/calc';
import type { OrderCheck } from '@tackboard/contract';
import { dayWords } from './day-words.js';
import type { CellKind } from './planning.js';

export type Note = OrderCheck['notes'][number];

/** What is kept for a step at the cell it would go to. */
export interface KeptSetUp {
  readonly frozenOn: string;
  readonly wireItemId: string | null;
  readonly wireName: string | null;
  readonly wireDiameterMm: number | null;
  readonly wireSpeedMMin: number | null;
  readonly travelMmMin: number | null;
  readonly gasItemId: string | null;
  readonly gasName: string | null;
  readonly program: { name: string; revision: string; backupPlace: string } | null;
  readonly programRevision: string | null;
  readonly fixture: { code: string; place: string; condition: string } | null;
}

export interface LoadedItem {
  readonly itemId: string;
  readonly itemName: string;
  readonly kind: string;
  readonly unit: string;
  readonly leftAmount: number;
}

export interface StepFacts {
  readonly number: number;
  readonly cell: { code: string; kind: CellKind };
  readonly wpsNumber: string | null;
  readonly approvedWps: { number: string; revision: number } | null;
  readonly setUp: KeptSetUp | null;
  readonly loaded: readonly LoadedItem[];
  /** Length of all welds of one part made in this step. */
  readonly weldLengthMm: number;
  readonly quantity: number;
  readonly qualifiedPeople: number;
}

/** What one step needs and whether it is there, in words. Nothing here stops an order; the ready check does. */
export function stepNotes(step: StepFacts): Note[] {
  return [
    procedureNote(step),
    setUpNote(step),
    ...fixtureNotes(step),
    ...programNotes(step),
    ...wireNotes(step),
    ...gasNotes(step),
    peopleNote(step),
  ].map((note) => ({ ...note, text: `step ${step.number}: ${note.text}` }));
}

function procedureNote({ wpsNumber, approvedWps }: StepFacts): Note {
  const topic = 'procedure';
  if (wpsNumber === null) return { topic, state: 'check', text: 'no procedure is named' };
  return approvedWps === null
    ? { topic, state: 'stop', text: `procedure ${wpsNumber} has no approved revision` }
    : { topic, state: 'ok', text: `${wpsNumber} revision ${approvedWps.revision} approved` };
}

function setUpNote({ setUp, cell }: StepFacts): Note {
  return setUp === null
    ? { topic: 'cell', state: 'check', text: `no set-up is kept at ${cell.code}` }
    : {
        topic: 'cell',
        state: 'ok',
        text: `set-up of ${dayWords(setUp.frozenOn)} kept at ${cell.code}`,
      };
}

function fixtureNotes({ setUp }: StepFacts): Note[] {
  const fixture = setUp?.fixture;
  if (!fixture) return [];
  const words: Record<string, string> = { good: 'good', repair: 'in repair', missing: 'missing' };
  const state = fixture.condition === 'good' ? 'ok' : 'check';
  const condition = words[fixture.condition] ?? fixture.condition;
  return [{ topic: 'fixture', state, text: `${fixture.code} at ${fixture.place}, ${condition}` }];
}

function programNotes({ setUp, cell }: StepFacts): Note[] {
  if (cell.kind !== 'robot' || setUp === null) return [];
  const { program, programRevision } = setUp;
  const topic = 'program';
  if (program === null) return [{ topic, state: 'check', text: 'the set-up names no program' }];
  const name = `${program.name} revision ${program.revision}`;
  if (programRevision !== null && programRevision !== program.revision) {
    const text = `${name} on file, the set-up was made with revision ${programRevision}`;
    return [{ topic, state: 'check', text }];
  }
  return [{ topic, state: 'ok', text: `${name}, backup at ${program.backupPlace}` }];
}

function loadedOf(step: StepFacts, kind: 'wire' | 'gas'): LoadedItem | null {
  return step.loaded.find((each) => each.kind === kind) ?? null;
}

/** Kilograms of wire for the batch from the kept settings; null where one of them is not known. */
function wireNeedKg({ setUp, weldLengthMm, quantity }: StepFacts): number | null {
  if (setUp === null) return null;
  const { wireDiameterMm, wireSpeedMMin, travelMmMin } = setUp;
  if (wireDiameterMm === null || wireSpeedMMin === null || travelMmMin === null) return null;
  const arcS = (weldLengthMm / travelMmMin) * 60;
  const need = batchWire({ wireDiameterMm, wireSpeedMMin, arcS, quantity });
  return need.ok ? need.value : null;
}

function wireNotes(step: StepFacts): Note[] {
  const { setUp } = step;
  const topic = 'wire';
  if (setUp === null || setUp.wireItemId === null) return [];
  const wire = setUp.wireName ?? 'wire';
  const loaded = loadedOf(step, 'wire');
  if (loaded?.itemId !== setUp.wireItemId) {
    const found = loaded === null ? 'no wire loaded' : `${loaded.itemName} loaded`;
    return [{ topic, state: 'check', text: `${wire} needed, ${found} at ${step.cell.code}` }];
  }
  const needKg = wireNeedKg(step);
  const left = `${kg(loaded.leftAmount)} on the feeder`;
  if (needKg === null) {
    const text = `${wire}: ${left}; the need cannot be said, the set-up lacks wire speed, travel or size`;
    return [{ topic, state: 'check', text }];
  }
  const state = needKg <= loaded.leftAmount ? 'ok' : 'check';
  return [{ topic, state, text: `${wire}: ${kg(needKg)} needed, ${left}` }];
}

/** Two decimals show why 3.21 kg do not cover 3.24 kg. */
function kg(amount: number): string {
  return `${amount.toFixed(2)} kg`;
}

function gasNotes(step: StepFacts): Note[] {
  const { setUp, cell } = step;
  const topic = 'gas';
  if (setUp === null || setUp.gasItemId === null) return [];
  const gas = setUp.gasName ?? 'gas';
  const loaded = loadedOf(step, 'gas');
  if (loaded?.itemId === setUp.gasItemId) {
    return [{ topic, state: 'ok', text: `${gas} loaded at ${cell.code}` }];
  }
  const found = loaded === null ? 'no gas loaded' : `${loaded.itemName} loaded`;
  return [{ topic, state: 'check', text: `${gas} needed, ${found} at ${cell.code}` }];
}

function peopleNote({ cell, qualifiedPeople }: StepFacts): Note {
  const certificate =
    cell.kind === 'robot'
      ? `an operator's certificate for ${cell.code}`
      : `a welder's certificate for the process`;
  const hold = qualifiedPeople === 1 ? '1 person holds' : `${qualifiedPeople} people hold`;
  return qualifiedPeople === 0
    ? { topic: 'people', state: 'stop', text: `nobody holds ${certificate} that is valid today` }
    : { topic: 'people', state: 'ok', text: `${hold} ${certificate} that is valid today` };
}
