import { parts, type ReplyOf } from '@tackboard/contract';
import { call } from '../api/call.js';
import { Resource } from '../live/resource.svelte.js';
import { session } from '../session/session.svelte.js';

const most = 500;

/** The customers for a choice; none for those who do not plan, because the server would refuse the list. */
export function customersResource(): Resource<ReplyOf<typeof parts.customers>> {
  return new Resource(
    async () =>
      session.may(parts.customers)
        ? call(parts.customers, { query: { limit: most } })
        : { customers: [], total: 0 },
    ['customer'],
  );
}
