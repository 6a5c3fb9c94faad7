import { expect, test } from 'vitest';
import { type Pump, pump } from '#server/pump.ts';

const never = 1_000_000;
const gate = () => {
  let open = () => {};
  const opened = new Promise<void>(resolve => {
    open = resolve;
  });
  return { open, opened };
};

test('a pass that was asked for during a run is one that begins after it', async () => {
  const gates = [gate(), gate()];
  let runs = 0;
  const work: Pump = pump(
    async () => gates[runs++]?.opened,
    never,
    () => {},
  );
  let passed = false;
  const pass = work.pass().then(() => {
    passed = true;
  });
  gates[0]!.open();
  await new Promise(setImmediate);
  expect([runs, passed]).toEqual([2, false]);
  gates[1]!.open();
  await pass;
  await work.stop();
});

test('woken often while it runs, it runs once more', async () => {
  const first = gate();
  let runs = 0;
  const work = pump(
    async () => {
      runs += 1;
      if (runs === 1) await first.opened;
    },
    never,
    () => {},
  );
  for (let time = 0; time < 5; time++) work.wake();
  first.open();
  await work.stop();
  await new Promise(setImmediate);
  expect(runs).toBeLessThanOrEqual(2);
});

test('a run that fails is told, and the next one comes all the same', async () => {
  const failures: unknown[] = [];
  let runs = 0;
  const work = pump(
    async () => {
      runs += 1;
      throw new Error(`run ${runs}`);
    },
    never,
    error => failures.push(error),
  );
  await work.pass();
  await work.pass();
  await work.stop();
  expect(failures.length).toBe(runs);
  expect(runs).toBeGreaterThanOrEqual(2);
});

test('stopped, it waits for its run, begins none, and keeps nobody waiting', async () => {
  const first = gate();
  let runs = 0;
  let ended = false;
  const work = pump(
    async () => {
      runs += 1;
      await first.opened;
      ended = true;
    },
    never,
    () => {},
  );
  const pass = work.pass();
  const stopped = work.stop();
  first.open();
  await Promise.all([stopped, pass]);
  expect(ended).toBe(true);
  work.wake();
  await work.pass();
  expect(runs).toBe(1);
});
