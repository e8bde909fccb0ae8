/** Fetches what a tap opens once the queue is on the glass, so that it opens without network as well. */
export async function fetchAhead(): Promise<void> {
  const wanted = [
    import('./start-form.svelte'),
    import('./stop-form.svelte'),
    import('./reading-form.svelte'),
    import('./note-form.svelte'),
    import('./who-acts.svelte'),
    import('./first-piece-form.svelte'),
    import('./ncr-form.svelte'),
    import('./put-down.svelte'),
    import('./hand-over.svelte'),
    import('./setting-form.svelte'),
    import('./program-form.svelte'),
    import('./close-out-form.svelte'),
    import('./load-form.svelte'),
    import('./take-off-form.svelte'),
    import('./card-joints.svelte'),
    import('./cell-photos.svelte'),
    import('./gear-photos.svelte'),
  ];
  // What does not come now is asked for again at the tap.
  await Promise.allSettled(wanted);
}
