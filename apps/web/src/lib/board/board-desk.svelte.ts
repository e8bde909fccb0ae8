import {
  cells,
  queue,
  type CellHours,
  type Lane,
  type OpenOfJob,
  type QueuedStep,
} from '@tackboard/contract';
import type { PlannedTime, WorkingWindow } from '@tackboard/calc';
import { untrack } from 'svelte';
import { Act } from '../api/act.svelte.js';
import { call } from '../api/call.js';
import { Resource } from '../live/resource.svelte.js';
import { m } from '../paraglide/messages.js';
import { session } from '../session/session.svelte.js';
import {
  arranged,
  isSamePlace,
  placeBeside,
  placeEarlier,
  placeLater,
  type Place,
} from './lane-order.js';
import { keepTimes, minuteOf, plannedTimes, windowsByCell, type StepTimes } from './lane-times.js';

type Move = 'earlier' | 'later' | 'left' | 'right';

const longestDays = 366;

/** The board: what the server says, and one move that is shown until the server has answered. */
export class BoardDesk {
  readonly board = new Resource(
    async () => call(queue.board),
    ['jobStep', 'job', 'order', 'run', 'cell', 'override', 'wps', 'part', 'assignment'],
  );
  readonly act = new Act();
  /** Read aloud after each move. */
  announcement = $state('');
  dragged = $state.raw<QueuedStep | null>(null);
  dropPlace = $state.raw<Place | null>(null);
  #pending = $state.raw<{ readonly stepId: string; readonly place: Place } | null>(null);

  readonly lanes = $derived.by((): readonly Lane[] => {
    const lanes = this.board.data?.lanes ?? [];
    const move = this.#pending;
    return move === null ? lanes : arranged<QueuedStep, Lane>(lanes, move.stepId, move.place);
  });

  #days = $state(28);
  readonly hours = new Resource(
    async () => call(cells.hours, { query: { days: this.#days } }),
    ['cell'],
  );
  #elapsedMin = $state(0);
  /** The time of the server in whole minutes since 1970, as far as it is known here: no card is drawn anew for less. */
  readonly nowMin = $derived(
    Math.floor(
      Math.max(
        ...[this.board.data?.asOf, this.hours.data?.from].map((at) => (at ? minuteOf(at) : 0)),
      ) + this.#elapsedMin,
    ),
  );
  readonly #windows = $derived(windowsByCell(this.hours.data?.cells ?? []));
  #former: StepTimes | null = null;
  readonly #times = $derived.by(() => {
    if (this.hours.data === null) return null;
    const { lanes, nowMin } = this;
    const times = plannedTimes({ lanes, windows: this.#windows, nowMin });
    return (this.#former = keepTimes(this.#former, times));
  });

  constructor() {
    $effect(() => {
      void this.board.data;
      this.#elapsedMin = 0;
      const timer = setInterval(() => (this.#elapsedMin += 1), 60_000);
      return () => clearInterval(timer);
    });
    // A long queue asks for more of the calendar, until its end is in sight.
    $effect(() => {
      const short = this.lanes.some(
        ({ cellId, steps }) =>
          this.windowsAt(cellId).length > 0 &&
          steps.some(({ id }) => this.#times?.get(id)?.finishMin === null),
      );
      if (short && !this.hours.loading)
        untrack(() => (this.#days = Math.min(longestDays, this.#days * 3)));
    });
  }

  /** How many days of the calendars are known. */
  get daysKnown(): number {
    return this.#days;
  }

  windowsAt(cellId: string): readonly WorkingWindow[] {
    return this.#windows.get(cellId) ?? [];
  }

  lossesAt(cellId: string): CellHours['losses'] {
    return this.hours.data?.cells.find((cell) => cell.cellId === cellId)?.losses ?? [];
  }

  /** When a step is planned; undefined until the calendars are known. */
  timeOf(step: Pick<QueuedStep, 'id'>): PlannedTime | undefined {
    return this.#times?.get(step.id);
  }

  /** What the job of a step still lacks; undefined where nothing is open. */
  toClearOf({ jobId }: Pick<QueuedStep, 'jobId'>): OpenOfJob | undefined {
    return this.board.data?.toClear.find((each) => each.jobId === jobId);
  }

  mayMove(step: QueuedStep): boolean {
    return session.may(queue.move) && (step.state === 'waiting' || step.state === 'blocked');
  }

  laneOf(step: QueuedStep): Lane | undefined {
    return this.lanes.find((lane) => lane.steps.some((one) => one.id === step.id));
  }

  /** Whether the step that is being dragged may be dropped into a lane. */
  takes(lane: Lane): boolean {
    return this.dragged !== null && this.laneOf(this.dragged)?.cellKind === lane.cellKind;
  }

  async moveBy(step: QueuedStep, move: Move): Promise<boolean> {
    const place =
      move === 'earlier'
        ? placeEarlier(this.lanes, step.id)
        : move === 'later'
          ? placeLater(this.lanes, step.id)
          : placeBeside(this.lanes, step.id, move);
    if (place !== null) return this.move(step, place);
    this.announcement = m.board_no_place({ job: step.jobNumber });
    return false;
  }

  async drop(): Promise<void> {
    const { dragged, dropPlace } = this;
    this.dragged = null;
    this.dropPlace = null;
    if (dragged !== null && dropPlace !== null) await this.move(dragged, dropPlace);
  }

  /** Shows the move at once and asks the server; a refusal puts the card back and says why. */
  async move(step: QueuedStep, place: Place, reason = ''): Promise<boolean> {
    if (this.act.busy || !this.mayMove(step)) return false;
    if (isSamePlace(this.lanes, step.id, place)) return false;
    this.#pending = { stepId: step.id, place };
    const moved = await this.act.send(queue.move, {
      params: { jobStepId: step.id },
      body: { ...place, expectedVersion: step.version, reason: reason.trim() || null },
    });
    await this.board.reload();
    this.#pending = null;
    this.announcement =
      moved === null ? m.board_not_moved({ job: step.jobNumber }) : this.#placeInWords(step);
    return moved !== null;
  }

  #placeInWords(step: QueuedStep): string {
    const lane = this.laneOf(step);
    const at = lane?.steps.findIndex((one) => one.id === step.id) ?? -1;
    return m.board_moved({
      job: step.jobNumber,
      cell: lane?.cellCode ?? '–',
      place: at + 1,
      count: lane?.steps.length ?? 0,
    });
  }
}
