import { readFileSync } from 'node:fs';
import type { Instance } from './instance.js';

/** What is wrong with a file, in a sentence for the person who made it. */
export class FileTrouble extends Error {}

type Shape = Record<string, unknown>;

function isShape(value: unknown): value is Shape {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function show(value: unknown): string {
  return value === undefined ? 'nothing' : JSON.stringify(value).slice(0, 60);
}

function need(holds: boolean, where: string, given: unknown, allowed: string): asserts holds {
  if (!holds) throw new FileTrouble(`${where} is ${show(given)}: ${allowed}.`);
}

function numberAt(shape: Shape, field: string, where: string, absent?: number): number {
  const value = shape[field] ?? absent;
  const allowed = 'a finite number is needed';
  need(typeof value === 'number' && Number.isFinite(value), `${where}.${field}`, value, allowed);
  return value;
}

function readProcessing(job: Shape, machines: number, where: string): (number | null)[] {
  const list = job['processing'];
  const allowed = `a list of ${machines} numbers is needed, null where the machine cannot do the job`;
  need(Array.isArray(list) && list.length === machines, `${where}.processing`, list, allowed);
  return list.map((value: unknown, at) => {
    const fits = value === null || (typeof value === 'number' && Number.isFinite(value));
    need(fits, `${where}.processing[${at}]`, value, 'a number or null is needed');
    return value;
  });
}

function readJobs(shape: Shape, machines: number, where: string): Instance['jobs'] {
  const jobs = shape['jobs'];
  need(Array.isArray(jobs), `${where}.jobs`, jobs, 'a list of jobs is needed');
  return jobs.map((job: unknown, at) => {
    const place = `${where}.jobs[${at}]`;
    need(isShape(job), place, job, 'an object with id, due, weight and processing is needed');
    const id = job['id'] ?? at;
    need(
      typeof id === 'string' || typeof id === 'number',
      `${place}.id`,
      id,
      'a text or a number is needed',
    );
    return {
      id: String(id),
      release: numberAt(job, 'release', place, 0),
      due: numberAt(job, 'due', place),
      weight: numberAt(job, 'weight', place, 1),
      processing: readProcessing(job, machines, place),
    };
  });
}

function readSetup(
  shape: Shape,
  machines: number,
  jobs: number,
  where: string,
): number[][][] | null {
  const setup = shape['setup'] ?? null;
  if (setup === null) return null;
  need(
    Array.isArray(setup) && setup.length === machines,
    `${where}.setup`,
    setup,
    `a list of ${machines} tables is needed`,
  );
  return setup.map((table: unknown, machine) => {
    const place = `${where}.setup[${machine}]`;
    need(
      Array.isArray(table) && table.length === jobs + 1,
      place,
      table,
      `${jobs + 1} rows are needed, row 0 before the first job`,
    );
    return table.map((row: unknown, at) => {
      const line = `${place}[${at}]`;
      need(Array.isArray(row) && row.length === jobs, line, row, `${jobs} numbers are needed`);
      return row.map((value: unknown, job) => {
        // A job never follows itself, so its own entry may be left open.
        if (value === null && job === at - 1) return 0;
        need(
          typeof value === 'number' && Number.isFinite(value),
          `${line}[${job}]`,
          value,
          'a number is needed',
        );
        return job === at - 1 ? 0 : value;
      });
    });
  });
}

function readInstance(value: unknown, at: number): Instance {
  const where = `instances[${at}]`;
  need(isShape(value), where, value, 'an object with name, machines and jobs is needed');
  const name = value['name'] ?? `instance ${at + 1}`;
  need(
    typeof name === 'string' || typeof name === 'number',
    `${where}.name`,
    name,
    'a text is needed',
  );
  const machines = numberAt(value, 'machines', where, 1);
  need(
    Number.isInteger(machines) && machines >= 1,
    `${where}.machines`,
    machines,
    'a whole number of 1 or more is needed',
  );
  const jobs = readJobs(value, machines, where);
  const setup = readSetup(value, machines, jobs.length, where);
  return { name: String(name), machines, jobs, ...(setup ? { setup } : {}) };
}

function parsed(path: string): unknown {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch {
    throw new FileTrouble(`The file ${path} cannot be read: check the name and that it is there.`);
  }
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new FileTrouble(`The file ${path} is no JSON: ${(error as Error).message}.`);
  }
}

/** Reads the instances of a file; throws {@link FileTrouble} that names the place, the value and what is allowed. */
export function readInstances(path: string): Instance[] {
  const file = parsed(path);
  const list = isShape(file) ? file['instances'] : undefined;
  need(
    Array.isArray(list) && list.length > 0,
    'instances',
    list,
    'a list with at least one instance is needed',
  );
  return list.map(readInstance);
}
