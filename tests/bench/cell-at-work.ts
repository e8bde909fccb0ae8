import type { CellView, FirstPieceTask, ReplyOf, cells, people } from '@tackboard/contract';
import { demoPassword } from '@tackboard/seed';
import type { Browser, BrowserContext, Page } from 'playwright-core';

const cellCode = 'R1';
const person = 'O03';
/** A tablet of 10 inches. */
const viewport = { width: 1280, height: 800 };
const longestWaitMs = 30_000;

interface Desk {
  readonly page: Page;
  readonly context: BrowserContext;
}

/** A registered tablet at a robot cell with its operator: a job pulled and started, its first piece passed, kept by the service worker. */
export async function atWork(browser: Browser, baseURL: string): Promise<Desk> {
  const context = await browser.newContext({ baseURL, viewport, locale: 'en-GB' });
  context.setDefaultTimeout(longestWaitMs);
  const page = await context.newPage();
  const { pin, cellId } = await registered(context);
  await page.goto('/');
  await send(context, '/api/session/pin', { code: person, pin });
  await page.reload();
  for (const name of ['Pull', 'As shown, start'])
    await page.getByRole('button', { name, exact: true }).click();
  await page.getByRole('button', { name: 'Good +1', exact: true }).waitFor();
  await passFirstPiece(context, cellId);
  await page.evaluate(async () => navigator.serviceWorker.ready);
  await page.reload();
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await page.getByRole('button', { name: 'Good +1', exact: true }).waitFor();
  return { page, context };
}

/** The manager registers the tablet and issues a PIN; then nobody is signed in. */
async function registered(context: BrowserContext): Promise<{ pin: string; cellId: string }> {
  await send(context, '/api/session', { code: 'M01', password: demoPassword });
  const all = await read<ReplyOf<typeof cells.list>>(context, '/api/cells');
  const cellId = idOf(all.cells, cellCode);
  await send(context, '/api/tablets', { name: `Tablet ${cellCode}`, cellId });
  const staff = await read<ReplyOf<typeof people.list>>(context, '/api/people');
  const at = `/api/people/${idOf(staff.people, person)}/pin`;
  const { pin } = (await send(context, at, {})) as { pin: string };
  await context.request.delete('/api/session', command());
  return { pin, cellId };
}

/** Nothing is counted before: each weld is said to measure the least that is allowed. */
async function passFirstPiece(context: BrowserContext, cellId: string): Promise<void> {
  const view = await read<CellView>(context, `/api/cells/${cellId}/view`);
  const at = `/api/runs/${view.held?.step.holder?.runId ?? ''}/first-piece`;
  const task = await read<FirstPieceTask>(context, at);
  if (task.passed) return;
  const welds = new Map(task.sizes.toReversed().map((size) => [size.weldNumber, size]));
  const sizes = [...welds.values()].map(({ weldNumber, measure, lowestMm }) => ({
    ...{ weldNumber, measure, measuredMm: Math.ceil(lowestMm * 10) / 10 },
  }));
  await send(context, at, { sizes, visual: 'accepted' });
}

function idOf(all: readonly { readonly id: string; readonly code: string }[], code: string) {
  const found = all.find((one) => one.code === code);
  if (found === undefined) throw new Error(`The demo shop has no ${code}.`);
  return found.id;
}

const command = () => ({ headers: { 'idempotency-key': crypto.randomUUID() } });

async function send({ request }: BrowserContext, at: string, data: object): Promise<unknown> {
  const answer = await request.post(at, { ...command(), data });
  if (!answer.ok()) throw new Error(`${at} answered ${await answer.text()}`);
  return answer.json();
}

async function read<Reply>({ request }: BrowserContext, at: string): Promise<Reply> {
  const answer = await request.get(at);
  if (!answer.ok()) throw new Error(`${at} answered ${await answer.text()}`);
  return (await answer.json()) as Reply;
}
