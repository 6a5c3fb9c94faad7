import { describe, expect, test } from 'vitest';
import { threadOf } from '#channels/web/thread.ts';
import type { Message } from '#engine/messages.ts';
import type { SentRow } from '#store/store.ts';
import { flowFor } from '#talk/knowledge.ts';
import { rehearse } from '#talk/rehearse.ts';
import { knowledge } from '../../support/knowledge.ts';

/** A chat through the real decisions, and the thread that a page makes of it. */
function chat() {
  const talk = rehearse(knowledge, 1000);
  const sent: SentRow[] = [];
  const keep = (messages: Message[]) => {
    const conversation = talk.conversation().id;
    sent.push({ id: sent.length + 1, conversation, messages, question: null, at: talk.now() });
  };
  const thread = () => {
    const conversation = talk.conversation();
    const script = flowFor(knowledge, conversation.symptom)?.script ?? null;
    return threadOf({ conversations: [conversation], sent, script });
  };
  let count = 0;
  const does = (
    what: { kind: 'always'; what: 'back' | 'again' | 'person'; to?: number } | { kind: 'file' },
  ) => {
    talk.wait(1000);
    count += 1;
    const base = { identity: `x${count}`, at: talk.now(), address: talk.conversation().address };
    const file = { name: 'screen.png', type: 'image/png', content: new Uint8Array(3) };
    keep(talk.take(what.kind === 'file' ? { ...base, ...file, kind: 'file' } : { ...base, ...what }));
  };
  return {
    talk,
    say(text: string) {
      talk.wait(1000);
      keep(talk.say(text));
    },
    press(answer: string) {
      talk.wait(1000);
      keep(talk.press(answer));
    },
    does,
    thread,
    /** Both sides as one reads them. */
    lines() {
      return thread().matters.flatMap(({ items }) =>
        items.map(item => {
          if (item.by === 'bot') return item.message.kind;
          const { said } = item;
          return said.kind === 'words'
            ? `> ${said.words}${said.takenBack ? ' (taken back)' : ''}`
            : `> [${said.kind}]`;
        }),
      );
    },
  };
}

describe('a chat as its page shows it', () => {
  test('nothing said yet is nothing shown', () => {
    expect(threadOf({ conversations: [], sent: [], script: null })).toMatchObject({
      matters: [],
      open: null,
      newest: 0,
    });
  });

  test("the person's words stand before the answer to them, in their own words", () => {
    const { say, press, lines, thread, talk } = chat();
    say('my PC makes a CLICKING noise!!');
    const first = talk.question()!;
    press(first.answers.at(-1)!.id);
    const words = lines().filter(line => line.startsWith('>'));
    expect(words).toEqual(['> my PC makes a CLICKING noise!!', `> ${first.answers.at(-1)!.label}`]);
    expect(lines()[0]).toBe(words[0]);
    expect(thread().open?.question.number).toBe(talk.question()!.number);
    expect(thread().open?.answered).toBe(thread().answers.length);
  });

  test('an answer can be changed, and one is told what that takes back', () => {
    const { say, press, thread, talk } = chat();
    say('my pc makes a clicking noise');
    const labels = [1, 2, 3].map(() => {
      const { id, label } = talk.question()!.answers.at(-1)!;
      press(id);
      return label;
    });
    const changes = thread().matters[0]!.items.flatMap(item =>
      item.by === 'person' && item.change ? [item.change] : [],
    );
    expect(changes.map(change => change.undoes.slice(-1))).toEqual([
      labels.slice(-1),
      labels.slice(-1),
      labels.slice(-1),
    ]);
    expect(changes[1]!.undoes).toEqual(labels.slice(1));
    expect(changes[2]!.undoes).toEqual(labels.slice(2));
  });

  test('what was taken back stays to be read, marked as such, and can be changed no more', () => {
    const { say, press, does, lines, thread, talk } = chat();
    say('my pc makes a clicking noise');
    const before = talk.question()!;
    press(before.answers[0]!.id);
    does({ kind: 'always', what: 'back' });
    expect(lines()).toContain(`> ${before.answers[0]!.label} (taken back)`);
    expect(lines()).toContain('> [standing]');
    expect(thread().open?.question.step).toBe(before.step);
    const taken = thread().matters[0]!.items.filter(item => item.by === 'person' && item.change !== null);
    expect(taken).toEqual([]);
  });

  test('starting again marks everything said so far', () => {
    const { say, does, lines } = chat();
    say('my pc makes a clicking noise');
    does({ kind: 'always', what: 'again' });
    say('no boot device found');
    expect(lines().filter(line => line.startsWith('>'))).toEqual([
      '> my pc makes a clicking noise (taken back)',
      '> [standing]',
      '> no boot device found',
    ]);
  });

  test('words that were not understood are shown, once', () => {
    const { say, lines } = chat();
    say('my pc makes a clicking noise');
    say('lorem ipsum qwertz');
    expect(lines().filter(line => line.includes('lorem'))).toEqual(['> lorem ipsum qwertz']);
  });

  test('an opening in two messages is shown as it was written, not twice', () => {
    const { say, lines } = chat();
    say('hello, I need some help please');
    say('my pc makes a clicking noise');
    expect(lines().filter(line => line.startsWith('>'))).toEqual([
      '> hello, I need some help please',
      '> my pc makes a clicking noise',
    ]);
  });

  test('a picture stands where it was sent', () => {
    const { say, does, lines } = chat();
    say('my pc makes a clicking noise');
    does({ kind: 'file' });
    expect(
      lines()
        .filter(line => line.startsWith('>'))
        .at(-1),
    ).toBe('> [picture]');
  });

  test('after the hand-over nothing is asked and nothing can be changed; the card is at hand', () => {
    const { say, does, thread } = chat();
    say('my pc makes a clicking noise');
    does({ kind: 'always', what: 'person' });
    expect(thread()).toMatchObject({ open: null, handOver: { kind: 'hand-over' }, waiting: false });
    expect(thread().answers.every(answer => answer.change === null)).toBe(true);
  });

  test('while the reply is on its way the page knows that it must wait', () => {
    const { say, talk, thread } = chat();
    say('my pc makes a clicking noise');
    const { sent, ...shown } = { sent: [], conversations: [talk.conversation()], script: null };
    expect(threadOf({ ...shown, sent }).waiting).toBe(true);
    expect(thread().waiting).toBe(false);
  });
});
