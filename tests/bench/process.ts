/** Time from nothing to the first question, and the memory of a process that has held a conversation. */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { median, say } from './figures.ts';

export async function start(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'reseat-bench-'));
  const env = { ...process.env, RESEAT_DATABASE: join(folder, 'reseat.db') };
  const node = [];
  const ours = [];
  for (let round = 0; round < 5; round++) {
    const before = performance.now();
    spawnSync(process.execPath, ['-e', '0']);
    node.push(performance.now() - before);
    ours.push(await greeted(env));
  }
  say(
    'start to the first question',
    `${Math.round(median(ours))} ms, of which an empty process ${Math.round(median(node))} ms`,
  );
  say('memory after a conversation', `${await memory(env)} MB resident`);
  rmSync(folder, { recursive: true });
}

function chat(env: NodeJS.ProcessEnv) {
  return spawn(process.execPath, ['src/main.ts', 'chat', '--json'], {
    env,
    stdio: ['pipe', 'pipe', 'inherit'],
  });
}

async function greeted(env: NodeJS.ProcessEnv): Promise<number> {
  const started = performance.now();
  const child = chat(env);
  await new Promise(resolve => child.stdout.once('data', resolve));
  const taken = performance.now() - started;
  child.stdin.end();
  await new Promise(resolve => child.once('exit', resolve));
  return taken;
}

async function memory(env: NodeJS.ProcessEnv): Promise<number> {
  const child = chat(env);
  for (const line of ['no bootable device found', 'no', 'no', 'no']) {
    await new Promise(resolve => {
      child.stdout.once('data', resolve);
      child.stdin.write(`${line}\n`);
    });
  }
  const kilobytes = /VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'))?.[1];
  child.stdin.end();
  await new Promise(resolve => child.once('exit', resolve));
  return Math.round(Number(kilobytes) / 1024);
}
