import { allRoutes, type Route } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { agentOf, call, everyone, type Caller } from '../support/guarded.js';
import { registeredRoutes } from '../support/routes.js';

/** The doors that are no JSON operation; the live stream, which does not end, is asked elsewhere. */
const pages = ['/api/docs', '/api/openapi.json', '/api/week.csv'];
const plainDoors = [...pages, '/api/stream'].map((path) => `GET ${path}`);

const head = `# Who may do what

Made from the answers of the running service to every operation, for a stranger, a registered tablet with nobody
signed in, and one person of each role; the coordinator here is a QA person with the coordinator's authority. After
a change that is meant, \`npx vitest run --project arch -u\` writes this page anew.
`;

/** The rule below a head has at least three dashes. */
const narrowest = 3;

function tableOf(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(narrowest, ...rows.map((row) => row[column]?.length ?? 0)),
  );
  const lines = rows.map(
    (row) => `| ${row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join(' | ')} |`,
  );
  const rule = `| ${widths.map((width) => '-'.repeat(width)).join(' | ')} |`;
  return [lines[0], rule, ...lines.slice(1)].join('\n');
}

describe('access', () => {
  let shop: TestShop;
  beforeAll(async () => {
    shop = await startTestShop();
  });
  afterAll(async () => shop.close());

  it('is ruled by the contract at every door below /api, and every rule has its door', () => {
    const doors = registeredRoutes(shop.app)
      .filter((door) => door.includes(' /api/'))
      .filter((door) => !plainDoors.includes(door));
    const ruled = allRoutes.map((route) => `${route.method} ${route.path}`);
    expect(doors.sort()).toEqual(ruled.sort());
  });

  async function letsIn(
    route: Pick<Route, 'method' | 'path' | 'body'>,
    caller: Caller,
  ): Promise<boolean> {
    const reply = await call(await agentOf(shop, caller), route, {
      body: route.body === undefined ? undefined : {},
    });
    const { code } = reply.body as { code?: string };
    return code !== 'NOT_SIGNED_IN' && code !== 'NOT_ALLOWED';
  }

  it('is granted by the running service as the page says', async () => {
    // Signing out comes last: whoever does it is out.
    const order = [...allRoutes].sort(
      (a, b) => Number(a.id === 'signOut') - Number(b.id === 'signOut'),
    );
    const pageRoutes = pages.map((path) => ({ method: 'GET', path, area: 'pages' }) as const);
    const rows = new Map<string, string[]>();
    for (const route of [...pageRoutes, ...order]) {
      const door = `\`${route.method} ${route.path}\``;
      const row = [door];
      for (const caller of everyone) row.push((await letsIn(route, caller)) ? 'yes' : '–');
      rows.set(door, row);
    }
    const all = [...allRoutes, ...pageRoutes];
    const sections = [...new Set(all.map((route) => route.area))].map((area) => {
      const ofArea = all
        .filter((route) => route.area === area)
        .map((route) => rows.get(`\`${route.method} ${route.path}\``) ?? []);
      return `## ${area}\n\n${tableOf([['operation', ...everyone], ...ofArea])}\n`;
    });
    await expect([head, ...sections].join('\n')).toMatchFileSnapshot('../../docs/access.md');
  });
});
