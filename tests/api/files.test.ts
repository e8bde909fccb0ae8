import { createHash, randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { connect } from 'node:net';
import path from 'node:path';
import { attachRoutes, files, maxFileBytes, type StoredFile } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { expectGuarded, signedIn as everybody, unknownId } from '../support/guarded.js';
import { pdf, png } from '../support/pictures.js';
import { signedIn } from '../support/signed-in.js';

let shop: TestShop;
let welder: Agent;
let office: Agent;

beforeAll(async () => {
  shop = await startTestShop();
  welder = await signedIn(shop, 'welder');
  office = await signedIn(shop, 'office');
});
afterAll(async () => shop.close());

const rows = async () => shop.context.database.reader.storedFile.count();
const place = (sha256: string) =>
  path.join(shop.folder, 'files', sha256.slice(0, 2), sha256.slice(2));

function send(agent: Agent, content: Buffer, name: string, query: object = {}) {
  return agent.post('/api/files').query(query).attach('file', content, name);
}

async function stored(agent: Agent, content: Buffer, name = 'photo.png'): Promise<StoredFile> {
  const reply = await send(agent, content, name);
  expect(reply.status, JSON.stringify(reply.body)).toBe(200);
  return reply.body as StoredFile;
}

async function refused(content: Buffer, name: string) {
  const before = await rows();
  const { status, body } = await send(welder, content, name);
  expect(await rows()).toBe(before);
  const { code, message, fields } = body as { code: string; message: string; fields: unknown };
  return { status, code, message, fields };
}

describe('an upload', () => {
  it('is for whoever is signed in', async () =>
    expectGuarded(shop, files.upload, {
      allowed: everybody,
      malformed: [{ query: { id: 'x' }, field: 'query.id' }],
    }));

  it('is kept on the disk by its SHA-256 and told with its size in pixels', async () => {
    const content = png(40, 30);
    const sha256 = createHash('sha256').update(content).digest('hex');
    const file = await stored(welder, content, 'C:\\photos\\bracket.png');
    expect(file).toMatchObject({
      ...{ sha256, media: 'image/png', bytes: content.length, name: 'bracket.png' },
      ...{ widthPx: 40, heightPx: 30, uploadedBy: 'Wanda Kestelholm' },
    });
    expect(await readFile(place(sha256))).toEqual(content);
    expect(await readdir(path.join(shop.folder, 'files', 'incoming'))).toEqual([]);
    const history = await welder.get(`/api/history/file/${file.id}`).expect(200);
    expect(history.body).toMatchObject({ entries: [{ type: 'file.uploaded', actorCode: 'W07' }] });
  });

  it('of the same content lies on the disk once', async () => {
    const one = await stored(welder, png(9, 9), 'one.png');
    const two = await stored(office, png(9, 9), 'two.png');
    expect(two.id).not.toBe(one.id);
    expect(two.sha256).toBe(one.sha256);
    expect(await readdir(path.dirname(place(one.sha256)))).toEqual([one.sha256.slice(2)]);
  });

  it('sent twice under one key counts once, and another file under it is refused', async () => {
    const key = { 'idempotency-key': randomUUID() };
    const before = await rows();
    const first = await send(welder, png(5, 5), 'a.png').set(key).expect(200);
    const again = await send(welder, png(5, 5), 'a.png').set(key).expect(200);
    expect(again.body).toEqual(first.body);
    const other = await send(welder, png(6, 6), 'a.png').set(key).expect(409);
    expect(other.body).toMatchObject({ code: 'DUPLICATE' });
    expect(await rows()).toBe(before + 1);
  });

  it('may bring its id along; the same again is the same, other content is refused', async () => {
    const id = randomUUID();
    await send(welder, png(7, 7), 'a.png', { id }).expect(200);
    const again = await send(welder, png(7, 7), 'a.png', { id }).expect(200);
    expect(again.body).toMatchObject({ id });
    const other = await send(welder, png(8, 8), 'a.png', { id }).expect(409);
    expect(other.body).toMatchObject({ code: 'DUPLICATE', fields: [{ field: 'query.id' }] });
    const another = await send(office, png(7, 7), 'a.png', { id }).expect(409);
    expect(another.body).toMatchObject({ code: 'DUPLICATE' });
  });
});

describe('what is not kept', () => {
  it.each([
    ['a PNG that says PDF', png(4, 4), 'WPQR-7.pdf', 'says .pdf but is a PNG'],
    ['a PDF that says JPEG', pdf(), 'photo.jpg', 'says .jpg but is a PDF'],
    ['a page that says PNG', Buffer.from('<html><script>1</script>'), 'a.png', 'is none of'],
    [
      'a drawing in SVG',
      Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'),
      'a.svg',
      'PDF, JPEG, PNG and WebP',
    ],
    ['text', Buffer.from('hello'), 'a.txt', 'PDF, JPEG, PNG and WebP can be kept'],
    ['a picture cut off', png(4, 4).subarray(0, 20), 'a.png', 'damaged or cut off'],
    ['an empty file', Buffer.alloc(0), 'a.png', 'is empty'],
  ])('%s is refused in words', async (_what, content, name, words) => {
    const refusal = await refused(content, name);
    expect(refusal.message).toContain(words);
    expect(refusal.message).toContain(`"${name}"`);
    expect(refusal.fields).toMatchObject([{ field: 'file', given: name }]);
    expect(['WRONG_MEDIA_TYPE', 'DOES_NOT_FIT']).toContain(refusal.code);
    expect(await readdir(path.join(shop.folder, 'files', 'incoming'))).toEqual([]);
  });

  /** The box that ISO/IEC 23008-12 begins a HEIC file with. */
  it('a HEIC photo is refused with the way out', async () => {
    const heic = Buffer.concat([
      Buffer.from([0, 0, 0, 24]),
      Buffer.from('ftypheic\0\0\0\0mif1heic', 'latin1'),
      Buffer.alloc(400),
    ]);
    const { message, code } = await refused(heic, 'IMG_1.HEIC');
    expect(code).toBe('WRONG_MEDIA_TYPE');
    expect(message).toContain('HEIC photo');
    expect(message).toContain('JPEG');
  });

  it('20 MB are kept, one byte more is refused with name, size and what to do', async () => {
    await stored(welder, pdf(maxFileBytes), 'record.pdf');
    const refusal = await refused(pdf(maxFileBytes + 1), 'record.pdf');
    expect(refusal).toMatchObject({ status: 413, code: 'TOO_LARGE' });
    expect(refusal.message).toMatch(/"record\.pdf" is 20\.1 MB large\. Up to 20 MB.*scan it/);
    expect(await readdir(path.join(shop.folder, 'files', 'incoming'))).toEqual([]);
  });

  it.each([
    ['JSON', 'application/json', '{}', 415],
    ['a form without a file', 'multipart/form-data; boundary=x', '--x--\r\n', 400],
    ['a form without its boundary', 'multipart/form-data', 'x', 400],
    ['a form that breaks off', 'multipart/form-data; boundary=x', '--x\r\nContent-Dis', 400],
    [
      'a file that breaks off',
      'multipart/form-data; boundary=x',
      '--x\r\ncontent-disposition: form-data; name="file"; filename="a.png"\r\n\r\nabc',
      400,
    ],
  ])('%s is refused in words', async (_what, type, body, status) => {
    const before = await rows();
    const reply = await welder.post('/api/files').set('content-type', type).send(body);
    expect(reply.status, JSON.stringify(reply.body)).toBe(status);
    expect((reply.body as { message: string }).message).toMatch(/^[A-Z].+\.$/);
    expect(await rows()).toBe(before);
  });

  it('an upload whose sender goes away leaves no row and no bytes', async () => {
    const before = await rows();
    const { port } = shop.app.server.address() as { port: number };
    const login = await shop
      .stranger()
      .post('/api/session')
      .send({ code: 'W07', password: 'a long enough password' });
    const cookie = String(login.headers['set-cookie']).split(';')[0] ?? '';
    const socket = connect(port, '127.0.0.1');
    const head = `--x\r\ncontent-disposition: form-data; name="file"; filename="a.pdf"\r\n\r\n`;
    socket.write(
      `POST /api/files HTTP/1.1\r\nhost: 127.0.0.1:${port}\r\ncookie: ${cookie}\r\ncontent-type: multipart/form-data; boundary=x\r\ncontent-length: 900000\r\n\r\n${head}`,
    );
    socket.write(pdf(100_000));
    const incoming = path.join(shop.folder, 'files', 'incoming');
    await expect.poll(async () => (await readdir(incoming)).length).toBe(1);
    socket.destroy();
    await expect.poll(async () => (await readdir(incoming)).length).toBe(0);
    expect(await rows()).toBe(before);
  });
});

describe('the content of a file', () => {
  it('needs a tablet or a person', async () =>
    expectGuarded(shop, files.content, {
      allowed: [...everybody, 'tablet'],
      malformed: [{ params: { fileId: 'x' }, field: 'params.fileId' }],
    }));

  it('comes as it was sent, and can do nothing in a browser', async () => {
    const content = png(12, 12);
    const { id } = await stored(welder, content, 'Träger "1".png');
    const reply = await welder.get(`/api/files/${id}`).buffer(true).expect(200);
    expect(reply.body).toEqual(content);
    expect(reply.headers).toMatchObject({
      'content-type': 'image/png',
      'cache-control': 'private, max-age=31536000, immutable',
      'x-content-type-options': 'nosniff',
      vary: 'cookie',
    });
    expect(reply.headers['content-security-policy']).toContain('sandbox');
    expect(reply.headers['content-disposition']).toBe(
      `inline; filename="Tr_ger _1_.png"; filename*=UTF-8''Tr%C3%A4ger%20%221%22.png`,
    );
  });

  it('is for its sender alone while it belongs to nothing', async () => {
    const { id } = await stored(welder, png(13, 13));
    await welder.get(`/api/files/${id}`).expect(200);
    const reply = await office.get(`/api/files/${id}`).expect(404);
    expect(reply.body).toMatchObject({ code: 'NOT_FOUND' });
    const tablet = await shop.tablet('R1');
    await tablet.get(`/api/files/${id}`).expect(404);
  });
});

describe('a file of a record', () => {
  it('is listed for whoever may see the record', async () =>
    expectGuarded(shop, files.of, {
      allowed: [...everybody, 'tablet'],
      malformed: [
        { query: { subjectType: 'person', subjectId: unknownId }, field: 'query.subjectType' },
      ],
    }));

  it.each(Object.entries(attachRoutes))('%s: the door is guarded', async (_type, route) => {
    const all = ['office', 'welder', 'qa', 'coordinator', 'manager'] as const;
    const roleOf = { coordinator: 'qa' } as Partial<Record<string, string>>;
    const { access } = route;
    await expectGuarded(shop, route, {
      allowed: all.filter((who) => access.roles.some((role) => role === (roleOf[who] ?? who))),
      malformed: [{ body: { fileId: 'x' }, field: 'body.fileId' }],
    });
  });

  it('is added to an existing record only, and must be on file itself', async () => {
    const { id: fileId } = await stored(welder, png(14, 14));
    const reply = await welder.post(`/api/files/ncrs/${unknownId}`).send({ fileId }).expect(404);
    expect(reply.body).toMatchObject({ code: 'NOT_FOUND' });
  });
});

describe('the tidy at the start', () => {
  it('clears what nobody used for a day, and keeps content that another upload shares', async () => {
    const lonely = await stored(welder, png(21, 21));
    const twin = await stored(welder, png(22, 22), 'old.png');
    const incoming = path.join(shop.folder, 'files', 'incoming');
    await mkdir(incoming, { recursive: true });
    await writeFile(path.join(incoming, 'left'), 'half a file');
    shop.clock.set('2026-10-06T05:00:01.000Z');
    const fresh = await stored(await shop.as('welder'), png(22, 22), 'new.png');
    expect(await shop.context.services.files.tidy()).toBeGreaterThanOrEqual(2);
    const { storedFile } = shop.context.database.reader;
    expect(await storedFile.findUnique({ where: { id: lonely.id } })).toBeNull();
    expect(await storedFile.findUnique({ where: { id: twin.id } })).toBeNull();
    expect(await storedFile.findUnique({ where: { id: fresh.id } })).not.toBeNull();
    expect(existsSync(place(lonely.sha256))).toBe(false);
    expect(existsSync(place(fresh.sha256))).toBe(true);
    expect(await readdir(incoming)).toEqual([]);
    expect(await shop.context.services.files.tidy()).toBe(0);
  });
});
