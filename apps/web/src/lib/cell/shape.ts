import { ApiRefusal } from '../api/refusal.js';
import { commandRoutes, type Act } from '../offline/commands.js';

/** What the server would refuse by its shape alone is refused at once, while it can still be typed anew. */
export function refusalOfShape(act: Act): ApiRefusal | null {
  if (act.kind === 'photo' || act.kind === 'photoOf') return null;
  const { kind, body } = act;
  const read = commandRoutes[kind].body.safeParse(body);
  if (read.success) return null;
  const fields = read.error.issues.map(({ path, message }) => ({
    field: ['body', ...path].join('.'),
    given: given(path.reduce<unknown>(within, body)),
    allowed: message,
  }));
  const message = fields.map(({ allowed }) => allowed).join('; ');
  return new ApiRefusal({ code: 'INVALID', message, fields, current: null, requestId: '' });
}

function within(holder: unknown, name: PropertyKey): unknown {
  return holder !== null && typeof holder === 'object'
    ? (holder as Record<PropertyKey, unknown>)[name]
    : undefined;
}

function given(value: unknown): string | null {
  return typeof value === 'string' || typeof value === 'number' ? String(value) : null;
}
