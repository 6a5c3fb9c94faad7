/** Does its work again and again: when woken, and at least every so often. Never twice at once. */

export interface Pump {
  wake(): void;
  /** Resolves after a run that began after this was called. */
  pass(): Promise<void>;
  /** Resolves when the run in progress has ended; none begins after it. */
  stop(): Promise<void>;
}

/** @param every milliseconds between the end of one run and the next, unless woken. */
export function pump(work: () => Promise<unknown>, every: number, failed: (error: unknown) => void): Pump {
  let stopped = false;
  let woken = false;
  let timer: NodeJS.Timeout | undefined;
  let running: Promise<void> | null = null;
  let waiting: (() => void)[] = [];

  const run = async () => {
    while (woken && !stopped) {
      woken = false;
      const served = waiting;
      waiting = [];
      try {
        await work();
      } catch (error) {
        failed(error);
      }
      for (const done of served) done();
    }
    running = null;
    if (stopped) {
      for (const done of waiting) done();
      return;
    }
    timer = setTimeout(wake, every);
  };
  const wake = () => {
    woken = true;
    if (stopped || running !== null) return;
    clearTimeout(timer);
    running = run();
  };
  wake();
  return {
    wake,
    pass: () =>
      new Promise(resolve => {
        if (stopped) return resolve();
        waiting.push(resolve);
        wake();
      }),
    async stop() {
      stopped = true;
      clearTimeout(timer);
      await running;
    },
  };
}
