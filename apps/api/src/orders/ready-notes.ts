import { batchGas, batchWire } from '@tackboard/calc';
import type { Clearer, OrderCheck, ReadyLine } from '@tackboard/contract';
import { gasPrePostS } from '../queue/figures.js';
import type { DialledSetUp } from '../queue/fit.js';
import type { CurrentAtDuty } from './current-at-duty.js';
import { dayWords } from './day-words.js';
import type { CellKind } from './planning.js';

export type Note = OrderCheck['notes'][number];

/** What is kept for a step at the cell it would go to. */
export interface KeptSetUp extends DialledSetUp {
  readonly frozenOn: string;
  readonly wireItemId: string | null;
  readonly wireName: string | null;
  readonly gasFlowLMin: number | null;
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
  /** Processes of its welds that the cell has not on file. */
  readonly lackingProcesses: readonly string[];
  readonly wpsNumber: string | null;
  readonly approvedWps: { number: string; revision: number } | null;
  readonly setUp: KeptSetUp | null;
  readonly loaded: readonly LoadedItem[];
  /** The welds against the approved procedure, by the rules of the set-up card. */
  readonly fit: readonly Pick<ReadyLine, 'text' | 'state' | 'strength' | 'clearedBy'>[];
  /** What lies in store besides what is loaded, by item. */
  readonly stock: ReadonlyMap<string, number>;
  /** How far the arc goes for one part made in this step, null where that cannot be said, and how many welds it makes. */
  readonly arcLengthMm: number | null;
  readonly weldCount: number;
  readonly gasLossFactor: number;
  readonly quantity: number;
  readonly qualifiedPeople: readonly string[];
  /** What torch and power source may carry at the duty of this step; null where a value for it is not on file. */
  readonly current: CurrentAtDuty | null;
  /** When the cell works next; null where its calendar names no hours. */
  readonly nextHours: string | null;
}

/** What one step needs and whether it is there, in words. Nothing here stops an order; the ready check does. */
export function stepNotes(step: StepFacts): Note[] {
  return [
    procedureNote(step),
    ...fitNotes(step),
    hoursNote(step),
    ...processNotes(step),
    setUpNote(step),
    ...fixtureNotes(step),
    ...programNotes(step),
    ...wireNotes(step),
    ...gasNotes(step),
    ...torchNotes(step),
    peopleNote(step),
  ].map(({ clearedBy, ...note }) => ({
    ...note,
    text: `step ${step.number}: ${note.text}`,
    clearedBy: note.state === 'ok' ? null : (clearedBy ?? clearers[note.topic]),
  }));
}

type Draft = Omit<Note, 'clearedBy'> & { readonly clearedBy?: Clearer | null };

/** Who can clear a note, by its topic: the roles of the routes by which it is done. */
const clearers: Readonly<Record<Note['topic'], Clearer>> = {
  ...{ revision: 'coordinator', procedure: 'qa', fit: 'coordinator', people: 'coordinator' },
  ...{ fixture: 'office', program: 'office', cell: 'office', hours: 'manager' },
  ...{ wire: 'office', gas: 'office', torch: 'coordinator' },
};

function fitNotes({ fit }: StepFacts): Draft[] {
  const topic = 'fit';
  return fit.map(({ text, state, strength, clearedBy }) => {
    const found = text.replace(/\.$/, '');
    if (state === 'clear') return { topic, state: 'ok', text: found };
    const stopping = strength === 'refuse' ? 'stop' : 'check';
    return { topic, state: state === 'cannotSay' ? state : stopping, text: found, clearedBy };
  });
}

function hoursNote({ cell, nextHours }: StepFacts): Draft {
  return nextHours === null
    ? { topic: 'hours', state: 'stop', text: `${cell.code} has no working hours` }
    : { topic: 'hours', state: 'ok', text: `${cell.code} works ${nextHours}` };
}

function procedureNote({ wpsNumber, approvedWps }: StepFacts): Draft {
  const topic = 'procedure';
  if (wpsNumber === null) return { topic, state: 'cannotSay', text: 'no procedure is named' };
  return approvedWps === null
    ? { topic, state: 'stop', text: `procedure ${wpsNumber} has no approved revision` }
    : { topic, state: 'ok', text: `${wpsNumber} revision ${approvedWps.revision} approved` };
}

function processNotes({ lackingProcesses, cell }: StepFacts): Draft[] {
  if (lackingProcesses.length === 0) return [];
  const text = `process ${lackingProcesses.join(', ')} is not on file at ${cell.code}`;
  return [{ topic: 'cell', state: 'check', text }];
}

function setUpNote({ setUp, cell }: StepFacts): Draft {
  return setUp === null
    ? { topic: 'cell', state: 'cannotSay', text: `no set-up is kept at ${cell.code}` }
    : {
        topic: 'cell',
        state: 'ok',
        text: `set-up of ${dayWords(setUp.frozenOn)} kept at ${cell.code}`,
      };
}

function fixtureNotes({ setUp }: StepFacts): Draft[] {
  const fixture = setUp?.fixture;
  if (!fixture) return [];
  const words: Record<string, string> = { good: 'good', repair: 'in repair', missing: 'missing' };
  const state = fixture.condition === 'good' ? 'ok' : 'check';
  const condition = words[fixture.condition] ?? fixture.condition;
  return [{ topic: 'fixture', state, text: `${fixture.code} at ${fixture.place}, ${condition}` }];
}

function programNotes({ setUp, cell }: StepFacts): Draft[] {
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

/** Wire for the batch from the kept settings; null where one of them is not known. */
function wireNeed({ setUp, arcLengthMm, quantity }: StepFacts, onFeederKg: number) {
  if (setUp === null) return null;
  const { wireDiameterMm, wireSpeedMMin, travelMmMin } = setUp;
  if (wireDiameterMm === null || wireSpeedMMin === null || travelMmMin === null) return null;
  if (arcLengthMm === null) return null;
  const arcS = (arcLengthMm / travelMmMin) * 60;
  const need = batchWire({ wireDiameterMm, wireSpeedMMin, arcS, quantity, onFeederKg });
  return need.ok ? { kg: need.value, partsPossible: need.parts.partsPossible } : null;
}

/** Another spool in store is no errand for anybody: it is changed at the cell, where the ready check asks for it. */
function wireNotes(step: StepFacts): Draft[] {
  const { setUp, cell } = step;
  const topic = 'wire';
  if (setUp === null || setUp.wireItemId === null) return [];
  const wire = setUp.wireName ?? 'wire';
  const loaded = loadedOf(step, 'wire');
  const fits = loaded?.itemId === setUp.wireItemId;
  const onFeederKg = fits ? loaded.leftAmount : 0;
  const inStoreKg = step.stock.get(setUp.wireItemId) ?? 0;
  const need = wireNeed(step, onFeederKg);
  if (fits && need === null) {
    const text = `${wire}: ${kg(onFeederKg)} on the feeder; the need cannot be said, the set-up lacks wire speed, travel or size`;
    return [{ topic, state: 'cannotSay', text }];
  }
  const needed = need === null ? `${wire} needed` : `${wire}: ${kg(need.kg)} needed`;
  const found = fits ? `${kg(onFeederKg)} on the feeder` : atCellWords(loaded, 'wire', cell.code);
  if (fits && need !== null && need.kg <= onFeederKg) {
    return [{ topic, state: 'ok', text: `${needed}, ${found}` }];
  }
  const text = `${needed}, ${found}, ${kg(inStoreKg)} in store`;
  if (need === null ? inStoreKg === 0 : onFeederKg + inStoreKg < need.kg) {
    return [{ topic, state: 'check', text: `${text}: wire has to be bought` }];
  }
  const change = fits ? `at part ${(need?.partsPossible ?? 0) + 1}` : 'before the start';
  return [{ topic, state: 'ok', text: `${text}: the spool is changed ${change}` }];
}

function atCellWords(loaded: LoadedItem | null, kind: 'wire' | 'gas', cellCode: string): string {
  return loaded === null
    ? `no ${kind} loaded at ${cellCode}`
    : `${loaded.itemName} loaded at ${cellCode}`;
}

function litres(amount: number): string {
  return `${Math.round(amount)} l`;
}

/** Litres of gas for the batch from the kept settings; null where one of them is not known. */
function gasNeedL({ setUp, arcLengthMm, weldCount, gasLossFactor, quantity }: StepFacts) {
  if (setUp === null || setUp.gasFlowLMin === null || setUp.travelMmMin === null) return null;
  if (arcLengthMm === null) return null;
  const need = batchGas({
    ...{ gasFlowLMin: setUp.gasFlowLMin, weldCount, prePostS: gasPrePostS, quantity },
    ...{ arcS: (arcLengthMm / setUp.travelMmMin) * 60, lossFactor: gasLossFactor },
  });
  return need.ok ? need.value : null;
}

/** Two decimals show why 3.21 kg do not cover 3.24 kg. */
function kg(amount: number): string {
  return `${amount.toFixed(2)} kg`;
}

function gasNotes(step: StepFacts): Draft[] {
  const { setUp, cell } = step;
  const topic = 'gas';
  if (setUp === null || setUp.gasItemId === null) return [];
  const gas = setUp.gasName ?? 'gas';
  const loaded = loadedOf(step, 'gas');
  const fits = loaded?.itemId === setUp.gasItemId;
  const atCellL = fits ? loaded.leftAmount : 0;
  const inStoreL = step.stock.get(setUp.gasItemId) ?? 0;
  const needL = gasNeedL(step);
  if (fits && (needL === null || loaded.unit !== 'l')) {
    const text = `${gas}: ${litres(atCellL)} at ${cell.code}; the need cannot be said, the set-up lacks gas flow or travel`;
    return [{ topic, state: 'cannotSay', text }];
  }
  const needed = needL === null ? `${gas} needed` : `${gas}: ${litres(needL)} needed`;
  const found = fits ? `${litres(atCellL)} at ${cell.code}` : atCellWords(loaded, 'gas', cell.code);
  if (fits && needL !== null && needL <= atCellL) {
    return [{ topic, state: 'ok', text: `${needed}, ${found}` }];
  }
  const text = `${needed}, ${found}, ${litres(inStoreL)} in store`;
  if (needL === null ? inStoreL === 0 : atCellL + inStoreL < needL) {
    return [{ topic, state: 'check', text: `${text}: gas has to be bought` }];
  }
  const change = fits ? 'during the batch' : 'before the start';
  return [{ topic, state: 'ok', text: `${text}: it is changed ${change}` }];
}

function torchNotes({ current, setUp, cell }: StepFacts): Draft[] {
  const topic = 'torch';
  const currentA = setUp?.currentA ?? null;
  if (cell.kind !== 'robot' || currentA === null) return [];
  if (current === null) {
    const text = `whether the torch of ${cell.code} holds cannot be said: its rating, travel or a time of the step is missing`;
    return [{ topic, state: 'cannotSay', text }];
  }
  const found = `the ${current.of} of ${cell.code} carries ${Math.floor(current.allowedA)} A at a duty of ${current.dutyPct.toFixed(1)} %, the set-up asks for ${currentA} A`;
  return [{ topic, state: currentA <= current.allowedA ? 'ok' : 'stop', text: found }];
}

function peopleNote({ cell, qualifiedPeople }: StepFacts): Draft {
  const certificate =
    cell.kind === 'robot'
      ? `an operator's certificate for ${cell.code}`
      : `a welder's certificate for the process`;
  const named = qualifiedPeople.slice(0, 4).join(', ');
  const more = qualifiedPeople.length > 4 ? ` and ${qualifiedPeople.length - 4} more` : '';
  const hold = `${named}${more} ${qualifiedPeople.length === 1 ? 'holds' : 'hold'}`;
  return qualifiedPeople.length === 0
    ? { topic: 'people', state: 'stop', text: `nobody holds ${certificate} that is valid today` }
    : { topic: 'people', state: 'ok', text: `${hold} ${certificate} that is valid today` };
}
