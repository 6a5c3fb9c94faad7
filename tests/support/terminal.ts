/** The command line in this process, on a folder of flows of one's own: what it prints, and how it ends. */
import { PassThrough, Writable } from 'node:stream';
import { loadLibrary } from '#library/load.ts';
import { run } from '../../src/cli.ts';
import type { Shell } from '../../src/commands/wired.ts';
import { readConfig } from '../../src/config.ts';

export interface Printed {
  out: string;
  errors: string;
  status: number;
}

/** `flows` is the folder. Only commands that need no database. */
export async function reseatOn(flows: string, ...args: string[]): Promise<Printed> {
  const printed: Printed = { out: '', errors: '', status: 0 };
  const into = (part: 'out' | 'errors') =>
    new Writable({
      write: (chunk, _, done) => {
        printed[part] += chunk;
        done();
      },
    });
  const shell: Shell = {
    input: new PassThrough(),
    output: into('out'),
    errors: into('errors'),
    user: 'ada',
    colour: false,
    wire: () => Promise.reject(new Error('this needs a database')),
    config: async () => readConfig({ RESEAT_FLOWS: flows }),
    stopped: () => Promise.resolve(),
    onReload: () => {},
    load: async () => loadLibrary(flows),
    now: () => 0,
    exit: status => {
      printed.status = status;
    },
  };
  await run(shell, ['node', 'reseat', ...args]);
  return printed;
}
