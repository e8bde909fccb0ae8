import { copyFile, mkdtemp, rm } from 'node:fs/promises';
import { existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import {
  buildApp,
  createContext,
  migrate,
  readConfig,
  systemActor,
  type Actor,
  type Context,
} from '@tackboard/api';
import type { Cell, Person, Role } from '@tackboard/contract';
import type { FastifyInstance } from 'fastify';
import supertest from 'supertest';

export const testPassword = 'a long enough password';
export const timeZone = 'Europe/Berlin';
export const shopName = 'Müller & Żak Welding';
/** Monday 5 October 2026, 07:00 in the shop. */
export const monday = '2026-10-05T05:00:00.000Z';

export type Agent = ReturnType<typeof supertest.agent>;

export interface TestShop {
  readonly app: FastifyInstance;
  readonly context: Context;
  readonly clock: { set(iso: string): void; now(): Date };
  readonly folder: string;
  /** One of each role, and the coordinator. */
  readonly people: Record<'office' | 'welder' | 'qa' | 'manager' | 'coordinator', Person>;
  readonly cells: { readonly R1: Cell; readonly M1: Cell };
  /** Nobody signed in. */
  stranger(): Agent;
  /** Signed in with a password; a second call gives a second session. */
  as(who: keyof TestShop['people']): Promise<Agent>;
  actor(who: keyof TestShop['people']): Actor;
  /** A registered tablet of a cell with nobody signed in. */
  tablet(cell: 'R1' | 'M1'): Promise<Agent>;
  /** Signed in by PIN at a registered tablet. */
  atTablet(cell: 'R1' | 'M1', person: Person): Promise<Agent>;
  close(): Promise<void>;
}

/** An empty migrated file, made once per process and copied: applying the migrations takes a second. */
let template: Promise<string> | undefined;

async function makeTemplate(): Promise<string> {
  const file = path.join(
    await mkdtemp(path.join(tmpdir(), 'tackboard-template-')),
    'tackboard.sqlite',
  );
  await migrate(file);
  return file;
}

export async function emptyDatabase(): Promise<string> {
  template ??= makeTemplate();
  const folder = await mkdtemp(path.join(tmpdir(), 'tackboard-test-'));
  const source = await template;
  for (const ending of ['', '-wal', '-shm'])
    if (existsSync(source + ending))
      await copyFile(source + ending, path.join(folder, `tackboard.sqlite${ending}`));
  return folder;
}

export async function startTestShop(): Promise<TestShop> {
  const folder = await emptyDatabase();
  const clock = settableClock(monday);
  const config = readConfig({
    TACKBOARD_DATA: folder,
    TACKBOARD_TIME_ZONE: timeZone,
    TACKBOARD_SHOP_NAME: shopName,
    HOST: '127.0.0.1',
    PORT: '0',
    TACKBOARD_REQUESTS_PER_MIN: '1000000',
  });
  const context = await createContext(config, clock);
  const app = await buildApp(context);
  await app.listen({ port: 0, host: '127.0.0.1' });
  const people = await addPeople(context);
  const actor = (who: keyof TestShop['people']): Actor => ({ ...systemActor, person: people[who] });
  const cells = await addCells(context, actor('manager'));

  const stranger = () => supertest.agent(app.server);
  async function as(who: keyof TestShop['people']): Promise<Agent> {
    const agent = stranger();
    await agent
      .post('/api/session')
      .send({ code: people[who].code, password: testPassword })
      .expect(200);
    return agent;
  }
  async function tablet(cell: 'R1' | 'M1'): Promise<Agent> {
    const agent = await as('manager');
    await agent
      .post('/api/tablets')
      .send({ name: `Tablet ${cell}`, cellId: cells[cell].id })
      .expect(200);
    await agent.delete('/api/session').expect(200);
    return agent;
  }
  return {
    app,
    context,
    clock,
    folder,
    people,
    cells,
    stranger,
    as,
    actor,
    tablet,
    async atTablet(cell, person) {
      const { pin } = await context.services.people.issuePin(actor('manager'), person.id);
      const agent = await tablet(cell);
      await agent.post('/api/session/pin').send({ code: person.code, pin }).expect(200);
      return agent;
    },
    async close() {
      await app.close();
      await context.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

function settableClock(start: string) {
  let now = new Date(start);
  return {
    now: () => new Date(now),
    set: (iso: string) => {
      now = new Date(iso);
    },
  };
}

async function addPeople({ services }: Context): Promise<TestShop['people']> {
  const { view } = await services.people.firstRun(systemActor, {
    code: 'M01',
    name: 'Marit Oyelund',
    password: testPassword,
  });
  if (view.person === null) throw new Error('The first run signs the manager in.');
  const manager = view.person;
  const by: Actor = { ...systemActor, person: manager };
  const add = async (code: string, name: string, role: Role, coordinator = false) => {
    const person = await services.people.add(by, { code, name, role, coordinator, language: 'en' });
    await services.people.setPassword(by, person.id, testPassword);
    return person;
  };
  return {
    manager,
    office: await add('S01', 'Selma Brackwater', 'office'),
    welder: await add('W07', 'Wanda Kestelholm', 'welder'),
    qa: await add('Q02', 'Quenna Harrowind', 'qa'),
    coordinator: await add('C01', 'Conrad Velleby', 'qa', true),
  };
}

async function addCells({ services }: Context, actor: Actor): Promise<TestShop['cells']> {
  const base = {
    stations: 1,
    sourceRatingA: 400,
    sourceRatingPct: 60,
    torchRatingA: 300,
    torchRatingPct: 60,
    torchMaxA: 350,
    torchRatingGas: 'M21',
    reachMm: null,
    loadKg: null,
    travelUnit: 'mm/min',
    planningFactor: 0.8,
    gasLossFactor: 1,
    extraction: '',
    processes: ['135'],
  } as const;
  return {
    R1: await services.cells.add(actor, {
      ...base,
      processes: ['135'],
      code: 'R1',
      name: 'Robot, one station',
      kind: 'robot',
      mechanisation: 'fullyMechanised',
    }),
    M1: await services.cells.add(actor, {
      ...base,
      processes: ['135'],
      code: 'M1',
      name: 'Booth',
      kind: 'booth',
      mechanisation: 'partlyMechanised',
    }),
  };
}
