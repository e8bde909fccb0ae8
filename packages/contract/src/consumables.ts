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
    refusals: ['NOT_FOUND', 'NOT_NOW'],
  }),
};
