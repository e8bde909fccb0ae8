import { rename, rm } from 'node:fs/promises';
import { createContext, migrate, type Config } from '@tackboard/api';
import { createDays } from './days.js';
import {
  fileCertificates,
  fileConsumables,
  fileLaterConfirmations,
  filePeopleAndCells,
} from './file-base.js';
import { fileParts } from './file-parts.js';
import { fileProcedures } from './file-procedures.js';
import { createRandom } from './random.js';
import type { ShopFile } from './shop-file.js';
import { workDay, type Story } from './story.js';
import { loadToday, queueWhatWaits, workInHand } from './today.js';

const weeks = 12;
const seed = 20_260;

interface LoadOptions {
  readonly progress?: (line: string) => void;
  /** The moment at which the story ends; the real one unless a test says otherwise. */
  readonly now?: Date;
}

/**
 * Makes the database of the demo shop through the real services. It takes its place only when it is whole, so
 * that a start broken off half-way leaves nothing behind.
 */
export async function loadDemoShop(config: Config, options: LoadOptions = {}): Promise<void> {
  const file = `${config.databaseFile}.loading`;
  for (const ending of endings) await rm(file + ending, { force: true });
  await migrate(file);
  await fill({ ...config, databaseFile: file }, options);
  await rename(file, config.databaseFile);
  for (const ending of endings.slice(1)) await rm(file + ending, { force: true });
}

/** The file itself, and what SQLite keeps beside it while it is open. */
const endings = ['', '-wal', '-shm'];

async function fill(
  config: Config,
  { progress = () => undefined, now = new Date() }: LoadOptions,
): Promise<void> {
  const clock = settableClock(now);
  const context = await createContext(config, clock);
  try {
    progress('Loading the demo shop: people, cells, procedures, parts …');
    const days = createDays(config.timeZone, now);
    const shop: ShopFile = {
      context,
      days,
      clock,
      people: new Map(),
      cells: new Map(),
      items: new Map(),
      lots: new Map(),
      customers: new Map(),
      parts: [],
    };
    const begins = days.mondayBefore(weeks);
    const filedOn = days.plus(begins, -14);
    clock.set(days.at(filedOn, 6 * 60));
    await filePeopleAndCells(shop);
    await fileConsumables(shop, days.plus(filedOn, -2));
    await fileProcedures(shop);
    await fileParts(shop);
    await fileCertificates(shop, filedOn);
    await tellStory({ shop, random: createRandom(seed), loaded: new Map() }, begins, now, progress);
    await fileLaterConfirmations(shop, filedOn);
  } finally {
    await context.close();
  }
}

async function tellStory(
  story: Story,
  begins: string,
  now: Date,
  progress: (line: string) => void,
): Promise<void> {
  const { shop } = story;
  const { days, clock, cells } = shop;
  for (let day = begins; day < days.today; day = days.plus(day, 1)) {
    if (days.weekday(day) === 1) progress(`Loading the demo shop: week of ${day} …`);
    if (days.weekday(day) > 5) continue;
    for (const cell of cells.keys()) await workDay(story, cell, day);
  }
  await queueWhatWaits(story);
  await workInHand(story);
  clock.set(now);
  await loadToday(shop);
}

function settableClock(start: Date) {
  let now = start;
  return {
    now: () => new Date(now),
    set: (at: Date) => {
      now = at;
    },
  };
}
