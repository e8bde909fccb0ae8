import { assignments } from './assignments.js';
import { capacity } from './capacity.js';
import { cells } from './cells.js';
import { consumables } from './consumables.js';
import { files } from './files.js';
import { orders } from './orders.js';
import { outside } from './outside.js';
import { parts } from './parts.js';
import { people } from './people.js';
import { planning } from './planning.js';
import { procedures } from './procedures.js';
import { qualification } from './qualification.js';
import { quality } from './quality.js';
import { queue } from './queue.js';
import { records } from './records.js';
import type { Route } from './route.js';
import { runs } from './runs.js';
import { sheets } from './sheets.js';
import { testsToMake } from './tests-to-make.js';
import { setUpMemory } from './set-up-memory.js';
import { settings } from './settings.js';
import { week } from './week.js';
import { wpsInUse } from './wps-in-use.js';

/** Every operation of the service, by area. */
export const areas = {
  people,
  records,
  cells,
  parts,
  procedures,
  wpsInUse,
  qualification,
  testsToMake,
  orders,
  outside,
  assignments,
  queue,
  planning,
  runs,
  setUpMemory,
  consumables,
  quality,
  week,
  capacity,
  sheets,
  settings,
  files,
} as const;

export const allRoutes: readonly Route[] = Object.values(areas).flatMap((area) =>
  Object.values<Route>(area),
);
