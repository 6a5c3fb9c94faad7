/** A whole Reseat in a process of its own, to be killed. Takes inbounds from its parent, answers after the commit, and delivers to a file. */
import { randomBytes } from 'node:crypto';
import { appendFileSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import type { Channel } from '#channels/channel.ts';
import type { Inbound } from '#talk/inbound.ts';
import { wiring } from '../support/wiring.ts';

const [database, file] = process.argv.slice(2) as [string, string];

/** The platform: what has been written to the file has been seen by the person. */
const channel: Channel = {
  id: 'fake',
  async send({ row, conversation, address, messages }) {
    const at = Date.now();
    appendFileSync(file, `${JSON.stringify({ row, conversation, chat: address.chat, messages, at })}\n`);
    return { ok: true, ref: String(row), at };
  },
};

let awake = true;
const wired = await wiring({
  database,
  channels: [channel],
  // The file takes a line at once, so a dead process's lanes can be free again soon.
  lease: 500,
  now: () => Date.now(),
  id: () => randomBytes(9).toString('base64url'),
  wake: () => {
    awake = true;
  },
});

process.on('message', (inbound: Inbound) => {
  wired.take(inbound).then(
    turned => process.send?.({ done: inbound.identity, kind: turned.kind }),
    error => process.send?.({ failed: inbound.identity, error: String(error) }),
  );
});
process.on('disconnect', () => process.exit(0));
process.send?.({ ready: true });

for (;;) {
  awake = false;
  // A database that is busy or away for a moment is asked again, as the server does.
  await wired.drain().catch(() => undefined);
  if (!awake) await sleep(15);
}
