import type { FastifyInstance } from 'fastify';

/** Every `METHOD /path` that an app answers, read from the router itself; HEAD comes with GET. */
export function registeredRoutes(app: FastifyInstance): string[] {
  const above: string[] = [];
  return app
    .printRoutes({ commonPrefix: false })
    .split('\n')
    .flatMap((line) => {
      const found = line.match(/^([│ ]*)[├└]── (.*?)(?: \(([A-Z, ]+)\))?$/);
      if (found === null) return [];
      const [, indent = '', segment = '', methods] = found;
      const depth = indent.length / 4;
      above.length = depth;
      above[depth] = segment;
      return (methods?.split(', ') ?? [])
        .filter((method) => method !== 'HEAD')
        .map((method) => `${method} ${above.join('')}`);
    });
}
