import type { BodyOf, parts, QueryOf } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import { changedFields } from '../events/changed-fields.js';
import type { Foundation } from '../foundation.js';
import { notFound, refuseField, stale } from '../refusal.js';
import { customersReader, customersWriter, type CustomerView } from './customers-store.js';
import { folded, matches, widePattern } from './search-words.js';

export function customersService({ database, uow, newId }: Foundation) {
  return {
    async customers({
      search = '',
      limit,
      offset,
    }: QueryOf<typeof parts.customers>): Promise<{ customers: CustomerView[]; total: number }> {
      const store = customersReader(database.reader);
      const names = await store.names(widePattern(search));
      const found = names.filter(({ name }) => search === '' || matches(name, search) !== null);
      const page = found.slice(offset, offset + limit).map(({ id }) => id);
      return { customers: await store.customers(page), total: found.length };
    },

    async addCustomer(
      actor: Actor,
      { name }: BodyOf<typeof parts.addCustomer>,
    ): Promise<CustomerView> {
      return uow.write(actor, async (unit) => {
        const store = customersWriter(unit.tx);
        await refuseNameTaken(store, name);
        const id = newId();
        await store.addCustomer(id, name, unit.now);
        unit.append({
          type: 'customer.added',
          subjectType: 'customer',
          subjectId: id,
          version: 1,
          after: { name },
        });
        return foundCustomer(store, id);
      });
    },

    async editCustomer(
      actor: Actor,
      customerId: string,
      { expectedVersion, ...changes }: BodyOf<typeof parts.editCustomer>,
    ): Promise<CustomerView> {
      return uow.write(actor, async (unit) => {
        const store = customersWriter(unit.tx);
        const before = await foundCustomer(store, customerId);
        if (before.version !== expectedVersion) throw stale('customer', before, expectedVersion);
        if (changes.name !== undefined) await refuseNameTaken(store, changes.name, customerId);
        await store.changeCustomer(customerId, changes);
        unit.append({
          type: 'customer.changed',
          subjectType: 'customer',
          subjectId: customerId,
          version: before.version + 1,
          ...changedFields<CustomerView>(before, changes as Partial<CustomerView>),
        });
        return foundCustomer(store, customerId);
      });
    },
  };
}

type Store = ReturnType<typeof customersReader>;

async function foundCustomer(store: Store, id: string): Promise<CustomerView> {
  const customer = await store.customer(id);
  if (customer === null) throw notFound('customer', id);
  return customer;
}

async function refuseNameTaken(store: Store, name: string, ownId?: string): Promise<void> {
  const taken = (await store.names(widePattern(name))).find(
    (other) => other.id !== ownId && folded(other.name) === folded(name),
  );
  if (taken === undefined) return;
  throw refuseField(
    'DUPLICATE',
    `The customer ${taken.name} is on file already. Use it, or choose another name.`,
    'body.name',
    name,
    'a name that no other customer has',
  );
}
