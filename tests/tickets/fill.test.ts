import { describe, expect, it } from 'vitest';
import { FIELD_TABLE, FIELDS } from '#engine/fields.ts';
import { fold } from '#engine/fold.ts';
import { ticket as shape } from '#tickets/schema.ts';
import { anyScript, catalogue, extend, opening, START, script, talk, ticketOf, whole } from './sample.ts';

const MINUTE = 60_000;

describe('a ticket after every question was answered', () => {
  const ticket = ticketOf(whole());

  it('fits its own schema, number and reference alike', () => {
    expect(shape.parse(ticket)).toEqual(ticket);
    expect(ticket).toMatchObject({ number: 1001, reference: 'R-1001', format: 1 });
  });

  it('gives the answer as one reads it, its id, and the person’s own words', () => {
    expect(ticket.fields['place.site']).toEqual({
      state: 'known',
      value: 'Quay House',
      answer: 'quay',
      words: 'quay',
    });
  });

  it('words an answer for a field where the flow says how', () => {
    const worded = structuredClone(script);
    const tag = worded.main.find(step => step.kind === 'ask' && step.fills.includes('device.tag'))!;
    Object.assign(tag, { records: { 'device.tag': 'read off its label: {answer}' } });
    const entries = talk(
      ['which', 'clicking'],
      ['site', 'quay'],
      ['room', { text: '1' }],
      ['holder', { text: 'me' }],
      ['tag', { text: 'QH-7 $&' }],
    );
    expect(ticketOf(entries, { script: worded }).fields['device.tag']).toMatchObject({
      state: 'known',
      value: 'read off its label: QH-7 $&',
      words: 'QH-7 $&',
    });
  });

  it('joins two answers that fill one field', () => {
    expect(ticket.fields['place.room']).toMatchObject({ value: 'room 12; on my desk', answer: null });
  });

  it('takes the later of two answers to the same thing: it was on, and now it is off', () => {
    const entries = talk(
      ['which', 'clicking'],
      ['site', 'quay'],
      ['room', { text: '1' }],
      ['holder', { text: 'me' }],
      ['tag', { skipped: true }],
      ['running', 'on'],
      ['off-now', 'done'],
    );
    expect(ticketOf(entries).fields['power.now']).toMatchObject({ value: 'It is off now', answer: 'done' });
  });

  it('says what the person did not know, by skipping or by not being sure', () => {
    expect(ticket.fields['device.tag']).toEqual({ state: 'unknown' });
    expect(ticket.fields['data.copy']).toEqual({ state: 'unknown' });
  });

  it('marks what the case did not need, and never a field that is always asked', () => {
    expect(ticket.fields['drive.serial']).toEqual({ state: 'not-needed' });
    for (const field of FIELDS.filter(each => FIELD_TABLE[each].always)) {
      expect(ticket.fields[field].state).not.toBe('not-needed');
    }
  });

  it('keeps a clicking drive off and tells when it was handed over and how', () => {
    expect(ticket).toMatchObject({
      keep: 'off',
      signs: ['mechanical'],
      isHardware: 'yes',
      handedOverAt: START + 7 * MINUTE,
      endedAs: 'escalated',
      endedBecause: 'script',
      endedWith: 'It needs a technician.',
      flow: { symptom: 'drive-noise', hash: 'hash-1' },
    });
  });

  it('carries the cautions that were given, with their words', () => {
    expect(ticket.cautions).toEqual([{ id: 'power-off', text: 'Power it off **once**.' }]);
  });

  it('lists questions and answers in order', () => {
    expect(ticket.answers.map(({ step }) => step)).toEqual([
      'which',
      'site',
      'room',
      'holder',
      'tag',
      'running',
      'copy',
    ]);
    expect(ticket.answers[0]).toEqual({
      step: 'which',
      question: 'Which **noise** is it?',
      answer: 'Regular clicking',
      id: 'clicking',
      words: 'clicking',
      at: START + MINUTE,
      withdrawn: false,
    });
  });
});

describe('why something was not asked', () => {
  const always = (what: 'person' | 'stop') => ({ kind: 'always', what, words: what }) as const;
  it.each([
    ['asked-for-a-person', [always('person')]],
    ['stopped', [always('stop')]],
    ['left', [{ kind: 'timer', what: 'left' }]],
    ['withdrawn', [{ kind: 'script-withdrawn' }]],
    [
      'danger',
      [{ kind: 'interrupt', interrupt: 'smoke', sure: true, words: 'smoke!' }, ['smoke!now', 'yes']],
    ],
    ['sign', [['which', 'clicking']]],
  ] as const)('%s: said for every field that has no answer', (why, said) => {
    const ticket = ticketOf(talk(...said));
    for (const field of FIELDS) expect(ticket.fields[field]).toEqual({ state: 'not-asked', why });
  });

  it('an attack, which ends the questions too', () => {
    const entries = talk(always('person'));
    const { state } = fold(script, entries);
    const findings = { ...state.findings, attack: 'yes' };
    const { fields } = ticketOf(entries, { state: { ...state, findings, signs: ['attack'] } });
    expect(fields['place.site']).toEqual({ state: 'not-asked', why: 'attack' });
  });

  it('a flow that hands over without asking what is always asked is one that broke off', () => {
    const { fields } = ticketOf([opening()], { script: anyScript });
    expect(fields['place.site']).toEqual({ state: 'not-asked', why: 'withdrawn' });
    expect(fields['drive.serial']).toEqual({ state: 'not-needed' });
  });
});

describe('nothing a person said is lost', () => {
  it('an answer heard in the opening fills its field although its question never came', () => {
    const waiting = { running: { answer: 'off', words: 'it is off' } };
    const entries = extend([opening({ waiting })], { kind: 'always', what: 'person', words: 'person' });
    expect(ticketOf(entries).fields['power.now']).toEqual({
      state: 'known',
      value: 'Off',
      answer: 'off',
      words: 'it is off',
    });
  });

  it('an answer taken from the opening stands among the others, where it came up', () => {
    const waiting = { site: { answer: 'quay', words: 'at Quay House' } };
    const { answers } = ticketOf(
      extend([opening({ waiting })], ['which', 'rattling'], ['room', { text: '9' }]),
    );
    expect(answers.map(({ step, words, at }) => [step, words, at])).toEqual([
      ['which', 'rattling', START + MINUTE],
      ['site', 'at Quay House', START + MINUTE],
      ['room', '9', START + 2 * MINUTE],
    ]);
  });

  it('the message on the screen is a field too', () => {
    const screen = { id: 'no-boot-device', verbatim: 'No bootable device' };
    const ticket = ticketOf([opening({ screen })]);
    expect(ticket.screen).toEqual(screen);
    expect(ticket.fields.message).toMatchObject({ state: 'known', value: 'No bootable device' });
  });

  it('an answer that was taken back stays, marked, and does not count', () => {
    const entries = talk(['which', 'clicking'], { kind: 'back', to: 1, why: 'asked' }, ['which', 'rattling']);
    const ticket = ticketOf(entries);
    expect(ticket.answers.map(({ id, withdrawn }) => [id, withdrawn])).toEqual([
      ['clicking', true],
      ['rattling', false],
    ]);
    expect(ticket.signs).toEqual([]);
  });

  it('words that were sent in two parts and heard again together are not called taken back', () => {
    const entries = talk(['which', 'rattling'], { kind: 'back', to: 1, why: 'joined' }, [
      'which',
      'clicking',
    ]);
    expect(ticketOf(entries).answers.map(({ id, withdrawn }) => [id, withdrawn])).toEqual([
      ['clicking', false],
    ]);
  });

  it('what was not understood, said in between or added later is there word for word', () => {
    const { answers } = ticketOf(
      talk(
        { kind: 'missed', words: 'blorp' },
        { kind: 'interrupt', interrupt: 'smoke', sure: false, words: 'a bit of smoke?' },
        ['@doubt', 'no'],
        { kind: 'note', words: 'by the way, it is blue' },
      ),
    );
    expect(answers.map(({ step, question, words }) => [step, question, words])).toEqual([
      ['@missed', 'Said, and not understood', 'blorp'],
      ['@interrupt', 'Said in between', 'a bit of smoke?'],
      ['@doubt', 'Do you see smoke?', 'no'],
      ['@note', 'Added afterwards', 'by the way, it is blue'],
    ]);
  });

  it('the desk’s question stands with its answer, also when the first answer was taken back', () => {
    const ask = {
      kind: 'desk-ask',
      ask: 'a1',
      ticket: 1001,
      conversation: 'c1',
      by: 'Bo',
      text: 'Which colour?',
    } as const;
    const entries = talk(ask, ['@desk', { text: 'blue' }]);
    const { answers } = ticketOf(
      extend(entries, { kind: 'back', to: 2, why: 'asked' }, ['@desk', { text: 'green' }]),
    );
    expect(answers.map(({ question, answer, withdrawn }) => [question, answer, withdrawn])).toEqual([
      ['The desk asked: Which colour?', 'blue', true],
      ['The desk asked: Which colour?', 'green', false],
    ]);
  });

  it('a picture is listed as an attachment, whether or not it was asked for', () => {
    const picture = {
      kind: 'attached',
      id: 'file-7',
      name: 'light.jpg',
      type: 'image/jpeg',
      bytes: 9,
    } as const;
    const { attachments } = ticketOf(extend(whole(), picture));
    expect(attachments).toEqual([{ id: 'file-7', name: 'light.jpg', type: 'image/jpeg', bytes: 9 }]);
  });
});

describe('while questions are still being asked', () => {
  it('the ticket of an early sign has no end yet', () => {
    expect(ticketOf(talk(['which', 'clicking']))).toMatchObject({
      handedOverAt: null,
      endedAs: null,
      endedBecause: null,
    });
  });

  it('a note or the desk’s question after the hand-over does not move the time of the hand-over', () => {
    const entries = extend(whole(), { kind: 'note', words: 'still waiting' });
    expect(ticketOf(entries).handedOverAt).toBe(START + 7 * MINUTE);
  });
});

describe('what to do with the power until somebody comes', () => {
  const { state } = fold(script, whole());
  const keep = (change: Partial<typeof state>) =>
    ticketOf(whole(), { state: { ...state, signs: [], findings: {}, ...change } }).keep;
  const handedOver = (word: 'on' | 'off') => ({ ...state.outcome!, keep: word });

  it('danger and clicking outrank the flow: off', () => {
    expect(keep({ signs: ['danger'], outcome: handedOver('on') })).toBe('off');
    expect(keep({ signs: ['mechanical'], outcome: handedOver('on') })).toBe('off');
  });
  it('then the flow’s own word', () => {
    expect(keep({ signs: ['attack'], outcome: handedOver('off') })).toBe('off');
  });
  it('an attack: on', () => expect(keep({ signs: ['attack'] })).toBe('on'));
  it('an array in alarm: as it is', () => expect(keep({ symptom: 'raid-alarm' })).toBe('as-it-is'));
  it('a quiet drive that warns stays on while it is on', () => {
    expect(keep({ signs: ['hardware-failure'], findings: { power: 'on' } })).toBe('on');
  });
  it('one that is off stays off', () => {
    expect(keep({ signs: ['suspect'], findings: { power: 'off' } })).toBe('off');
  });
  it('one of which nobody knows is left as it is', () => {
    expect(keep({ signs: ['suspect'], findings: { power: 'not-sure' } })).toBe('as-it-is');
  });
  it('nothing is asked where nothing is at stake', () => expect(keep({})).toBeNull());
});

describe('what the report is about', () => {
  const about = (words: string, symptom = 'share-missing') => {
    const entries = [opening({ words, symptom })];
    return ticketOf(entries, { script: anyScript }).why;
  };
  it.each([
    'my S: is gone',
    'the S drive is not there',
    'cannot open \\\\files\\accounts',
    'FILES/ACCOUNTS: //files/accounts is gone',
  ])('a shared place is critical on its first report: %s', words =>
    expect(about(words)).toContain('the accounts folder'),
  );
  it.each(["it's: gone", 'https://intranet is slow', 'my T: is gone', 'yes: s'])('not named: %s', words =>
    expect(about(words)).not.toContain('accounts'),
  );
  it('one lost file on it is about the file', () => {
    expect(about('I deleted a letter on S:', 'files-lost')).not.toContain('accounts');
  });
});

describe('the title', () => {
  it('is the flow’s, the symptom’s, or says that nobody knows yet', () => {
    expect(ticketOf(whole()).title).toBe('A drive makes a noise');
    expect(ticketOf([opening()], { script: anyScript }).title).toBe('a drive that makes a noise');
    expect(ticketOf([opening({ symptom: null, script: null })], { script: null }).title).toBe('Not told yet');
  });
});

describe('what makes the symptom a side matter', () => {
  const outranks = { title: 'Smoke', faults: [] };
  const other = { ...catalogue, interrupts: { smoke: { ...catalogue.interrupts.smoke!, outranks } } };
  const { state } = fold(script, whole());

  it('gives the ticket its title, and nothing else is suspected or checked', () => {
    const ticket = ticketOf(whole(), { catalogue: other, state: { ...state, signs: ['danger'] } });
    expect(ticket).toMatchObject({ title: 'Smoke', suspects: [] });
    expect(ticket.plan.checks).toHaveLength(1);
  });

  it('is looked at by its own faults alone, where it has some', () => {
    const fault = Object.keys(catalogue.faults)[0]!;
    const own = { smoke: { ...other.interrupts.smoke, outranks: { ...outranks, faults: [fault] } } };
    const ticket = ticketOf(whole(), {
      catalogue: { ...other, interrupts: own },
      state: { ...state, signs: ['danger'] },
    });
    expect(ticket.suspects.map(suspect => [suspect.fault, suspect.share])).toEqual([[fault, 1]]);
  });

  it('changes nothing as long as its sign is not there', () => {
    expect(ticketOf(whole(), { catalogue: other })).toEqual(ticketOf(whole()));
  });
});
