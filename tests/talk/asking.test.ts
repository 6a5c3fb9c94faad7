/** People ask instead of answering, ask for somebody, or leave out the number. */
import { describe, expect, test } from 'vitest';
import { asksBeside, asksForHelp, asksLeave, asksOff } from '#hearing/asking.ts';
import { wantsPerson } from '#hearing/standing.ts';
import { rehearse } from '#talk/rehearse.ts';
import { compiled } from '../support/flows.ts';
import { knowledge } from '../support/knowledge.ts';

const { script } = compiled({
  symptom: 'drive-slow',
  title: 'It is slow',
  steps: [
    {
      id: 'which',
      ask: 'Which one?',
      answers: { one: 'The one', two: 'The other' },
      help: 'Look at its label.',
    },
    {
      id: 'again',
      try: 'Plug it in again.',
      effect: 'start',
      minutes: 1,
      works: 'Does it work now?',
      fixed: 'cable-loose',
    },
    { id: 'room', ask: 'Where, and which number?', fills: ['place.room', 'contact.way'] },
    { hand_over: {} },
  ],
});
const small = { ...knowledge, flows: { 'drive-slow': { script, hash: 'h', longest: null } } };

const begun = () => {
  const talk = rehearse(small);
  talk.say('my drive is very slow');
  return talk;
};
const told = (talk: ReturnType<typeof rehearse>, text: string) =>
  talk.say(text).map(message => ('text' in message ? message.text : ''));

test('half an answer is met with the answers that it fits', () => {
  const answers = { stuck: "Only me, and I can't work", fine: 'Only me; I can manage', all: 'All of us' };
  const { script: held } = compiled({
    symptom: 'drive-slow',
    title: 'It is slow',
    steps: [{ id: 'impact', ask: 'Who is held up?', answers }, { hand_over: {} }],
  });
  for (const words of ['just me', 'only me I think', 'nur ich', 'moi seulement', 'solo yo']) {
    const talk = rehearse({
      ...knowledge,
      flows: { 'drive-slow': { script: held, hash: 'h', longest: null } },
    });
    talk.say('my drive is very slow');
    expect(told(talk, words)[0]).toBe(
      "That fits more than one answer: **Only me, and I can't work** or **Only me; I can manage**. Which of them is it?",
    );
    expect(talk.question()?.step).toBe('impact');
  }
});

describe('whoever asks instead of answering', () => {
  test('gets the question’s help for "help", and answers nothing by it', () => {
    const talk = begun();
    expect(told(talk, 'help')[0]).toContain('Look at its label.');
    talk.say('the one');
    expect(told(talk, 'help!').join(' ')).toContain('**person**');
    const asked = talk.conversation().entries.filter(entry => entry.kind === 'missed');
    expect(asked).toMatchObject([
      { words: 'help', asked: true },
      { words: 'help!', asked: true },
    ]);
    expect(talk.conversation().outcome).toBeNull();
    expect(talk.question()?.step).toBe('again');
  });

  test('is given no leave by silence, not even where any text would do', () => {
    const talk = begun();
    expect(told(talk, "Can't I just copy them quickly first?")[0]).toContain('Please wait with that');
    talk.say('the one');
    talk.say('no change');
    expect(told(talk, 'should I swap it now?')[0]).toContain('Please wait with that');
    expect(talk.question()?.step).toBe('room');
    talk.say('second floor, 555-0101');
    expect(talk.ticket()?.ticket.fields['place.room']).toMatchObject({ value: 'second floor, 555-0101' });
    expect(JSON.stringify(talk.ticket()?.ticket.answers)).toContain('should I swap it now?');
  });
});

describe('whoever asks whether to switch off or unplug', () => {
  const answer = (opening: string, text: string, ...before: string[]) => {
    const talk = rehearse(knowledge);
    talk.say(opening);
    for (const press of before) talk.press(press);
    return told(talk, text)[0];
  };
  test('is told yes where that is just what is asked for', () => {
    const talk = rehearse(knowledge);
    talk.say('i dropped my external drive');
    for (let asked = 0; asked < 12 && talk.question()?.step.endsWith('off-now') !== true; asked++)
      talk.press(talk.question()!.step.endsWith('spins') ? 'drive' : talk.question()!.answers[0]!.id);
    expect(told(talk, 'is it safe to unplug?')[0]).toMatch(/^Yes, please, right away/);
    expect(talk.question()?.step.endsWith('off-now')).toBe(true);
  });
  test('is told yes while a drive that was dropped is asked about', () => {
    expect(answer('i dropped my external drive', 'should i unplug it?')).toContain('yes, please, right away');
  });
  test('is told to copy nothing first while it clicks', () => {
    expect(answer('my external drive clicks loudly', "can't I just copy the files quickly first?")).toMatch(
      /^No, please/,
    );
  });
  test('is told no, but off the network, when it may be an attack', () => {
    expect(answer('there is a ransom note and all files are encrypted', 'should I switch it off?')).toMatch(
      /^\*\*Off the network: yes, now\*\*.*The machine itself stays on/,
    );
  });
  test('is told how, with what is wet, also beside other words', () => {
    expect(
      answer('i spilled tea on my laptop', 'second floor, 555-0101. should i turn it off???', 'wet'),
    ).toContain('hands, floor and socket are dry');
  });
  test('is told to pull nothing out of a box, and that what others use stays', () => {
    const said = answer('our NAS clicks loudly', 'should I pull the drive?')!;
    expect(said).toMatch(/^Out of a computer, a server or a box \*\*nothing is taken/);
    expect(said).not.toMatch(/\*\*yes, please, right away\*\*(?!.*A plug-in drive)/);
    expect(answer('i spilled tea on my laptop', 'can I take the battery out?', 'wet')).toMatch(
      /no battery, no drive/,
    );
  });
  test.each([
    ['there is smoke coming out of my PC', 'should I call the fire brigade?'],
    ['there is smoke coming out of my PC', 'should we leave the building?'],
    ['there is a ransom note and all files are encrypted', 'should I call my bank?'],
    ['there is a ransom note and all files are encrypted', 'should I change my password?'],
  ])('and nobody is told no who wants help: %s, %s', (opening, text) =>
    expect(answer(opening, text)).toContain('yes, at once'),
  );
  test('the network goes off at once in an attack', () => {
    const said = answer(
      'there is a ransom note and all files are encrypted',
      'should I unplug the network cable?',
    );
    expect(said).toMatch(/^\*\*Off the network: yes, now/);
  });
  test('is told not to break off what counts a percentage, at the very beginning', () => {
    const talk = rehearse(knowledge);
    const said = told(talk, 'windows update at 30% since 3 hours. can i switch off?').join(' ');
    expect(said).toContain('Not while it counts a percentage');
  });
});

test('a wish for a person beside other words is heard', () => {
  const talk = begun();
  talk.say('NO IDEA. JUST GET ME A HUMAN');
  expect(talk.conversation().outcome).toBe('escalated');
});

test('a wish for a person in the first words is heard, with what they tell', () => {
  const talk = rehearse(knowledge);
  talk.say("laptop bitlocker key. i want to talk to a human, i don't know anything");
  expect(talk.conversation().outcome).toBe('escalated');
  expect(talk.ticket()?.ticket.symptom).toBe('boot-recovery-key');
});

describe('how to reach somebody', () => {
  test('is asked for once more where there is no number, and both answers are kept', () => {
    const talk = begun();
    talk.say('the one');
    talk.say('no change');
    expect(told(talk, 'second floor')[0]).toContain('on which number');
    talk.say('none, come by');
    expect(talk.conversation().outcome).toBe('escalated');
    expect(talk.conversation().entries.at(-1)).toMatchObject({
      value: { text: 'second floor; none, come by' },
    });
  });

  test('is not asked again where there is one', () => {
    const talk = begun();
    talk.say('the one');
    talk.say('no change');
    talk.say('second floor, 555-0101');
    expect(talk.conversation().outcome).toBe('escalated');
  });
});

describe('the words', () => {
  test.each(['help', 'Help!!', 'please help me', 'I need help', 'Hilfe', 'aidez-moi svp'])(
    '%s asks for help',
    text => expect(asksForHelp(text)).toBe(true),
  );
  test.each(['that helped', 'it did not help', 'help desk', 'the help text is missing', 'helper'])(
    '%s does not',
    text => expect(asksForHelp(text)).toBe(false),
  );
  test.each([
    'should i swap disk 3 now with a spare from the shelf?',
    'can i dry it with the hair dryer?',
    'But can’t I just restart it?',
    'is it ok to unplug it?',
    'Darf ich ihn ausstecken?',
    'je peux redémarrer ?',
  ])('%s asks for leave', text => expect(asksLeave(text)).toBe(true));
  test.each(['which port do you mean?', 'can i talk to someone?', 'I can open it', 'the blue one?'])(
    '%s does not',
    text => expect(asksLeave(text)).toBe(false),
  );
  test.each([
    'is it safe to unplug?',
    'should i turn it off???',
    'can I switch the laptop off now?',
    'do i have to shut it down?',
    'Darf ich ihn ausstecken?',
  ])('%s asks to go off', text => expect(asksOff(text) && asksBeside(text)).toBe(true));
  test.each([
    'Rebuild stuck at 3 percent. Should I force it online?',
    'So is it yes or no to initialising?',
    'It is at 41 percent. Should I abort that?',
    'Can I run a recovery program?',
    'it is grinding, can I just swap it?',
  ])('%s asks leave for what does harm', text => expect(asksBeside(text)).toBe(true));
  test.each([
    'What should I do?',
    'Can I get my files back?',
    'I forced it online, was that right?',
    'how long does a rebuild take?',
  ])('%s does not', text => expect(asksBeside(text)).toBe(false));
  test.each([
    'can I switch it off and on again?',
    'can I copy them first?',
    'should I unplug it and plug it back in?',
  ])('%s does not', text => expect(asksOff(text)).toBe(false));
  test.each([
    'i dont know. i want to talk to a person',
    'no idea, just get me a human',
    'weiss nicht, ich will mit einem Menschen sprechen',
  ])('%s wants a person', text => expect(wantsPerson(text)).toBe(true));
  test.each([
    'I talked to a technician yesterday, no luck',
    'it is on the desk, second floor',
    'nobody else, a colleague has it',
  ])('%s does not', text => expect(wantsPerson(text)).toBe(false));
});

test('smoke is heard also where a number is asked for', () => {
  const talk = begun();
  talk.say('the one');
  talk.say('no change');
  talk.say('there is smoke coming out of it');
  expect(talk.question()?.step).not.toBe('room');
});

describe('leave to do what can do harm', () => {
  const saying = (...said: string[]) => {
    const talk = rehearse(knowledge);
    return said
      .map(text =>
        talk
          .say(text)
          .map(each => ('text' in each ? each.text : ''))
          .join(' '),
      )
      .at(-1);
  };

  test.each([
    ['my usb stick asks to be formatted', 'should I run chkdsk?', '**No, please.**'],
    ['my usb stick asks to be formatted', 'should I press cancel or format?', 'press Cancel'],
    ['my usb stick asks to be formatted. Should I cancel it?', '', 'press Cancel'],
    ['my portable drive beeps and is not recognised. should I unplug it?', '', '**yes**'],
    ['alarm on our RAID server', 'can I send you a photo of its lights?', 'is welcome'],
    ['alarm on our RAID server', 'can I look at its lights?', 'is fine'],
    ['there is smoke coming out of my pc', 'should I go back in?', '**No.** Nobody goes back in'],
    ['a ransom note is on my screen', 'should I call the number on the screen?', '**No: call no number'],
    ['my external drive smells burnt', 'should I unplug it?', 'only if hands, floor and socket are dry'],
    ['my usb stick asks to be formatted', 'should I format it', '**No, please.**'],
    ['it is formatting my stick right now', 'should I abort the format?', 'at once'],
    ['there was smoke', 'should I go back in?', '**No.** Nobody goes back in'],
    ['my external drive clicks', 'can I copy the pictures first?', 'No, please'],
    ['my external drive clicks', 'can I send you a photo of it?', 'is welcome'],
    ['my external drive clicks', 'it checks itself. should I cancel it?', 'break it off'],
    ['my usb stick asks to be formatted', 'it formats already! should I cancel it?', 'at once'],
    ['alarm on our RAID server', 'should I rebuild it?', '**No, please.** Nothing'],
  ])('"%s" "%s" is answered: %s', (opening, asked, reply) => {
    expect(asked === '' ? saying(opening) : saying(opening, asked)).toContain(reply);
  });

  test('a server that smells is looked at by nobody', () => {
    const talk = rehearse(knowledge);
    talk.say('server beeps');
    for (let turn = 0; turn < 3 && !talk.question()!.step.includes('danger-when'); turn++)
      talk.press(talk.question()!.answers[0]!.id);
    expect(talk.question()!.step).toContain('danger-when');
    expect(told(talk, 'should I go and look?').join(' ')).not.toContain('is fine');
    expect(told(talk, 'should I unplug it?').join(' ')).toContain(
      'A server, a rack or a battery box: hands off',
    );
  });

  test('is asked without a mark where it could do harm, and by no answer that begins alike', () => {
    expect(asksLeave('should I pull the drive')).toBe(true);
    expect(asksLeave('can I have a call on 555-0101, room 4')).toBe(false);
  });

  test('is asked by nobody who asks whether it is bad', () => {
    expect(asksLeave('is it bad?')).toBe(false);
    expect(asksLeave('is it dangerous to switch it off?')).toBe(false);
  });

  test('is refused for an array in so many words, also when it is asked in the first message', () => {
    const asked = 'The RAID on our server is degraded. Should I force it online?';
    expect(saying(asked)).toContain('**No, please.** Nothing is forced online');
    expect(saying('The RAID on our server is degraded', 'yes or no: should I initialise it?')).toContain(
      '**No',
    );
  });

  test('is not refused where the open step asks for just that', () => {
    const talk = begun();
    talk.say('the one');
    expect(told(talk, 'should I plug it back in now?')[0]).toContain('just what this step says');
    expect(told(talk, 'can I format it?')[0]).toContain('**No, please.**');
  });
});

test.each(['not any more, can I switch it on again?', 'no, not now', 'it has stopped'])(
  'a smell that is just over is no "no": "%s"',
  words => {
    const talk = rehearse(knowledge);
    talk.say('my laptop smells burnt');
    if (talk.question()?.step === '@doubt') talk.say(words);
    expect(talk.question()?.step).toMatch(/danger-when/);
  },
);

test('in a fire more of it is no place and no number', () => {
  const talk = rehearse(knowledge);
  talk.say('there is smoke coming out of my pc');
  talk.press('now');
  const asked = talk.question()!;
  expect(told(talk, 'there is more smoke now')[0]).toContain('**Out first, then write.**');
  expect(talk.question()?.step).toBe(asked.step);
});

test('"ok" at a step is not "it works now"', () => {
  for (const words of ['ok', 'will do', 'yes but no']) {
    const talk = begun();
    talk.say('the one');
    talk.say(words);
    expect(talk.conversation().outcome).toBeNull();
    expect(talk.question()?.step).toBe('again');
  }
});

describe('who has tried a step already', () => {
  const result = (text: string) => {
    const talk = begun();
    talk.say('the one');
    talk.say(text);
    return talk
      .conversation()
      .entries.flatMap(entry =>
        entry.kind === 'answer' && entry.step === 'again' && 'id' in entry.value ? [entry.value.id] : [],
      )[0];
  };

  test.each([
    'I already tried that',
    'did that already',
    "I've tried it already, twice",
    'habe ich schon probiert',
  ])('and says so, "%s", is past it', text => expect(result(text)).toBe('no-change'));
  test.each(['tried it, works now', 'I tried that again and now it works'])(
    'and found that it works, "%s", is helped',
    text => expect(result(text)).toBe('fixed'),
  );
});
