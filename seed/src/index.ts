import type { Context } from '@tackboard/api';
import { demoPassword } from './file-base.js';
import { demoPeople } from './shop/people.js';

export { loadDemoShop } from './load.js';
export { demoPassword };

/** What to type to look round, one line each; nothing where the shop on file is not the demo shop. */
export async function demoSignIns(context: Pick<Context, 'services'>): Promise<readonly string[]> {
  const { people } = await context.services.people.list();
  const onFile = new Set(people.map(({ code, name }) => `${code} ${name}`));
  if (!demoPeople.every(({ code, name }) => onFile.has(`${code} ${name}`))) return [];
  return [
    `Demo sign-ins, password "${demoPassword}":`,
    '  S01  office   orders, parts, run queues',
    '  Q02  QA       procedures, records, certificates',
    "  C01  QA with the coordinator's authority: approvals, overrides",
    '  M01  manager  week, people, cells; registers tablets and issues PINs for the welders',
  ];
}
