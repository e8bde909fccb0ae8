import { z } from 'zod';
import { access } from './access.js';
import { defineRoute } from './route.js';
import { Id, Instant } from './values.js';

const proposalStates = ['searching', 'done', 'stopped', 'failed'] as const;

const NamedStep = z.object({
  jobStepId: Id,
  jobNumber: z.number().int(),
  stepName: z.string(),
  partNumber: z.string(),
});

/** One step that goes to another place; `before` is the step it then stands before, null at the end of the queue. */
const StepMove = NamedStep.extend({
  customerName: z.string(),
  fromCellCode: z.string(),
  toCellCode: z.string(),
  before: NamedStep.nullable(),
});

const MoveReason = z.object({
  kind: z.enum(['lateness', 'announcedStart']),
  customer: z.string(),
  /** Below zero where the move saves: minutes late times the weight of the customer. */
  cost: z.number(),
  lateMin: z.number(),
});

/** Steps that go to other places together, since each of them alone would hold others up. */
const OrderMove = z.object({
  steps: z.array(StepMove).min(1),
  reasons: z.array(MoveReason),
  /** Sum of the reasons. */
  cost: z.number(),
  /** Change-over minutes that the move adds; below zero where it saves them. */
  changeOverMin: z.number(),
});
export type OrderMove = z.infer<typeof OrderMove>;

export const changeKinds = ['wire', 'gas', 'torch', 'fixture', 'program'] as const;

/** What a change-over takes by the proposal, and what that rests on. */
export const PlannedChangeOver = z.object({
  cellCode: z.string(),
  changed: z.array(z.enum(changeKinds)),
  /** Minutes of work at the cell. */
  minutes: z.number(),
  /** Measured at the cell, summed from the table, or the whole setting up of the step as planned for the part. */
  basis: z.enum(['measured', 'table', 'wholeSetUp']),
  /** Measured change-overs and the band of their middle four fifths; null where none are used. */
  runs: z.number().int().nullable(),
  lowMin: z.number().nullable(),
  highMin: z.number().nullable(),
  /** How often it comes in the proposed order. */
  times: z.number().int(),
});
export type PlannedChangeOver = z.infer<typeof PlannedChangeOver>;

export const OrderProposal = z.object({
  id: Id,
  state: z.enum(proposalStates),
  askedAt: Instant,
  /** Counts the better orders found so far; 0 while there is none. */
  round: z.number().int().min(0),
  /** Minutes late times the weight of the customer, over all planned steps; null while nothing is found. */
  todayCost: z.number().nullable(),
  proposedCost: z.number().nullable(),
  /** No other order can be better. */
  proven: z.boolean(),
  /** In the order in which they are made; their costs add up to the difference of the two costs. */
  moves: z.array(OrderMove),
  /** The change-overs of the proposed order, of today's while none is found. */
  changeOvers: z.array(PlannedChangeOver),
  /** What is not in the plan, and what will be late in any order. */
  notes: z.array(z.string()),
  /** Why the search broke off, where it did. */
  trouble: z.string().nullable(),
});
export type OrderProposal = z.infer<typeof OrderProposal>;

const area = 'planning';
const ProposalParams = z.object({ proposalId: Id });
export const planning = {
  propose: defineRoute({
    id: 'proposeOrder',
    area,
    method: 'POST',
    path: '/api/proposals',
    summary: 'Begin to look for a better order of all run queues; a search under way is stopped',
    access: access.office,
    reply: OrderProposal,
    refusals: ['NOT_NOW'],
  }),
  get: defineRoute({
    id: 'orderProposal',
    area,
    method: 'GET',
    path: '/api/proposals/:proposalId',
    summary: 'The best order found so far, as moves with their reasons',
    access: access.office,
    params: ProposalParams,
    reply: OrderProposal,
    refusals: ['NOT_FOUND'],
  }),
  stop: defineRoute({
    id: 'stopProposal',
    area,
    method: 'POST',
    path: '/api/proposals/:proposalId/stop',
    summary: 'Look no further; what was found stays',
    access: access.office,
    params: ProposalParams,
    reply: OrderProposal,
    refusals: ['NOT_FOUND'],
  }),
  accept: defineRoute({
    id: 'acceptMoves',
    area,
    method: 'POST',
    path: '/api/proposals/:proposalId/accept',
    summary: 'Put the steps of the chosen moves where the proposal has them: all of them or none',
    access: access.office,
    params: ProposalParams,
    body: z.object({
      /** The round whose moves were looked at. */
      round: z.number().int().min(1, 'must be a round that has found an order'),
      /** The steps of the chosen moves. */
      moves: z.array(Id).min(1, 'must name at least one step').max(5000),
    }),
    reply: z.object({ moved: z.number().int() }),
    refusals: ['NOT_FOUND', 'STALE', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
};
