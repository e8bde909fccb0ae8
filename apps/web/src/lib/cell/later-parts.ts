import { LaterForm } from './later-form.js';

/** What the forms of the cell fetch in their turn. */
export const laterParts = {
  cellPhotos: new LaterForm(async () => import('./cell-photos.svelte')),
  closeOut: new LaterForm(async () => import('./close-out-form.svelte')),
};
