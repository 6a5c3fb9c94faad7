/** `reseat serve` in a process of its own, on a database and a port that stay the same when it is started again. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { knowProven } from './proven.ts';

export interface Serving {
  base: string;
  database: string;
  /** Everything it wrote, since the first start. */
  output(): string;
  start(): Promise<void>;
  /** Asks it to read the flows anew, and waits until it has said how that went. */
  reload(): Promise<void>;
  /** Resolves with the exit status. */
  stop(signal?: 'SIGTERM' | 'SIGKILL'): Promise<number | null>;
  remove(): Promise<void>;
}

export async function serving(settings: Record<string, string> = {}): Promise<Serving> {
  const folder = mkdtempSync(join(tmpdir(), 'reseat-web-'));
  const port = await freePort();
  const database = join(folder, 'reseat.db');
  knowProven(database);
  const env = { ...process.env, RESEAT_DATABASE: database, PORT: String(port), ...settings };
  let child: ChildProcess | null = null;
  let output = '';
  const stop: Serving['stop'] = async (signal = 'SIGTERM') => {
    if (child === null) return null;
    const leaving = child;
    child = null;
    const ended = once(leaving, 'exit');
    leaving.kill(signal);
    return (await ended)[0];
  };
  return {
    base: `http://127.0.0.1:${port}`,
    database,
    output: () => output,
    stop,
    async start() {
      const started = spawn(process.execPath, ['src/main.ts', 'serve'], {
        env,
        stdio: ['ignore', 'pipe', 'pipe'],
      });
      child = started;
      await new Promise<void>((resolve, reject) => {
        const hear = (chunk: Buffer) => {
          output += chunk;
          if (String(chunk).includes('Reseat is ready')) resolve();
        };
        started.stdout.on('data', hear);
        started.stderr.on('data', hear);
        started.once('exit', status => reject(new Error(`it ended with ${status}: ${output}`)));
      });
    },
    async reload() {
      const since = output.length;
      child?.kill('SIGUSR2');
      while (!/"flows-(reloaded|refused)"/.test(output.slice(since))) await sleep(20);
    },
    async remove() {
      await stop();
      rmSync(folder, { recursive: true });
    },
  };
}

/** Free a moment ago, which is the best one can know. */
async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  server.close();
  await once(server, 'close');
  if (address === null || typeof address === 'string') throw new Error('no port');
  return address.port;
}
