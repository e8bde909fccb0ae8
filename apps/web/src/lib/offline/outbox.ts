import type { Run } from '@tackboard/contract';
import type { Entry, RefusedAs } from './commands.js';

/** What a tablet knows of its runs: what the server last said, and what was done since. */
export interface Outbox {
  /** In the order in which the buttons were pressed. */
  readonly entries: readonly Entry[];
  /** The last server answer for each run; nothing that still waits in `entries` is in it. */
  readonly runs: Readonly<Record<string, Run>>;
}

export const emptyOutbox: Outbox = { entries: [], runs: {} };

export type OutboxEvent =
  | { readonly type: 'added'; readonly entry: Entry }
  | { readonly type: 'accepted'; readonly key: string; readonly run: Run | null }
  | { readonly type: 'unanswered'; readonly key: string }
  | { readonly type: 'refused'; readonly key: string; readonly as: RefusedAs }
  /** A person sends a refused entry again; a new act to the server, done when it was done. */
  | { readonly type: 'again'; readonly key: string; readonly entry: Entry }
  | { readonly type: 'putAside'; readonly key: string }
  | { readonly type: 'fetched'; readonly run: Run };

/** The next state of the outbox. Pure; a key that is not in the line changes nothing. */
export function reduce(outbox: Outbox, event: OutboxEvent): Outbox {
  switch (event.type) {
    case 'added':
      return outbox.entries.some(({ key }) => key === event.entry.key)
        ? outbox
        : { ...outbox, entries: [...outbox.entries, event.entry] };
    case 'accepted':
      return {
        entries: without(outbox.entries, event.key),
        runs: event.run === null ? outbox.runs : withRun(outbox.runs, event.run),
      };
    case 'unanswered':
      return changed(outbox, event.key, (entry) => ({ ...entry, tries: entry.tries + 1 }));
    case 'refused':
      return changed(outbox, event.key, (entry) => ({ ...entry, refused: event.as }));
    case 'again':
      return { ...outbox, entries: [...without(outbox.entries, event.key), event.entry] };
    case 'putAside':
      return { ...outbox, entries: without(outbox.entries, event.key) };
    case 'fetched':
      return fetched(outbox, event.run);
  }
}

/**
 * While acts of a run wait, a fetched run may or may not hold the one whose answer was lost. Only the answers to
 * the acts themselves tell, so the run as it was known stays until the line is empty.
 */
function fetched(outbox: Outbox, run: Run): Outbox {
  const known = outbox.runs[run.id];
  if (known !== undefined && waitingOf(outbox.entries, run.id).length > 0) return outbox;
  const needed = new Set(outbox.entries.map(({ runId }) => runId));
  const kept = Object.entries(outbox.runs).filter(([id]) => needed.has(id));
  return { ...outbox, runs: { ...Object.fromEntries(kept), [run.id]: newer(known, run) } };
}

function withRun(runs: Outbox['runs'], run: Run): Outbox['runs'] {
  return { ...runs, [run.id]: newer(runs[run.id], run) };
}

function newer(known: Run | undefined, run: Run): Run {
  return known !== undefined && known.version > run.version ? known : run;
}

function without(entries: readonly Entry[], key: string): readonly Entry[] {
  return entries.filter((entry) => entry.key !== key);
}

function changed(outbox: Outbox, key: string, change: (entry: Entry) => Entry): Outbox {
  return {
    ...outbox,
    entries: outbox.entries.map((entry) => (entry.key === key ? change(entry) : entry)),
  };
}

/** Entries that are still to be sent. */
export function waiting(entries: readonly Entry[]): readonly Entry[] {
  return entries.filter(({ refused }) => refused === null);
}

export function waitingOf(entries: readonly Entry[], runId: string): readonly Entry[] {
  return waiting(entries).filter((entry) => entry.runId === runId);
}

export function refusedOnes(entries: readonly Entry[]): readonly Entry[] {
  return entries.filter(({ refused }) => refused !== null);
}

/**
 * The entry to send now: the first one of the person who is signed in. One person's acts do not wait for another
 * person to come back, unless both worked on the same run: there the order is kept.
 */
export function nextToSend(entries: readonly Entry[], personId: string | null): Entry | null {
  const heldUp = new Set<string>();
  for (const entry of waiting(entries)) {
    if (entry.personId === personId && !heldUp.has(entry.runId)) return entry;
    heldUp.add(entry.runId);
  }
  return null;
}

/** The run as the welder knows it: the server's last answer and, on top, every act that waits. Pure. */
export function shownRun(outbox: Outbox, runId: string): Run | null {
  const run = outbox.runs[runId];
  return run === undefined ? null : waitingOf(outbox.entries, runId).reduce(withAct, run);
}

function withAct(run: Run, entry: Entry): Run {
  switch (entry.kind) {
    case 'start': {
      const { differences = [] } = entry.body;
      const said = { at: entry.happenedAt, personCode: entry.personCode };
      return { ...run, start: { ...said, differences: [...differences] } };
    }
    case 'count': {
      const { good = 0, rework = 0, scrap = 0 } = entry.body;
      return {
        ...run,
        stepGoodCount: run.stepGoodCount + good,
        goodCount: run.goodCount + good,
        reworkCount: run.reworkCount + rework,
        scrapCount: run.scrapCount + scrap,
      };
    }
    case 'stop':
      return { ...run, stops: [...run.stops, stopFrom(entry)] };
    case 'resume':
      return {
        ...run,
        stops: run.stops.map((stop) => ({ ...stop, endedAt: stop.endedAt ?? entry.happenedAt })),
      };
    case 'reading':
      return { ...run, readings: [...run.readings, readingFrom(entry)] };
    case 'photo':
    case 'photoOf':
      return run;
    case 'note': {
      const { text } = entry.body;
      return {
        ...run,
        handOverNote: run.handOverNote === null ? text : `${run.handOverNote}\n${text}`,
      };
    }
  }
}

type EntryOf<Kind extends Entry['kind']> = Extract<Entry, { readonly kind: Kind }>;

function stopFrom({ key, body, happenedAt }: EntryOf<'stop'>): Run['stops'][number] {
  const { cause, note = '' } = body;
  return { id: key, version: 1, cause, note, startedAt: happenedAt, endedAt: null };
}

/** Whether a reading lies inside the procedure is for the server to say. */
function readingFrom(entry: EntryOf<'reading'>): Run['readings'][number] {
  const { body, key, happenedAt, personCode } = entry;
  return {
    id: key,
    at: happenedAt,
    happenedAt,
    weldNumber: body.weldNumber ?? null,
    currentA: body.currentA ?? null,
    voltageV: body.voltageV ?? null,
    wireSpeedMMin: body.wireSpeedMMin ?? null,
    travelMmMin: body.travelMmMin ?? null,
    preheatC: body.preheatC ?? null,
    interpassC: body.interpassC ?? null,
    instrument: body.instrument ?? null,
    place: body.place ?? null,
    result: 'cannotSay',
    personCode,
  };
}
