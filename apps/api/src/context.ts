import type { Actor } from './actor.js';
import { v7 as uuidv7 } from 'uuid';
import { createAssignmentsService } from './assignments/service.js';
import { createCapacityService } from './capacity/service.js';
import { createCellsService } from './cells/service.js';
import { systemClock, type Clock } from './clock.js';
import type { Config } from './config.js';
import { createConsumablesService } from './consumables/service.js';
import { openDatabase } from './db/client.js';
import { createUnitOfWork, storedAnswer } from './db/unit-of-work.js';
import { shareAnswers } from './events/shared-answers.js';
import { createEventStream } from './events/stream.js';
import { createFilesService } from './files/service.js';
import type { Foundation } from './foundation.js';
import { createOrdersService } from './orders/service.js';
import { createOutsideService } from './outside/service.js';
import { createPartsService } from './parts/service.js';
import { createPeopleService } from './people/service.js';
import { createPlanningService } from './planning/service.js';
import { createPolicyService } from './policy/service.js';
import { createProceduresService } from './procedures/service.js';
import { createQualificationService } from './qualification/service.js';
import { createQualityService } from './quality/service.js';
import { createQueueService } from './queue/service.js';
import { createRecordsService } from './records/service.js';
import { createRunsService } from './runs/service.js';
import { createSheetsService } from './sheets/service.js';
import { createSettingsService } from './settings/service.js';
import { createWeekService } from './week/service.js';

export type Context = Awaited<ReturnType<typeof createContext>>;

/** The composition root: every long-lived object is made here, once. The database must be migrated before. */
export async function createContext(config: Config, clock: Clock = systemClock) {
  const database = await openDatabase(config.databaseFile);
  const uow = createUnitOfWork(database, clock);
  const foundation: Foundation = {
    database,
    uow,
    shared: shareAnswers(uow, clock),
    clock,
    newId: () => uuidv7(),
    timeZone: config.timeZone,
  };
  const services = createServices(foundation, config);
  return {
    ...foundation,
    config,
    services,
    stream: createEventStream(foundation),
    answers: {
      of: async (command: NonNullable<Actor['command']>) =>
        storedAnswer(database.reader, { command }),
    },
    async close(): Promise<void> {
      await Promise.all([
        ...[services.planning.close(), services.qualification.close()],
        services.assignments.close(),
      ]);
      await uow.drain();
      await database.close();
    },
  };
}

/** In this order: an area is given the services of the areas above it, never their stores. */
function createServices(foundation: Foundation, { shopName, fileFolder }: Config) {
  const files = createFilesService(foundation, fileFolder);
  const cells = createCellsService(foundation);
  const parts = createPartsService(foundation, { files });
  const people = createPeopleService(foundation);
  const procedures = createProceduresService(foundation);
  const policy = createPolicyService(foundation);
  const queue = createQueueService(foundation, { policy });
  const consumables = createConsumablesService(foundation, { queue });
  const orders = createOrdersService(foundation, {
    ...{ cells, consumables, people, policy, procedures, queue },
  });
  const outside = createOutsideService(foundation);
  const assignments = createAssignmentsService(foundation, { people, orders });
  const planning = createPlanningService(foundation, { cells, policy, queue });
  const qualification = createQualificationService(foundation, {
    ...{ people, policy, procedures, queue },
  });
  const quality = createQualityService(foundation, { files, queue });
  const runs = createRunsService(foundation, { parts, people, policy, queue });
  const settings = createSettingsService(foundation);
  const week = createWeekService(foundation);
  const capacity = createCapacityService(foundation, { cells, consumables, orders, queue });
  const records = createRecordsService(foundation);
  const sheets = createSheetsService(
    foundation,
    {
      cells,
      consumables,
      files,
      orders,
      outside,
      parts,
      people,
      procedures,
      quality,
      records,
      runs,
    },
    shopName,
  );
  return {
    assignments,
    capacity,
    cells,
    consumables,
    files,
    orders,
    outside,
    parts,
    people,
    planning,
    policy,
    procedures,
    qualification,
    quality,
    queue,
    runs,
    settings,
    week,
    records,
    sheets,
  };
}
