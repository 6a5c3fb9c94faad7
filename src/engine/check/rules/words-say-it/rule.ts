import {
  CASE_WORDS,
  CONFIRMED_WORDS,
  DATA_WORDS,
  FIRMWARE_WORDS,
  KEEP_ON_WORDS,
  NOISE_WORDS,
  SERVER_WORDS,
} from '../../names.ts';
import type { PlacedTrouble, Rule } from '../../rule.ts';

/** What a caution must speak of, in any wording: other rules rely on it. Common practice, no source. */
const SPEAKS_OF: Readonly<Record<string, readonly [string, RegExp][]>> = {
  'danger-first': [
    ['leaving and warning others', /\bleave\b.*\b(?:alarm|warn)/],
    ['pulling the plug only with dry hands', /\bplug\b.*\bdry\b/],
    ['not using again what got wet', /\bwet\b.*\b(?:never|not)\b/],
    ['leaving a swollen battery alone', /\bbattery\b.*\b(?:don['’]t|not|never)\b/],
  ],
  [CONFIRMED_WORDS.danger]: [['staying away', /\baway\b/]],
  'attack-first': [
    ['taking it off the network', /\bnetwork\b|\bwi-?fi\b/],
    ['leaving it on', /\bleave\b.*\bon\b/],
    ['deleting and paying nothing', /\bdelete\b.*\bpay\b/],
    ['keeping backup drives out', /\bbackup\b/],
  ],
  [CONFIRMED_WORDS.attack]: [['leaving everything as it is', /\bleave\b.*\bas it is\b/]],
  'mechanical-first': [
    ['never switching it on again', /\b(?:not|don['’]t|never)\b.*\bon\b/],
    ['switching it off', /\b(?:unplug|shut|switch)\b/],
    ['opening and repairing nothing', /\bno opening\b|\bnot? open\b/],
  ],
  [NOISE_WORDS]: [
    ['switching it off', /\boff\b/],
    ['switching nothing on to listen', /\blisten\b/],
  ],
  [DATA_WORDS]: [['pressing Cancel', /\bpress(?:ing)?\W+cancel\b/]],
  [KEEP_ON_WORDS]: [
    ['leaving it on', /\bleave it on\b|\bkeep it on\b/],
    ['no restart', /\b(?:no|not?|don['’]t) (?:\w+ )?restart/],
  ],
  [SERVER_WORDS]: [['switching and pulling nothing', /\bnothing\b|\bnot\b|\bdon['’]t\b/]],
  [FIRMWARE_WORDS]: [
    ['changing nothing', /\bchange nothing\b|\bdon['’]t change\b/],
    ['leaving without saving', /\bwithout saving\b|\bdiscard\b/],
  ],
  [CASE_WORDS]: [
    ['site rules', /\brules\b/],
    ['the mains lead', /\bmains\b/],
    ['draining what is left', /\bpower button\b/],
    ['bare metal', /\bmetal\b/],
    ['the closed power supply', /\bpower supply\b/],
  ],
};

export const rule: Rule = {
  name: 'words-say-it',
  proves: 'The cautions that other rules rely on are there and speak of what they are for.',

  together: (subjects, { cautions }) =>
    Object.entries(SPEAKS_OF).flatMap(([id, parts]): PlacedTrouble[] => {
      const at = (message: string, remedy: string): PlacedTrouble => ({
        flow: subjects[0]?.script.symptom ?? '',
        unit: 'catalogue/cautions.yaml',
        path: [id, 'text'],
        message,
        remedy,
      });
      const words = cautions[id]?.text.toLowerCase().replace(/[*_`]/g, '');
      if (words === undefined) {
        return [at(`there is no caution "${id}"`, 'other rules ask for it; write it again')];
      }
      return parts
        .filter(([, pattern]) => !pattern.test(words))
        .map(([what]) => at(`"${id}" does not speak of ${what}`, 'say so in its text'));
    }),
};
