import {
  isShortCircuit,
  processLetters,
  transferContradicts,
} from '../../designations/processes.js';
import type { ProcedureTest } from '../records.js';
import { rowsFor, type Given, type RangeRule } from '../rule.js';

const row = rowsFor<ProcedureTest>();

type Process = 'SMAW' | 'SAW' | 'GMAW' | 'FCAW' | 'GTAW';

/** Largest change in per cent of the recorded value; null where the table sets no limit. */
type Percents = Readonly<Record<Process, number | null>>;

const voltagePct: Percents = { SMAW: null, SAW: 7, GMAW: 7, FCAW: 7, GTAW: null };
const wireSpeedPct: Percents = { SMAW: null, SAW: 10, GMAW: 10, FCAW: 10, GTAW: null };
const travelPct: Percents = { SMAW: null, SAW: 15, GMAW: 25, FCAW: 25, GTAW: 50 };
/** For covered electrodes the maker's recommendation rules, which is not on the record. */
const currentPct: Percents = { SMAW: null, SAW: 10, GMAW: 10, FCAW: 10, GTAW: 25 };
const preheatDropC: Readonly<Record<Process, number>> = {
  SMAW: 15,
  SAW: 15,
  GMAW: 15,
  FCAW: 15,
  GTAW: 55,
};

function processOf({ process }: ProcedureTest): Process | null {
  const letters = processLetters(process);
  return letters !== null && letters in currentPct ? (letters as Process) : null;
}

const otherProcess = { cannotSay: 'the table has no column for this process' } as const;

function within(tested: number, pct: number): Given {
  return { band: { min: tested * (1 - pct / 100), max: tested * (1 + pct / 100) } };
}

function percentGiven(test: ProcedureTest, tested: number, percents: Percents): Given {
  const process = processOf(test);
  if (process === null) return otherProcess;
  const pct = percents[process];
  return pct === null ? { any: true } : within(tested, pct);
}

function wireDiameter(test: ProcedureTest & { wireDiameterMm: number }): Given {
  const { wireDiameterMm: tested } = test;
  const byProcess: Readonly<Record<Process, Given>> = {
    SMAW: { band: { min: null, max: tested + 0.8 } },
    SAW: { band: { min: null, max: tested } },
    GMAW: { band: { min: tested, max: tested } },
    FCAW: { band: { min: null, max: tested } },
    GTAW: { band: { min: Math.max(0, tested - 1.6), max: tested + 1.6 } },
  };
  const process = processOf(test);
  return process === null ? otherProcess : byProcess[process];
}

/** Editions differ: +25/-10 % in the oldest, +50/-20 % later. Between the two nothing is said. */
function gasFlow({ gasFlowLMin: tested }: { gasFlowLMin: number }): Given {
  return {
    band: { min: 0.9 * tested, max: 1.25 * tested },
    unsure: { min: 0.8 * tested, max: 1.5 * tested },
  };
}

const usesGas = (test: ProcedureTest) => ['GMAW', 'FCAW', 'GTAW'].includes(processOf(test) ?? '');

function consumableRows(clause: string): RangeRule<ProcedureTest>[] {
  const seen = { clause, confidence: 'high', source: 'awsEssential' } as const;
  const memory = { clause, confidence: 'medium', source: 'awsMemory' } as const;
  return [
    row({
      ...seen,
      variable: 'wireDiameter',
      unit: 'mm',
      needs: ['wireDiameterMm', 'process'],
      give: wireDiameter,
    }),
    row({
      ...seen,
      variable: 'filler',
      needs: ['filler'],
      give: ({ filler }) => ({ values: [filler] }),
    }),
    row({
      ...seen,
      variable: 'transfer',
      applies: (test) => processOf(test) === 'GMAW',
      needs: ['process', 'transfer'],
      tested: ({ transfer }) => [transfer],
      give: (test) =>
        isShortCircuit(test) && test.transfer !== 'D'
          ? transferContradicts
          : { values: [test.transfer] },
    }),
    row({
      ...seen,
      variable: 'currentType',
      needs: ['currentType'],
      give: ({ currentType }) => ({ values: [currentType] }),
    }),
    row({
      ...memory,
      variable: 'gas',
      applies: usesGas,
      needs: ['gas'],
      give: ({ gas }) => ({ values: [gas] }),
    }),
    row({
      ...memory,
      variable: 'gasFlow',
      unit: 'l/min',
      applies: usesGas,
      needs: ['gasFlowLMin'],
      give: gasFlow,
    }),
  ];
}

/** What may change by how much before a new test is due, per process. */
export function awsArc({ essential: clause }: { essential: string }): RangeRule<ProcedureTest>[] {
  const seen = { clause, confidence: 'high', source: 'awsEssential' } as const;
  const memory = { clause, confidence: 'medium', source: 'awsMemory' } as const;
  return [
    row({
      ...seen,
      variable: 'current',
      unit: 'A',
      needs: ['currentA', 'process'],
      give: (test) =>
        processOf(test) === 'SMAW'
          ? { cannotSay: "the electrode maker's recommended range decides" }
          : percentGiven(test, test.currentA, currentPct),
    }),
    row({
      ...seen,
      variable: 'voltage',
      unit: 'V',
      needs: ['voltageV', 'process'],
      give: (test) => percentGiven(test, test.voltageV, voltagePct),
    }),
    row({
      ...memory,
      variable: 'wireSpeed',
      unit: 'm/min',
      needs: ['wireSpeedMMin', 'process'],
      give: (test) => percentGiven(test, test.wireSpeedMMin, wireSpeedPct),
    }),
    row({
      ...memory,
      variable: 'travel',
      unit: 'mm/min',
      needs: ['travelMmMin', 'process'],
      give: (test) => percentGiven(test, test.travelMmMin, travelPct),
    }),
    row({
      ...memory,
      variable: 'preheat',
      unit: 'degC',
      needs: ['preheatC', 'process'],
      give: (test) => {
        const process = processOf(test);
        if (process === null) return otherProcess;
        return { band: { min: test.preheatC - preheatDropC[process], max: null } };
      },
    }),
    ...consumableRows(clause),
  ];
}
