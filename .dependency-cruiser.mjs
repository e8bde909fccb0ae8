// An area that outgrows one file splits a door by name: intake-service.ts beside service.ts.
const routes = 'routes[^/]*[.]ts$';
const service = 'service[^/]*[.]ts$';
const store = 'store[^/]*[.]ts$';
const api = '^apps/api/src/[^/]+/[^/]*';
const area = '^apps/api/src/(?!http/|db/|events/|tasks/)([^/]+)/[^/]*';
const generatedClient = '^apps/api/src/db/generated';
const tests = '(\\.test\\.ts$|^tests/)';

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
  forbidden: [
    {
      name: 'calc-is-pure',
      comment:
        'A figure must come out the same today, next year and on the cell screen without a network. ' +
        'Pass what you need in as an argument; what reads, writes or waits belongs to a service.',
      severity: 'error',
      from: { path: '^packages/calc/src', pathNot: [tests, '^packages/calc/src/testing/'] },
      to: { pathNot: '^packages/calc/src' },
    },
    {
      name: 'contract-only-zod',
      comment:
        'The contract is read by the server and by the screens. Anything more than zod in it would be ' +
        'shipped to every tablet; put calculations in calc and the rest behind a route.',
      severity: 'error',
      from: { path: '^packages/contract/src', pathNot: tests },
      to: { pathNot: ['^packages/contract/src', '^node_modules/zod/'] },
    },
    {
      name: 'routes-only-services',
      comment:
        'A route checks the shape, calls one service and maps the answer. A rule or a query in a route ' +
        'would be missing from the seed, from tasks and from the other routes; move it to the service.',
      severity: 'error',
      from: { path: `${api}${routes}`, pathNot: tests },
      to: { path: [store, generatedClient, '^node_modules/@prisma/'] },
    },
    {
      name: 'services-know-no-http',
      comment:
        'Services are called by routes, by tasks and by the demo seed alike. Throw an error of the ' +
        'contract instead of a status, and take plain values instead of a request.',
      severity: 'error',
      from: { path: `${api}${service}` },
      to: {
        path: ['^node_modules/(@?fastify)', '^apps/api/src/http/', routes],
      },
    },
    {
      name: 'prisma-in-one-place',
      comment:
        'Only stores and db/ know the database client, so that a change of the schema or of the database ' +
        'stays there. Speak domain types above the store.',
      severity: 'error',
      from: { pathNot: [store, '^apps/api/src/db/', '^apps/api/src/events/'] },
      to: { path: [generatedClient, '^node_modules/@prisma/'] },
    },
    {
      name: 'stores-look-down',
      comment:
        'A store finds and writes rows. A rule it needs belongs to the service that calls it.',
      severity: 'error',
      from: { path: `${api}${store}` },
      to: {
        path: [service, routes, '^apps/api/src/(http|tasks)/', '^node_modules/(@?fastify)'],
      },
    },
    {
      name: 'areas-meet-at-services',
      comment:
        'Another area is reached through its service, which checks who asks and writes the event. Going to ' +
        "its store or routes passes both by; ask the area's service, or add a function to it.",
      severity: 'error',
      from: { path: area, pathNot: tests },
      to: { path: [`${area}${store}`, `${area}${routes}`], pathNot: '^apps/api/src/$1/' },
    },
    {
      name: 'web-by-contract',
      comment:
        'The screens know the server by its contract alone and share the calculations for instant previews. ' +
        'Describe what you need in packages/contract and ask for it through a route.',
      severity: 'error',
      from: { path: '^apps/web/' },
      to: { path: '^(apps/api|prisma|seed|tests)/' },
    },
    {
      name: 'ui-is-generic',
      comment:
        'Parts in lib/ui are used by every screen, so they know none. Hand in what they show, or keep the ' +
        'part in the folder of its area.',
      severity: 'error',
      from: { path: '^apps/web/src/lib/ui/' },
      to: { path: '^apps/web/src/(routes|lib/(?!ui/))' },
    },
    {
      name: 'lib-knows-no-screen',
      comment:
        'Screens are put together from lib, never the other way round. Move the shared part to lib.',
      severity: 'error',
      from: { path: '^apps/web/src/lib/' },
      to: { path: '^apps/web/src/routes/' },
    },
    {
      name: 'seed-through-services',
      comment:
        'Demo data goes the way real data goes, so that it cannot hold what the tool would refuse.',
      severity: 'error',
      from: { path: '^seed/' },
      to: { path: [store, routes, generatedClient, '^apps/web/'] },
    },
    {
      name: 'no-circular',
      comment:
        'Files in a circle cannot be read, tested or loaded one at a time. Move the shared part out.',
      severity: 'error',
      from: { pathNot: generatedClient },
      to: { circular: true },
    },
    {
      name: 'not-to-unresolvable',
      comment: 'This import leads nowhere: the file moved, or the package is not in package.json.',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '^\\$(app|env|service-worker)' },
    },
    {
      name: 'no-dep-on-tests',
      comment: 'Test code is not shipped. What both need belongs to the product.',
      severity: 'error',
      from: { pathNot: tests },
      to: { path: tests },
    },
  ],
  options: {
    doNotFollow: { path: ['node_modules', generatedClient] },
    exclude: { path: '(^|/)(dist|build|\\.svelte-kit|paraglide)/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.boundaries.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['source', 'svelte', 'import', 'node', 'default', 'types'],
      extensions: ['.ts', '.svelte.ts', '.svelte', '.mjs', '.js', '.json', '.d.ts'],
    },
  },
};
