import { execFile } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { createContext, readConfig, systemActor } from '@tackboard/api';
import { Readable } from 'node:stream';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { emptyDatabase } from '../support/app.js';
import { pdf, png } from '../support/pictures.js';

const run = promisify(execFile);
const root = path.resolve(import.meta.dirname, '../..');
let folder: string;
let other: string;
let backups: string;

beforeAll(async () => {
  folder = await emptyDatabase();
  other = await mkdtemp(path.join(tmpdir(), 'tackboard-other-'));
  backups = await mkdtemp(path.join(tmpdir(), 'tackboard-backups-'));
});
afterAll(async () => {
  for (const one of [folder, other, backups]) await rm(one, { recursive: true, force: true });
});

async function script(name: 'backup' | 'restore', data: string, argument: string) {
  return run(process.execPath, [path.join(root, `scripts/${name}.mjs`), argument], {
    env: { ...process.env, TACKBOARD_DATA: data },
  }).then(
    ({ stdout }) => ({ ok: true, words: stdout }),
    (error: { stdout: string; stderr: string }) => ({
      ...{ ok: false, words: error.stdout + error.stderr },
    }),
  );
}

async function keep(data: string, content: Buffer, name: string) {
  const context = await createContext(readConfig({ TACKBOARD_DATA: data }));
  const { files } = context.services;
  const incoming = await files.receive(Readable.from([content]), { name, announced: null });
  const { sha256 } = await files.upload(systemActor, incoming, { name });
  await context.close();
  return path.join('files', sha256.slice(0, 2), sha256.slice(2));
}

it('a backup carries the files and a restore brings them back, whole', async () => {
  const [photo, paper] = [png(30, 20), pdf(5_000)];
  const places = [await keep(folder, photo, 'a.png'), await keep(folder, paper, 'b.pdf')];
  const made = await script('backup', folder, backups);
  expect(made).toMatchObject({ ok: true, words: expect.stringContaining('2 files') });
  const [name] = (await readdir(backups)).filter((one) => one.endsWith('.sqlite'));
  const backup = path.join(backups, name ?? '');

  const restored = await script('restore', other, backup);
  expect(restored).toMatchObject({ ok: true, words: expect.stringContaining('2 files') });
  expect(await readFile(path.join(other, places[0] ?? ''))).toEqual(photo);
  expect(await readFile(path.join(other, places[1] ?? ''))).toEqual(paper);

  // What came after the backup is kept beside it when the backup is restored over it.
  const later = await keep(folder, png(31, 20), 'later.png');
  expect(await script('restore', folder, backup)).toMatchObject({ ok: true });
  const kept = (await readdir(folder)).find((one) => one.startsWith('files.before-'));
  await readFile(path.join(folder, later.replace(/^files/, kept ?? '')));
  expect(await readFile(path.join(folder, places[0] ?? ''))).toEqual(photo);
});

it('a backup does not come into being when a file is missing or damaged', async () => {
  const data = await emptyDatabase();
  const place = path.join(data, await keep(data, png(32, 20), 'a.png'));
  const target = path.join(data, 'copies');
  const sound = await readFile(place);
  await writeFile(place, Buffer.concat([sound, Buffer.from('x')]));
  const damaged = await script('backup', data, target);
  expect(damaged).toMatchObject({ ok: false, words: expect.stringContaining('is damaged') });
  await rm(place);
  const missing = await script('backup', data, target);
  expect(missing).toMatchObject({ ok: false, words: expect.stringContaining('is missing in') });
  expect((await readdir(target)).filter((one) => one.endsWith('.sqlite'))).toEqual([]);
  await rm(data, { recursive: true, force: true });
});
