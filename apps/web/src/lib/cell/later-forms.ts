import { LaterForm } from './later-form.js';
import { laterParts } from './later-parts.js';

/** What a tap at the cell opens: kept out of the script that the screen begins with. */
export const laterForms = {
  cardJoints: new LaterForm(async () => import('./card-joints.svelte')),
  firstPiece: new LaterForm(async () => import('./first-piece-form.svelte')),
  gearPhotos: new LaterForm(async () => import('./gear-photos.svelte')),
  handOver: new LaterForm(async () => import('./hand-over.svelte')),
  load: new LaterForm(async () => import('./load-form.svelte')),
  ncr: new LaterForm(async () => import('./ncr-form.svelte')),
  note: new LaterForm(async () => import('./note-form.svelte')),
  program: new LaterForm(async () => import('./program-form.svelte')),
  putDown: new LaterForm(async () => import('./put-down.svelte')),
  reading: new LaterForm(async () => import('./reading-form.svelte')),
  setting: new LaterForm(async () => import('./setting-form.svelte')),
  start: new LaterForm(async () => import('./start-form.svelte')),
  stop: new LaterForm(async () => import('./stop-form.svelte')),
  takeOff: new LaterForm(async () => import('./take-off-form.svelte')),
  whoActs: new LaterForm(async () => import('./who-acts.svelte')),
};

/** Fetches them all once the queue is on the glass, so that each opens at once, and without network as well. */
export async function fetchAhead(): Promise<void> {
  // What does not come now is asked for again at the tap.
  const all = [...Object.values(laterForms), ...Object.values(laterParts)];
  await Promise.allSettled(all.map(async (form) => form.fetch()));
}
