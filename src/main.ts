#!/usr/bin/env node
/** Wires everything; the only file that does. Time, randomness and the environment enter here and nowhere else. */
import { randomBytes } from 'node:crypto';
import { userInfo } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';
import { check } from '#engine/check/check.ts';
import { type Library, loadLibrary, mistakeText } from '#library/load.ts';
import { openStore } from '#store/open.ts';
import type { Inbound } from '#talk/inbound.ts';
import { type Turning, turn } from '#talk/turn.ts';
import { run } from './cli.ts';
import type { Shell, Wired } from './commands/wired.ts';
import { readConfig } from './config.ts';
import { UserError } from './errors.ts';
import { gather } from './gather.ts';

const now = () => Date.now();
const id = () => randomBytes(9).toString('base64url');

/** `starts`: conversations go on from here, so the flows are proven and what no longer passes is handed over. */
async function wire(starts: boolean): Promise<Wired> {
  const config = readConfig(process.env);
  const library = read(config.flows, starts);
  const store = await openStore(config.database);
  const { nudgeAfter, leftAfter } = config;
  const gathering = await gather(library, store, { nudgeAfter, leftAfter }, now);
  const listeners: (() => void)[] = [];
  const turning: Turning = {
    store,
    knowledge: gathering.knowledge,
    now,
    id,
    wake: () => {
      for (const listener of listeners) listener();
    },
    sleep: milliseconds => sleep(milliseconds),
  };
  const take = (inbound: Inbound) => turn(turning, inbound);
  if (starts) await gathering.retire(take);
  const owner = `${process.pid}-${id()}`;
  return {
    config,
    store,
    turning,
    knowledge: gathering.knowledge,
    take,
    delivering: (channels, lanes) => ({ store, channels, lanes, take, now, owner, log }),
    onCommit: listener => listeners.push(listener),
    refresh: gathering.refresh,
    log,
    now,
    id,
    close: () => store.close(),
  };
}

/** Today's flows, or one message about what is wrong with them: a broken flow is refused at start. */
function read(folder: string, prove: boolean): Library {
  const { library, mistakes, place } = loadLibrary(folder);
  if (library === null || mistakes.length > 0) {
    throw new UserError(
      `The flows have mistakes, so nothing was started:\n${mistakes.map(mistakeText).join('\n')}`,
    );
  }
  if (!prove) return library;
  const compiled = Object.values(library.flows).map(flow => flow.compiled);
  const report = check(compiled, library.catalogue);
  const [broken] = report.broken;
  if (broken !== undefined) {
    const { file, line } = place(broken);
    throw new UserError(
      `The flows are not safe, so nothing was started: ${file}:${line}: ${broken.message}. See: reseat check`,
    );
  }
  for (const { flow, longest } of report.each) library.flows[flow]!.longest = longest;
  return library;
}

function log(event: string, details: Record<string, unknown>): void {
  process.stderr.write(`${JSON.stringify({ at: new Date(now()).toISOString(), event, ...details })}\n`);
}

let wired: Promise<Wired> | undefined;
const shell: Shell = {
  input: process.stdin,
  output: process.stdout,
  errors: process.stderr,
  user: userInfo().username,
  colour: process.stdout.isTTY === true && process.env.NO_COLOR === undefined,
  wire: starts => {
    wired ??= wire(starts);
    return wired;
  },
  config: () => readConfig(process.env),
  stopped: () =>
    new Promise(resolve => {
      for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
    }),
  load: () => loadLibrary(readConfig(process.env).flows),
  now,
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
