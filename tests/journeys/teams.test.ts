/** People in Teams, through the running server, with signed activities and the SDK's own authentication. */
import { afterEach, describe, expect, test } from 'vitest';
import { type Running, running } from '../support/teams/running.ts';
import { actionsOf, cardOf, textsOf } from '../support/teams/teams.ts';

const open: Running[] = [];
afterEach(async () => {
  for (const each of open.splice(0)) await each.close();
});
const started = async (env?: Record<string, string>) => {
  const each = await running(':memory:', env);
  open.push(each);
  return each;
};

describe('a person in a chat of their own', () => {
  test('is greeted once, asked, and sees the question answered in its place', async () => {
    const reseat = await started();
    const ada = reseat.person();
    expect((await ada.installed()).status).toBe(200);
    await ada.installed();
    await reseat.settled();
    expect(ada.words().match(/Hello, this is Reseat/g)).toHaveLength(1);
    await ada.say('my usb stick does not show up');
    await reseat.settled();
    const press = await ada.press('Send', { answer: 'none' });
    expect(press.body).toMatchObject({ statusCode: 200, type: 'application/vnd.microsoft.card.adaptive' });
    expect(textsOf(press.body.value)).toContain('✓ You: None of these');
    await reseat.settled();
    expect(ada.words()).toContain('✓ You: None of these');
    expect(actionsOf(cardOf(ada.shown().at(-1)!)).length).toBeGreaterThan(1);
    expect(reseat.teams.wrong).toEqual([]);
  });
});
