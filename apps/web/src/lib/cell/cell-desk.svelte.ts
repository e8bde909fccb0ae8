import {
  CellView,
  quality,
  queue,
  runs,
  type BodyOf,
  type Cell,
  type FirstPiece,
  type Run,
} from '@tackboard/contract';
import { untrack } from 'svelte';
import { Act } from '$lib/api/act.svelte.js';
import { call } from '$lib/api/call.js';
import { NotReached } from '$lib/api/refusal.js';
import { newKey } from '$lib/api/request.js';
import { live } from '$lib/live/live.svelte.js';
import { Resource, unhurriedMs } from '$lib/live/resource.svelte.js';
import { askOrRecall } from '$lib/offline/answers.js';
import type { Act as Done } from '$lib/offline/commands.js';
import { saysNothing } from '$lib/offline/outcome.js';
import { refusedOnes, waiting, waitingOf } from '$lib/offline/outbox.js';
import { serverClock } from '$lib/offline/server-clock.svelte.js';
import { waitingLine } from '$lib/offline/waiting-line.svelte.js';
import { session } from '$lib/session/session.svelte.js';
import { refusalOfShape } from './shape.js';

type Count = { readonly good?: number; readonly rework?: number; readonly scrap?: number };
type ReadingBody = Extract<Done, { kind: 'reading' }>['body'];
type StartBody = Extract<Done, { kind: 'start' }>['body'];

/** A repeat within this time is questioned: after an interruption people tend to repeat a step. */
const repeatAfterMs = 20_000;
/** Longer than the pull of any step takes; then the welder hears that it is not theirs yet. */
const patienceMs = 8_000;
/** With the stream standing, nothing has changed; the screen still asks now and then, so that its age is small. */
const refreshMs = 5 * 60_000;

const watched = [
  ...(['jobStep', 'job', 'run', 'order', 'wps', 'revision', 'setUp', 'fixture', 'lot'] as const),
  ...(['cell', 'override', 'certificate', 'firstPiece', 'nonconformance'] as const),
  ...(['inspectionPoint', 'jobHold'] as const),
];

/** What a count is asked about before it is kept. */
export type Question =
  | { readonly kind: 'another'; readonly count: Count; readonly secondsSince: number }
  | { readonly kind: 'beyond'; readonly count: Count; readonly counted: number };

/** What the server said last of a cell. */
interface Known {
  readonly view: CellView;
  /** The step in work; fetched while acts wait, it is left as it was known. */
  readonly held: CellView['held'];
  readonly isHeldOld: boolean;
}

/** What the cell screen knows and does: one cell, its queue, the run in work. Use it while a component is set up. */
export class CellDesk {
  readonly act = new Act();
  /** A count held back until its question is answered. */
  asked = $state.raw<Question | null>(null);
  answers = $state.raw<readonly string[]>([]);
  /** A pull that the server did not answer; it may have taken it all the same, which the next view shows. */
  notYours = $state(false);
  /** Acts that must reach the server before a job can be put down or handed over. */
  sendFirst = $state(0);
  /** The tablet could not keep an act: it does not count. */
  notKept = $state(false);
  readonly #cell: () => Cell;
  readonly #fetched;
  readonly #run;
  readonly #past;
  readonly #held = $derived.by(() => this.#fetched.data?.held ?? null);
  #lastCountMs = 0;
  /** The run in work: what the server said last and what was done here since. */
  readonly run = $derived.by((): Run | null => {
    const runId = this.#runId;
    return runId === null ? null : waitingLine.run(runId);
  });
  readonly #stepGoodCount = $derived(this.run?.stepGoodCount ?? null);
  /** The queue and what is in work, as the server last said; what was counted here since is in it. */
  readonly view = $derived.by((): CellView | null => {
    const view = this.#fetched.data?.view ?? null;
    if (view === null) return null;
    // Of the run its count alone: a stop or a reading must not draw the card anew.
    const [held, goodCount] = [this.#held, this.#stepGoodCount];
    if (held === null || goodCount === null) return { ...view, held };
    return { ...view, held: { ...held, step: { ...held.step, goodCount } } };
  });

  constructor(cell: () => Cell) {
    this.#cell = cell;
    this.#fetched = new Resource(async () => this.#fetchView(), watched);
    this.#run = new Resource(async () => this.#fetchRun(), ['run', 'firstPiece', 'nonconformance']);
    this.#past = new Resource(async () => this.#fetchPast(), ['run'], unhurriedMs);
    this.#follow();
  }

  get error(): Error | null {
    return this.#fetched.error ?? this.#run.error;
  }
  /** The run of whoever had the step before, as far as it is known here. */
  get before(): Run | null {
    const stepId = this.#held?.step.id;
    const past = (this.#past.data ?? []).filter(
      ({ jobStepId, endedAt }) => jobStepId === stepId && endedAt !== null,
    );
    return past.at(-1) ?? null;
  }
  get waiting() {
    return waiting(waitingLine.entries).filter(({ cellId }) => cellId === this.#cell().id);
  }
  get refused() {
    return refusedOnes(waitingLine.entries).filter(({ cellId }) => cellId === this.#cell().id);
  }
  get mine(): boolean {
    const holder = this.#held?.step.holder ?? null;
    return holder !== null && holder.personId === session.person?.id;
  }

  /** Takes a step. Only the server can give it: without its answer it is not yours yet. */
  async pull(jobStepId: string): Promise<void> {
    this.answers = [];
    this.notYours = false;
    const params = { cellId: this.#cell().id };
    const signal = AbortSignal.timeout(patienceMs);
    const reply = await this.act.send(runs.pull, { params, body: { jobStepId }, signal });
    if (reply !== null) await this.reload();
    else if (this.act.refusal instanceof NotReached) {
      this.act.clear();
      this.notYours = true;
    }
  }

  /** Counts, after asking when it looks like a repeat or like more than the batch. */
  async count(count: Count): Promise<void> {
    const sinceMs = Date.now() - this.#lastCountMs;
    if (sinceMs < repeatAfterMs)
      this.asked = { kind: 'another', count, secondsSince: Math.round(sinceMs / 1000) };
    else await this.countSure(count);
  }

  /** Counts what is not a repeat; more than the batch is asked about once. */
  async countSure(count: Count): Promise<void> {
    const { run } = this;
    const counted = (run?.stepGoodCount ?? 0) + (count.good ?? 0);
    const beyond = run !== null && (count.good ?? 0) > 0 && counted > run.quantity;
    if (beyond) this.asked = { kind: 'beyond', count, counted };
    else await this.countNow(count, false);
  }

  async countNow(count: Count, beyondBatchConfirmed: boolean): Promise<void> {
    this.asked = null;
    this.#lastCountMs = Date.now();
    await this.#keep({ kind: 'count', body: { ...count, beyondBatchConfirmed } });
  }

  async start(body: StartBody): Promise<boolean> {
    return this.#keep({ kind: 'start', body });
  }

  async stop(cause: BodyOf<typeof runs.stop>['cause']): Promise<boolean> {
    return this.#keep({ kind: 'stop', body: { cause } });
  }

  async goOn(): Promise<boolean> {
    return this.#keep({ kind: 'resume', body: {} });
  }

  async note(text: string): Promise<boolean> {
    return this.#keep({ kind: 'note', body: { text } });
  }

  async read(body: ReadingBody): Promise<boolean> {
    return this.#keep({ kind: 'reading', body });
  }

  /** Keeps a photo for the server. Answers its id, for the act that refers to it; null when it cannot be kept. */
  async photo(picture: Blob): Promise<string | null> {
    const fileId = newKey();
    const body = { fileId, name: `${fileId.slice(0, 8)}.jpg`, picture };
    return (await this.#keep({ kind: 'photo', body })) ? fileId : null;
  }

  async photoOf(subjectType: 'setUp' | 'fixture', subjectId: string, fileId: string) {
    return this.#keep({ kind: 'photoOf', body: { subjectType, subjectId, fileId } });
  }

  async putDown(setUpMin: number | null, batchComplete: boolean): Promise<boolean> {
    const body = { setUpMin, batchComplete };
    return this.#direct(async (params, signal) =>
      this.act.send(runs.putDown, { params, body, signal }),
    );
  }

  async handOver(toPersonId: string, note: string): Promise<boolean> {
    const body = { toPersonId, note };
    return this.#direct(async (params, signal) =>
      this.act.send(runs.handOver, { params, body, signal }),
    );
  }

  /** Only the server says what is to be checked, and only a pass that it has stored lets the batch go on. */
  async checkFirstPiece(
    body: Pick<
      BodyOf<typeof quality.checkFirstPiece>,
      'sizes' | 'visual' | 'imperfections' | 'photoIds'
    >,
  ): Promise<FirstPiece['result'] | null> {
    let result: FirstPiece['result'] | null = null;
    await this.#direct(async (params, signal) => {
      const reply = await this.act.send(quality.checkFirstPiece, { params, body, signal });
      result = reply?.result ?? null;
      return reply;
    });
    return result;
  }

  /** Answers the number of the NCR. */
  async raiseNcr(
    body: Pick<BodyOf<typeof quality.raiseNcr>, 'defect' | 'quantity' | 'counted' | 'photoIds'>,
  ): Promise<number | null> {
    const jobStepId = this.#held?.step.id;
    if (jobStepId === undefined) return null;
    let number: number | null = null;
    await this.#direct(async (_, signal) => {
      const reply = await this.act.send(quality.raiseNcr, { params: { jobStepId }, body, signal });
      number = reply?.number ?? null;
      return reply;
    });
    return number;
  }

  async reload(): Promise<void> {
    await this.#fetched.reload();
    await this.#run.reload();
  }

  get #runId(): string | null {
    return this.#held?.step.holder?.runId ?? null;
  }

  /** Keeps an act of this run for the server; false when its shape is refused or it cannot be kept. */
  async #keep(act: Done): Promise<boolean> {
    const [runId, person] = [this.#runId, session.person];
    if (runId === null || person === null) return false;
    this.answers = [];
    this.act.refusal = refusalOfShape(act);
    if (this.act.refusal !== null) return false;
    try {
      await waitingLine.add({
        ...act,
        ...{ runId, cellId: this.#cell().id, personId: person.id, personCode: person.code },
        happenedAt: serverClock.now().toISOString(),
      });
    } catch {
      this.notKept = true;
      return false;
    }
    this.notKept = false;
    return true;
  }

  /** Only the server can say yes to these, and what was done before must have reached it first. */
  async #direct(
    send: (params: { runId: string }, signal: AbortSignal) => Promise<unknown>,
  ): Promise<boolean> {
    const runId = this.#runId;
    if (runId === null) return false;
    this.answers = [];
    await waitingLine.flush();
    this.sendFirst = waitingOf(waitingLine.entries, runId).length;
    if (this.sendFirst > 0) return false;
    const reply = await send({ runId }, AbortSignal.timeout(patienceMs));
    if (reply !== null) await this.reload();
    return reply !== null;
  }

  async #fetchView(): Promise<Known> {
    const cellId = this.#cell().id;
    const view = await askOrRecall(`view ${cellId}`, CellView, async (signal) =>
      call(queue.cell, { params: { cellId }, signal }),
    );
    // While acts wait, nobody knows which of them the fetched counts hold already.
    const runId = this.#runId;
    const isSame = runId !== null && view.held?.step.holder?.runId === runId;
    const isHeldOld = isSame && waitingOf(waitingLine.entries, runId).length > 0;
    return { view, held: isHeldOld ? this.#held : view.held, isHeldOld };
  }

  async #fetchRun(): Promise<void> {
    const runId = this.#runId;
    if (runId === null) return;
    try {
      const signal = AbortSignal.timeout(patienceMs);
      const run = await call(runs.get, { params: { runId }, signal });
      await waitingLine.take(run);
    } catch (error) {
      // The line keeps the run as it was known; only a run that was never seen cannot be shown.
      if (!saysNothing(error) || this.run === null) throw error;
    }
  }

  async #fetchPast(): Promise<readonly Run[]> {
    const jobId = this.#held?.step.jobId;
    if (jobId === undefined || session.person === null) return [];
    const { runs: past } = await askOrRecall(
      `past ${this.#cell().id}`,
      runs.ofJob.reply,
      async (signal) => call(runs.ofJob, { params: { jobId }, signal }),
    );
    return past;
  }

  /** Sends and asks again whenever the server may be there, and tells what it says. */
  #follow(): void {
    $effect(() => waitingLine.start(() => session.person?.id ?? null));
    // With the stream standing, each act is told as a change; only what came while acts waited was not taken.
    $effect(() =>
      waitingLine.onEmptied(() => {
        if (this.#fetched.data?.isHeldOld === true || !live.connected) void this.reload();
      }),
    );
    $effect(() =>
      waitingLine.onAccepted((entry, words) => {
        if (entry.runId === this.#runId) this.answers = [...this.answers, ...words];
      }),
    );
    $effect(() => {
      if (!live.connected) return;
      untrack(() => {
        void waitingLine.flush();
        void this.#fetched.reload();
      });
      const timer = setInterval(() => void this.#fetched.reload(), refreshMs);
      return () => clearInterval(timer);
    });
    $effect(() => {
      if (session.person !== null) void waitingLine.flush();
    });
  }
}
