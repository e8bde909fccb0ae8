import {
  assignments,
  capacity,
  cells,
  consumables,
  orders,
  parts,
  people,
  procedures,
  qualification,
  quality,
  queue,
  settings,
  week,
  type Route,
} from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

interface Place {
  readonly href: string;
  readonly label: () => string;
  /** The route that its screen asks first: who would be refused there does not see the place. */
  readonly route: Pick<Route, 'access'>;
}

export const places: readonly Place[] = [
  { href: '/board', label: m.nav_board, route: queue.board },
  { href: '/cell', label: m.nav_cell, route: queue.board },
  { href: '/orders', label: m.nav_orders, route: orders.list },
  { href: '/to-clear', label: m.nav_to_clear, route: assignments.list },
  { href: '/parts', label: m.nav_parts, route: parts.list },
  { href: '/customers', label: m.nav_customers, route: parts.customers },
  { href: '/procedures', label: m.nav_procedures, route: procedures.list },
  { href: '/consumables', label: m.nav_consumables, route: consumables.lots },
  { href: '/quality', label: m.nav_quality, route: quality.ncrs },
  { href: '/people', label: m.nav_people, route: people.list },
  { href: '/lapses', label: m.nav_lapses, route: qualification.lapses },
  { href: '/cells', label: m.nav_cells, route: cells.list },
  { href: '/tablets', label: m.nav_tablets, route: people.tablets },
  { href: '/settings', label: m.nav_settings, route: settings.set },
  { href: '/week', label: m.nav_week, route: week.get },
  { href: '/capacity', label: m.nav_capacity, route: capacity.get },
];

/** The tablet at a cell is for the work there: the other places are kept for the computers. */
export const tabletPlaces: readonly string[] = ['/board', '/cell'];

export function isAt(path: string, href: string): boolean {
  return path === href || path.startsWith(`${href}/`);
}
