/** The real command in a process of its own, on a database of its own. */
import { type ChildProcessWithoutNullStreams, spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { knowProven } from './proven.ts';

export interface Line {
  conversation: string;
  says: string[];
  ask: {
    kind: string;
    question: string;
    answers: { id: string; label: string }[];
    always: string[];
  } | null;
  outcome: { how: string; symptom: string | null; fault: string | null; ticket: string | null } | null;
}

export interface Talk {
  /** One line in, one JSON line out. */
  line(text: string): Promise<Line>;
  end(): Promise<number>;
  kill(): Promise<void>;
}

export interface Reseat {
  run(args: string[], input?: string): { status: number; out: string; err: string };
  /** Greets first: `greeting` is that line. */
  talk(name?: string): Promise<Talk & { greeting: Line }>;
  database: string;
  remove(): void;
}

export function reseat(database?: string, flows = 'flows', more: Record<string, string> = {}): Reseat {
  const folder = mkdtempSync(join(tmpdir(), 'reseat-'));
  const where = database ?? join(folder, 'reseat.db');
  if (database === undefined) knowProven(where);
  const env = { ...process.env, RESEAT_DATABASE: where, RESEAT_FLOWS: flows, ...more };
  return {
    database: where,
    run(args, input = '') {
      const done = spawnSync(process.execPath, ['src/main.ts', ...args], { env, input, encoding: 'utf8' });
      return { status: done.status ?? -1, out: done.stdout, err: done.stderr };
    },
    async talk(name) {
      const args = ['src/main.ts', 'chat', '--json', ...(name ? ['--as', name] : [])];
      const child = spawn(process.execPath, args, { env });
      return { ...(await talkWith(child)) };
    },
    remove: () => rmSync(folder, { recursive: true }),
  };
}

async function talkWith(child: ChildProcessWithoutNullStreams): Promise<Talk & { greeting: Line }> {
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  let errors = '';
  child.stderr.on('data', chunk => {
    errors += chunk;
  });
  const exited = new Promise<number>(resolve => child.once('exit', code => resolve(code ?? -1)));
  const next = async (): Promise<Line> => {
    const { value, done } = await lines.next();
    if (done) throw new Error(`the process ended: ${errors}`);
    return JSON.parse(value);
  };
  const greeting = await next();
  return {
    greeting,
    line: text => {
      child.stdin.write(`${text}\n`);
      return next();
    },
    end: () => {
      child.stdin.end();
      return exited;
    },
    kill: async () => {
      child.kill('SIGKILL');
      await exited;
    },
  };
}
