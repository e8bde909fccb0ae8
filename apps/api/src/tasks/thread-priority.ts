import { readlinkSync } from 'node:fs';
import os from 'node:os';

/**
 * Lets this thread give way to all others of the service, so that nobody waits for a search. Linux keeps a priority
 * for each thread and names the calling one in /proc; elsewhere the thread runs as it is.
 */
export function giveWay(): void {
  const thread = threadId();
  if (thread === null) return;
  try {
    os.setPriority(thread, os.constants.priority.PRIORITY_BELOW_NORMAL);
  } catch {
    // Not allowed here: the search is then as quick as everything else.
  }
}

function threadId(): number | null {
  try {
    const [, id] = /\/task\/(\d+)$/.exec(readlinkSync('/proc/thread-self')) ?? [];
    return id === undefined ? null : Number(id);
  } catch {
    return null;
  }
}
