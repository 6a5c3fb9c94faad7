/** What somebody tells in answer to one question is not asked again by the next. */
import { expect, test } from 'vitest';
import { hearAlso } from '#talk/hear-site.ts';
import { rehearse } from '#talk/rehearse.ts';
import { compiled } from '../support/flows.ts';
import { knowingOnly, knowledge } from '../support/knowledge.ts';

const { script } = compiled({
  symptom: 'drive-slow',
  title: 'Slow',
  steps: [
    { id: 'story', ask: 'What happened?' },
    {
      id: 'moved',
      ask: 'Was it moved?',
      answers: { yes: 'Yes', no: 'No' },
      opening: { yes: ['we moved offices'] },
    },
    { id: 'room', ask: 'Which room?' },
    { hand_over: {} },
  ],
});
const small = knowingOnly(script);

test('the story answers a later question; it is said back, and can be taken back', () => {
  const talk = rehearse(small);
  talk.say('my laptop is very slow, the disk is at 100%');
  expect(talk.question()?.step).toBe('story');
  const said = talk.say('since yesterday, when we moved offices');
  expect(said.map(message => ('text' in message ? message.text : ''))).toContain(
    'Was it moved? From what you wrote: **Yes**. If that is wrong, say *back*.',
  );
  expect(talk.question()?.step).toBe('room');
  talk.say('back');
  expect(talk.question()?.step).toBe('moved');
  talk.press('no');
  expect(talk.question()?.step).toBe('room');
  talk.say('2.14');
  expect(talk.conversation().outcome).toBe('escalated');
});

test('taking the story back takes back what it answered', () => {
  const talk = rehearse(small);
  talk.say('my laptop is very slow, the disk is at 100%');
  talk.say('when we moved offices');
  talk.say('back');
  talk.say('back');
  expect(talk.question()?.step).toBe('story');
  talk.say('no idea, it just does');
  expect(talk.question()?.step).toBe('moved');
});

test('a site named with the room is not asked for', () => {
  const talk = rehearse(knowledge);
  talk.say('there is smoke coming out of my PC');
  talk.press('now');
  talk.say('Brackwater 12, 555-0101');
  expect(talk.conversation().outcome).toBe('escalated');
  expect(talk.ticket()?.site).toBe('brackwater');
});

test.each([
  'at home, Brackwater. mobile 555-0128',
  'at home this week in Brackwater area, mobile 555-0109',
  'home office, 555-0128',
  'Home, 555-0128',
  "I'm working from home in Saint-Orme, 555-0139",
  'zu Hause in Orlinstadt, 555-0151',
])('at home is at none of the sites, whatever the town: %s', words => {
  const talk = rehearse(knowledge);
  talk.say('there is smoke coming out of my PC');
  talk.press('now');
  talk.say(words);
  expect(talk.conversation().outcome).toBe('escalated');
  expect(talk.ticket()?.site).toBe('elsewhere');
});

test('who is not at home is where they say', () => {
  const talk = rehearse(knowledge);
  talk.say('there is smoke coming out of my PC');
  talk.press('now');
  talk.say("I'm not at home, I'm in Brackwater, 555-0101");
  expect(talk.ticket()?.site).toBe('brackwater');
});

test.each([
  ["my laptop is very slow, I'm at home in Brackwater", 'elsewhere'],
  ['my laptop is very slow. Data scientist in Tolmarsh, working from home this week', 'elsewhere'],
  ['my laptop is very slow in Brackwater', 'brackwater'],
  ['my laptop is very slow in Brackwater, at home it is fast', undefined],
  ['my usb stick works at home, not here', undefined],
  ["my laptop is very slow, I'm never at home, I am in Brackwater", 'brackwater'],
  ['when I am at home the laptop is very slow', undefined],
  ["our server beeps, I'm at home", undefined],
])('where somebody is in the first words: %s', (words, site) => {
  expect(hearAlso(knowledge.flows['drive-slow']!.script, words).site?.answer).toBe(site);
});
