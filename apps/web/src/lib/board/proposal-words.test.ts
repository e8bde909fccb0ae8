import type { OrderMove, OrderProposal, PlannedChangeOver } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import {
  basisWords,
  changedWords,
  costWords,
  effectWords,
  moveKey,
  moveWords,
  stateWords,
} from './proposal-words.js';

type StepMove = OrderMove['steps'][number];

const named = { jobStepId: 'a', jobNumber: 731, stepName: 'Weld', partNumber: 'X-210' };
const other = { ...named, jobStepId: 'b', jobNumber: 728 };
const stepMove = (changes: Partial<StepMove> = {}): StepMove => ({
  ...{ ...named, customerName: 'Alder', fromCellCode: 'R1', toCellCode: 'R1', before: other },
  ...changes,
});
const move = (changes: Partial<OrderMove> = {}): OrderMove => ({
  ...{ steps: [stepMove()], reasons: [], cost: 0, changeOverMin: 0 },
  ...changes,
});
const proposal = (changes: Partial<OrderProposal> = {}): OrderProposal => ({
  ...{ id: 'p', state: 'searching', askedAt: '2026-10-05T05:00:00Z', round: 1, proven: false },
  ...{ todayCost: 150, proposedCost: 30, moves: [move()], notes: [], trouble: null },
  changeOvers: [],
  ...changes,
});

describe('moves in words', () => {
  it.each<[Partial<StepMove>, string]>([
    [{}, 'Job 731 (X-210) before job 728 at R1'],
    [{ before: null }, 'Job 731 (X-210) to the end at R1'],
    [{ toCellCode: 'R2' }, 'Job 731 (X-210) from R1 to R2, before job 728'],
    [{ toCellCode: 'R2', before: null }, 'Job 731 (X-210) from R1 to R2, at the end'],
  ])('%o: %s', (changes, words) => {
    expect(moveWords(move({ steps: [stepMove(changes)] }))).toBe(words);
  });

  it('name all steps that go together', () => {
    const steps = [stepMove(), stepMove({ jobStepId: 'c', jobNumber: 740, before: null })];
    expect(moveWords(move({ steps }))).toBe(
      'Job 731 (X-210) before job 728 at R1. With it: Job 740 (X-210) to the end at R1',
    );
    expect(moveKey(move({ steps }))).not.toBe(moveKey(move()));
  });

  it('say what each does to change-over and customers', () => {
    const reason = { kind: 'lateness', customer: 'Alder', cost: -95, lateMin: -95 } as const;
    expect(effectWords(move({ changeOverMin: -25, reasons: [reason] }))).toBe(
      'saves 25 min change-over; Alder 1 h 35 min less late',
    );
    expect(effectWords(move({ changeOverMin: 10, reasons: [{ ...reason, lateMin: 5 }] }))).toBe(
      'adds 10 min change-over; Alder 5 min later',
    );
    expect(effectWords(move())).toBe('no effect by itself');
    const start = { kind: 'announcedStart', customer: 'Alder', cost: 20, lateMin: 0 } as const;
    expect(effectWords(move({ reasons: [start] }))).toBe('Alder: an announced start is missed');
    expect(effectWords(move({ reasons: [{ ...start, cost: -20 }] }))).toBe(
      'Alder: an announced start is kept',
    );
  });
});

describe('a proposal in words', () => {
  it('says what the order of today costs and what the proposed one does', () => {
    expect(costWords(proposal())).toBe(
      'As the queues stand: 2 h 30 min late in all. Proposed: 30 min late in all, 2 h less.',
    );
    expect(costWords(proposal({ proposedCost: 0 }))).toContain('Proposed: nothing late, 2 h 30');
    expect(costWords(proposal({ proposedCost: 150 }))).toBe(
      'As the queues stand: 2 h 30 min late in all. Nothing better so far.',
    );
    expect(costWords(proposal({ todayCost: null, proposedCost: null }))).toBeNull();
  });

  it('says how far the search is, and never that the order is best when it is not proven', () => {
    const words = (changes: Partial<OrderProposal>) => stateWords(proposal(changes));
    const all = [
      words({ round: 0, moves: [] }),
      words({}),
      words({ state: 'stopped' }),
      words({ state: 'done' }),
      words({ state: 'done', moves: [] }),
      words({ state: 'done', proven: true }),
      words({ state: 'done', moves: [], proven: true }),
    ];
    expect(new Set(all).size).toBe(all.length);
    expect(all.filter((text) => text.includes('No other order is better'))).toEqual(all.slice(-2));
    const trouble = 'The search broke off.';
    expect(words({ state: 'failed', trouble })).toBe(trouble);
  });
});

describe('change-overs in words', () => {
  const table: PlannedChangeOver = {
    ...{ cellCode: 'R1', changed: ['wire', 'fixture'], minutes: 25, basis: 'table', times: 1 },
    ...{ runs: null, lowMin: null, highMin: null },
  };
  it('name what changes and what the minutes rest on', () => {
    expect(changedWords(table)).toBe('Wire, Fixture');
    expect(basisWords(table)).toBe('the table, not measured three times yet');
    const measured = { ...table, basis: 'measured' as const, runs: 5, lowMin: 18.4, highMin: 31 };
    expect(basisWords(measured)).toBe('measured here, 5 runs: mostly 18 min to 31 min');
    expect(basisWords({ ...table, basis: 'wholeSetUp' })).toContain('as planned for the part');
  });
});
