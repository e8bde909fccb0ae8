/** A tablet stays on one page for weeks: somebody has to ask whether there is a newer app. */
const askEveryMs = 30 * 60_000;

/** The app as this browser keeps it. */
class Shell {
  /** Whether this browser keeps the app; it does so over https and on the server's own machine only. */
  readonly keeps = 'serviceWorker' in navigator;
  /** True when a newer app has taken over and this page still runs the one before. */
  newer = $state(false);

  /** Follows the kept app. Returns the way to stop. */
  start(): () => void {
    if (!this.keeps) return () => undefined;
    const { serviceWorker } = navigator;
    let former = serviceWorker.controller;
    const change = () => {
      // The first one takes over the page that brought it: the same app.
      if (former !== null) this.newer = true;
      former = serviceWorker.controller;
    };
    const ask = () => {
      // Without network the next time will do.
      void serviceWorker.ready.then(async (kept) => kept.update()).catch(() => undefined);
    };
    serviceWorker.addEventListener('controllerchange', change);
    addEventListener('online', ask);
    const timer = setInterval(ask, askEveryMs);
    return () => {
      serviceWorker.removeEventListener('controllerchange', change);
      removeEventListener('online', ask);
      clearInterval(timer);
    };
  }

  load(): void {
    location.reload();
  }
}

export const shell = new Shell();
