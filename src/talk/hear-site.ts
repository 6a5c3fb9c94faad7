/** Where it is, told beside something else. Whoever is at home is not in the office of the town that is named with it. */
import { ELSEWHERE } from '#engine/listed.ts';
import type { Script, Question as Step } from '#engine/script.ts';
import { hearWaiting } from '#hearing/waiting.ts';
import { listen } from '#hearing/words.ts';
import { questionsOf } from '#tickets/suspects.ts';

type Waiting = ReturnType<typeof hearWaiting>;

/** In an answer about the place. */
const HOME =
  /(?<!(?:\b(?:not|never|nicht|pas|no)|n['’]t)\s(?:\w+\s)?)(?:\b(?:at|from) (?:my |our )?home\b|\bhome[- ]?office\b|^\W*home\b(?! (?:drive|share|folder|directory|network))|\bzu ?hause\b|\bdaheim\b|\bchez moi\b|\b[aà] la maison\b|\bt[ée]l[ée]travail\b|\ben casa\b|\bteletrabajo\b)/iu;
/** In any other words: whoever says it is there now. "The stick works at home" says nothing of where it is. */
const AT_HOME_NOW =
  /(?<!\b(?:when|if|whenever|while|was|were|been|usually|often|wenn)\s(?:\w+\s)?)(?:\b(?:i['’]?m|i am|we['’]?re|we are|sitting|here) (?!never |not )(?:\w+ )?at home\b|\bworking from (?:my )?home\b|\b(?:in|from) (?:my |the )?home[- ]?office\b)/iu;
/** These stand where they stand, wherever the person is. */
const STAYS = new Set('server servers nas raid array rack'.split(' '));

/** What the words say besides, where a town is not taken for its office by somebody who is at home. */
export function hearAlso(script: Script, text: string): Waiting {
  const waiting = hearWaiting(script, text);
  const asks = siteQuestion(script);
  if (asks === undefined || !HOME.test(text)) return waiting;
  const { [asks.finding]: _town, ...others } = waiting;
  const said = AT_HOME_NOW.exec(text);
  if (said === null || listen(text).some(word => STAYS.has(word.text))) return others;
  return { ...others, [asks.finding]: { answer: ELSEWHERE, words: said[0] } };
}

/** Where it is, told in the answer about the room: "Brackwater 12, 555-0101". There a site's name is the site. */
export function siteIn(script: Script, step: Step, text: string): Waiting {
  const asks = step.fills.includes('place.room') ? siteQuestion(script) : undefined;
  if (asks === undefined) return {};
  const home = HOME.exec(text);
  if (home !== null) return { [asks.finding]: { answer: ELSEWHERE, words: home[0] } };
  const said = ` ${listen(text)
    .map(word => word.text)
    .join(' ')} `;
  const named = asks.answers.filter(({ label }) => {
    const short = listen(label.split(',')[0]!).map(word => word.text);
    return short.length > 0 && said.includes(` ${short.join(' ')} `);
  });
  const [site] = named;
  if (site === undefined || named.length > 1) return {};
  return { [asks.finding]: { answer: site.id, words: site.label.split(',')[0]! } };
}

const siteQuestion = (script: Script) =>
  questionsOf(script).find(
    ({ fills, answers }) => fills.includes('place.site') && answers.some(({ id }) => id === ELSEWHERE),
  );
