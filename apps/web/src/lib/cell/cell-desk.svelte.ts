import { queue, runs, type BodyOf, type Cell, type Run } from '@tackboard/contract';
import { Act } from '$lib/api/act.svelte.js';
import { call } from '$lib/api/call.js';
import { ApiRefusal } from '$lib/api/refusal.js';
import { Resource } from '$lib/live/resource.svelte.js';
import { session } from '$lib/session/session.svelte.js';

type Count = { good?: number; rework?: number; scrap?: number };
type ReadingBody = (typeof runs.read)['body']['_zod']['input'];

/** A repeat within this time is questioned: after an interruption people tend to repeat a step. */
const repeatAfterMs = 20_000;

/** What the cell screen knows and does: one cell, its queue, the run in work. Use it while a component is set up. */
export class CellDesk {
  readonly act = new Act();
  readonly view;
  readonly run;
  readonly #cell: () => Cell;
  #lastCount = 0;
  /** A count held back until "another one?" is answered. */
  asked = $state.raw<Count | null>(null);
  secondsSince = $state(0);
  answers = $state.raw<readonly string[]>([]);

  constructor(cell: () => Cell) {
    this.#cell = cell;
    this.view = new Resource(
      async () => call(queue.cell, { params: { cellId: cell().id } }),
      [
        'jobStep',
        'job',
        'run',
        'order',
        'wps',
        'revision',
        'setUp',
        'fixture',
        'lot',
        'cell',
        'override',
        'certificate',
      ],
    );
    this.run = new Resource(async () => {
      const runId = this.view.data?.held?.step.holder?.runId;
      return runId === undefined ? null : call(runs.get, { params: { runId } });
    }, ['run']);
  }

  get mine(): boolean {
    const holder = this.view.data?.held?.step.holder;
    return holder !== undefined && holder !== null && holder.personId === session.person?.id;
  }

  async pull(jobStepId: string): Promise<void> {
    this.answers = [];
    await this.#after(
      await this.act.send(runs.pull, { params: { cellId: this.#cell().id }, body: { jobStepId } }),
    );
  }

  async count(count: Count): Promise<void> {
    const since = Date.now() - this.#lastCount;
    if (since < repeatAfterMs) {
      this.secondsSince = Math.round(since / 1000);
      this.asked = count;
      return;
    }
    await this.countNow(count);
  }

  async countNow(count: Count, beyondBatchConfirmed = false): Promise<void> {
    this.asked = null;
    const reply = await this.#send(runs.count, { ...count, beyondBatchConfirmed });
    if (reply) this.#lastCount = Date.now();
    else if (this.needsConfirmation) this.#heldBack = count;
  }

  #heldBack: Count = {};

  async confirmBeyond(): Promise<void> {
    await this.countNow(this.#heldBack, true);
  }

  get needsConfirmation(): boolean {
    return this.act.refusal instanceof ApiRefusal && this.act.refusal.code === 'NEEDS_CONFIRMATION';
  }

  async stop(cause: BodyOf<typeof runs.stop>['cause']): Promise<boolean> {
    return (await this.#send(runs.stop, { cause })) !== null;
  }

  async goOn(): Promise<void> {
    await this.#send(runs.resume, {});
  }

  async read(body: ReadingBody): Promise<boolean> {
    const params = this.#runParams();
    if (params === null) return false;
    const reply = await this.act.send(runs.read, { params, body });
    this.answers = reply?.words ?? [];
    await this.#after(reply);
    return reply !== null;
  }

  async putDown(setUpMin: number | null, batchComplete: boolean): Promise<boolean> {
    return (await this.#send(runs.putDown, { setUpMin, batchComplete })) !== null;
  }

  async handOver(toPersonId: string, note: string): Promise<boolean> {
    const params = this.#runParams();
    if (params === null) return false;
    const reply = await this.act.send(runs.handOver, { params, body: { toPersonId, note } });
    await this.#after(reply);
    return reply !== null;
  }

  #runParams(): { runId: string } | null {
    const runId = this.view.data?.held?.step.holder?.runId;
    return runId === undefined ? null : { runId };
  }

  async #send<
    R extends typeof runs.count | typeof runs.stop | typeof runs.resume | typeof runs.putDown,
  >(route: R, body: R['body']['_zod']['input']): Promise<Run | null> {
    const params = this.#runParams();
    if (params === null) return null;
    this.answers = [];
    const reply: Run | null = await this.act.send<typeof runs.count>(route as typeof runs.count, {
      params,
      body: body,
    });
    await this.#after(reply);
    return reply;
  }

  async #after(reply: unknown): Promise<void> {
    if (reply === null) return;
    await this.view.reload();
    await this.run.reload();
  }
}
