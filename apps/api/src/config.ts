import { join, resolve } from 'node:path';
import { z } from 'zod';
import { projectRoot } from './project-root.js';

function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}

const Environment = z.object({
  PORT: z.coerce
    .number('must be a port number')
    .int('must be a whole number')
    .min(0, 'must be 0 to 65535')
    .max(65_535, 'must be 0 to 65535')
    .default(3000),
  /** The tablets at the cells reach the tool over the shop's own network. */
  HOST: z.string().min(1, 'must name an address').default('0.0.0.0'),
  TACKBOARD_DATA: z.string().min(1, 'must name a folder').default('data'),
  TACKBOARD_TIME_ZONE: z
    .string()
    .default(() => Intl.DateTimeFormat().resolvedOptions().timeZone)
    .refine(isTimeZone, 'must be a time zone of the IANA list, such as Europe/Berlin'),
  /** Stands on every printed sheet. */
  TACKBOARD_SHOP_NAME: z.string().trim().max(120, 'must have at most 120 characters').default(''),
  /** Per address; wide enough for a screen that loads anew, too narrow for guessing. */
  TACKBOARD_REQUESTS_PER_MIN: z.coerce.number().int().min(10).max(10_000_000).default(6_000),
});

export interface Config {
  readonly port: number;
  readonly host: string;
  readonly databaseFile: string;
  /** Beside the database: the one says what lies in the other. */
  readonly fileFolder: string;
  readonly timeZone: string;
  /** Empty while nobody has set it. */
  readonly shopName: string;
  readonly requestsPerMin: number;
  readonly webFolder: string;
}

/** Reads the settings from the environment. Throws one sentence per setting that cannot be used. */
export function readConfig(environment: Readonly<Record<string, string | undefined>>): Config {
  const parsed = Environment.safeParse(environment);
  if (!parsed.success) {
    const lines = parsed.error.issues.map((issue) => {
      const name = String(issue.path[0]);
      return `${name} is "${environment[name] ?? ''}" and ${issue.message}.`;
    });
    throw new Error(lines.join('\n'));
  }
  const given = parsed.data;
  return Object.freeze({
    port: given.PORT,
    host: given.HOST,
    databaseFile: join(resolve(projectRoot, given.TACKBOARD_DATA), 'tackboard.sqlite'),
    fileFolder: join(resolve(projectRoot, given.TACKBOARD_DATA), 'files'),
    timeZone: given.TACKBOARD_TIME_ZONE,
    shopName: given.TACKBOARD_SHOP_NAME,
    requestsPerMin: given.TACKBOARD_REQUESTS_PER_MIN,
    webFolder: join(projectRoot, 'apps/web/build'),
  });
}
