import { z } from 'zod';
import { access } from './access.js';
import { defineRoute } from './route.js';
import { Day, Id, Instant, quantity, text, Version } from './values.js';

export const itemKinds = ['wire', 'gas', 'electrode', 'tip'] as const;
const Amount = quantity(0, 1_000_000);
const ItemInput = z.object({
  kind: z.enum(itemKinds),
  designation: text(60),
  name: text(80),
  wireDiameterMm: quantity(0.1, 10).nullable().default(null),
  unit: z.enum(['kg', 'l', 'pcs']),
});
export const Item = ItemInput.extend({
  id: Id,
  version: Version,
  active: z.boolean(),
  stock: z.number(),
});
export const LotLoad = z.object({
  id: Id,
  lotId: Id,
  lotNumber: z.string(),
  itemId: Id,
  itemName: z.string(),
  designation: z.string(),
  kind: z.enum(itemKinds),
  unit: z.string(),
  cellId: Id,
  cellCode: z.string(),
  certificate: z.string().nullable(),
  loadedAt: Instant,
  unloadedAt: Instant.nullable(),
  loadedAmount: z.number(),
  leftAmount: z.number(),
  loadedBy: z.string(),
});
export const Lot = z.object({
  id: Id,
  version: Version,
  itemId: Id,
  itemName: z.string(),
  kind: z.enum(itemKinds),
  unit: z.string(),
  number: z.string(),
  receivedOn: Day,
  certificate: z.string().nullable(),
  receivedAmount: z.number(),
  leftAmount: z.number(),
});

/** A lot that was loaded while a step was welded, and the parts that were counted with it. */
export const LotUse = z.object({
  lotId: Id,
  lotNumber: z.string(),
  kind: z.enum(itemKinds),
  itemName: z.string(),
  designation: z.string(),
  certificate: z.string().nullable(),
  jobId: Id,
  jobNumber: z.number().int(),
  partNumber: z.string(),
  revision: z.string(),
  customerName: z.string(),
  stepNumber: z.number().int(),
  cellCode: z.string(),
  quantity: z.number().int(),
  /** First and last part, counted good or scrap; null where none was counted while it was loaded. */
  fromPart: z.number().int().nullable(),
  toPart: z.number().int().nullable(),
  from: Instant,
  /** Null while it is still loaded. */
  to: Instant.nullable(),
});
export type LotUse = z.infer<typeof LotUse>;

/** What hangs at a cell now and how far its wire reaches. */
export const Feeder = z.object({
  loads: z.array(LotLoad),
  /** Null where nothing is known of the wire on the feeder or of the work that waits. */
  wire: z
    .object({
      leftKg: z.number(),
      neededKg: z.number(),
      goodFor: z.number().int(),
      changeAt: z
        .object({ jobNumber: z.number().int(), part: z.number().int(), fromNow: z.number().int() })
        .nullable(),
    })
    .nullable(),
  words: z.array(z.string()),
});
export type Feeder = z.infer<typeof Feeder>;

const area = 'consumables';
export const consumables = {
  items: defineRoute({
    id: 'listItems',
    area,
    method: 'GET',
    path: '/api/items',
    summary: 'Wire, gas and other consumables by standard designation',
    access: access.signedIn,
    reply: z.object({ items: z.array(Item) }),
    refusals: [],
  }),
  addItem: defineRoute({
    id: 'addItem',
    area,
    method: 'POST',
    path: '/api/items',
    summary: 'Add a consumable',
    access: access.planning,
    body: ItemInput,
    reply: Item,
    refusals: ['DUPLICATE'],
  }),
  lots: defineRoute({
    id: 'listLots',
    area,
    method: 'GET',
    path: '/api/lots',
    summary: 'Lots in store',
    access: access.signedIn,
    reply: z.object({ lots: z.array(Lot) }),
    refusals: [],
  }),
  addLot: defineRoute({
    id: 'addLot',
    area,
    method: 'POST',
    path: '/api/lots',
    summary: 'Receive a lot',
    access: access.planning,
    body: z.object({
      itemId: Id,
      number: text(60),
      receivedOn: Day,
      certificate: text(60).nullable().default(null),
      receivedAmount: Amount,
    }),
    reply: Lot,
    refusals: ['NOT_FOUND', 'DUPLICATE'],
  }),
  editLot: defineRoute({
    id: 'editLot',
    area,
    method: 'PATCH',
    path: '/api/lots/:lotId',
    summary: 'Enter or correct the certificate of a lot that was received before',
    access: access.planning,
    params: z.object({ lotId: Id }),
    body: z.object({ certificate: text(60).nullable(), expectedVersion: Version }),
    reply: Lot,
    refusals: ['NOT_FOUND', 'STALE'],
  }),
  loads: defineRoute({
    id: 'listLoads',
    area,
    method: 'GET',
    path: '/api/loads',
    summary: 'What is loaded at the cells now',
    access: access.tabletOrPerson,
    reply: z.object({ loads: z.array(LotLoad) }),
    refusals: [],
  }),
  load: defineRoute({
    id: 'loadLot',
    area,
    method: 'POST',
    path: '/api/cells/:cellId/loads',
    summary: 'Load a lot at a cell; the one loaded before is unloaded',
    access: access.signedIn,
    params: z.object({ cellId: Id }),
    body: z.object({ lotId: Id, amount: Amount }),
    reply: LotLoad,
    refusals: ['NOT_FOUND', 'NOT_NOW', 'DOES_NOT_FIT'],
  }),
  unload: defineRoute({
    id: 'unloadLot',
    area,
    method: 'POST',
    path: '/api/loads/:loadId/unload',
    summary: 'Take a lot off; what is left of it goes back to its lot',
    access: access.signedIn,
    params: z.object({ loadId: Id }),
    /** As weighed; null takes what was reckoned. */
    body: z.object({ leftAmount: Amount.nullable().default(null) }),
    reply: LotLoad,
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
  feeder: defineRoute({
    id: 'feeder',
    area,
    method: 'GET',
    path: '/api/cells/:cellId/feeder',
    summary: 'What is loaded at a cell and at which part the spool must be changed',
    access: access.tabletOrPerson,
    params: z.object({ cellId: Id }),
    reply: Feeder,
    refusals: ['NOT_FOUND'],
  }),
  lotsOfJob: defineRoute({
    id: 'lotsOfJob',
    area,
    method: 'GET',
    path: '/api/jobs/:jobId/lots',
    summary: 'The lots that a job was welded with, part by part',
    access: access.tabletOrPerson,
    params: z.object({ jobId: Id }),
    reply: z.object({ lots: z.array(LotUse) }),
    refusals: ['NOT_FOUND'],
  }),
  jobsOfLot: defineRoute({
    id: 'jobsOfLot',
    area,
    method: 'GET',
    path: '/api/lots/:lotId/jobs',
    summary: 'The jobs that were welded while a lot was loaded, part by part',
    access: access.signedIn,
    params: z.object({ lotId: Id }),
    reply: z.object({ jobs: z.array(LotUse) }),
    refusals: ['NOT_FOUND'],
  }),
};
