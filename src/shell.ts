/** What surrounds a command: the terminal, the environment, the clock. What only some commands need is loaded when one asks for it. */
import { userInfo } from 'node:os';
import { run } from './cli.ts';
import type { Shell, Wired } from './commands/wired.ts';

const config = async () => (await import('./config.ts')).readConfig(process.env);

let wired: Promise<Wired> | undefined;
const shell: Shell = {
  input: process.stdin,
  output: process.stdout,
  errors: process.stderr,
  user: userInfo().username,
  colour: process.stdout.isTTY === true && process.env.NO_COLOR === undefined,
  wire: starts => {
    wired ??= import('./wiring.ts').then(({ wire }) => wire(starts));
    return wired;
  },
  config,
  stopped: () =>
    new Promise(resolve => {
      for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
    }),
  onReload: listener => {
    // Windows has no such signal; there a restart reads the flows anew.
    if (process.platform !== 'win32') process.on('SIGUSR2', listener);
  },
  load: async () => {
    const { loadKept } = await import('#library/kept.ts');
    return loadKept((await config()).flows);
  },
  now: () => Date.now(),
  exit: status => {
    process.exitCode = status;
  },
};

// Whoever reads may stop reading, as in `reseat tickets | head`; that is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit();
  throw error;
});

await run(shell, process.argv);
