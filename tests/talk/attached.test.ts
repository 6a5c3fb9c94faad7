/** Files come at any time. A drive's reading is an answer where one is asked for; all are on the ticket, without secrets. */
import { describe, expect, test } from 'vitest';
import { accept } from '#reading/accept.ts';
import { rehearse } from '#talk/rehearse.ts';
import { compiled } from '../support/flows.ts';
import { knowingOnly } from '../support/knowledge.ts';
import { nvmePage, QUIET } from '../workings/health-pages.ts';

const { script, problems } = compiled({
  symptom: 'drive-slow',
  title: 'A drive',
  steps: [
    { id: 'room', ask: 'Which room?' },
    { id: 'shown', ask: 'A photo of it?', kind: 'photo', optional: true },
    { id: 'reading', ask: 'Its reading, pasted or attached?', optional: true },
    { id: 'health', work_out: 'health', from: { page: 'reading' }, tells: true },
    { hand_over: {} },
  ],
});
const small = knowingOnly(script);

let sent = 0;
function talkOf() {
  const talk = rehearse(small);
  talk.say('my laptop is very slow, the disk is at 100%');
  const attach = (name: string, bytes: Uint8Array) => {
    const accepted = accept(bytes);
    if (!accepted.ok) throw new Error(accepted.why);
    const { address } = talk.conversation();
    sent += 1;
    const said = talk.take({
      ...{ kind: 'file', identity: `f${sent}`, at: talk.now(), address, name },
      ...{ type: accepted.type, content: accepted.content },
    });
    return said.map(message => ('text' in message ? message.text : '')).join('\n');
  };
  return { talk, attach };
}

describe('an attached reading', () => {
  test('is a well written flow here', () => expect(problems).toEqual([]));

  test('answers the question for it and is judged', () => {
    const { talk, attach } = talkOf();
    talk.say('2.14');
    talk.say('skip');
    const said = attach('log.bin', nvmePage({ ...QUIET, warnings: 4 }));
    expect(said).toContain('it can no longer be relied on');
    expect(talk.ticket()?.ticket.worked).toMatchObject([{ working: 'health', verdict: 'past-its-limit' }]);
    expect(talk.ticket()?.ticket.attachments).toMatchObject([{ name: 'log.bin', type: 'text/plain' }]);
  });

  test('is kept at any other question, which is asked again', () => {
    const { talk, attach } = talkOf();
    for (const answer of ['2.14', 'skip']) {
      const step = talk.question()?.step;
      expect(attach('log.txt', new TextEncoder().encode('{"Wear": 3}'))).toContain(
        'I have kept the file “log.txt”',
      );
      expect(talk.question()?.step).toBe(step);
      talk.say(answer);
    }
    expect(talk.question()?.step).toBe('reading');
  });

  test('loses its secrets before it is kept, and the person is told', () => {
    const { talk, attach } = talkOf();
    const key = '123456-234567-345678-456789-567890-678901-789012-890123';
    expect(attach('notes.txt', new TextEncoder().encode(`my key: ${key}\nthe rest`))).toContain(
      'I have taken out',
    );
    attach(
      `key ${key}.txt`,
      new TextEncoder().encode('{"password": "hunter2!"}\n<Password>hunter2!</Password>'),
    );
    expect(JSON.stringify(talk.conversation())).not.toMatch(/234567|hunter2/);
  });
});
