/** Ways to damage the catalogue: alarms and words that every flow relies on. */
import type { Raw } from './sources.ts';

type Change = (catalogue: Raw) => void;

/** Words without which a caution is none, as somebody would shorten it. */
const SHORTENED: Readonly<Record<string, string>> = {
  'danger-first': 'Please be careful.',
  'keep-away': 'Thank you.',
  'attack-first': 'Please stop what you are doing.',
  'leave-the-traces': 'Thank you.',
  'mechanical-first': 'That does not sound good.',
  'data-first': 'Your files come first.',
  'keep-on': 'Please be careful with it.',
  'server-hands-off': 'Others depend on this one.',
  'firmware-look': 'Have a look at the settings.',
  'case-safe': 'Shut it down before you open it.',
};

export function changesTo({ interrupts, cautions }: Raw): [string, Change][] {
  return [
    ...Object.entries<Raw>(interrupts).flatMap(([id, about]): [string, Change][] => [
      ...(about.sign === 'mechanical'
        ? []
        : ([
            [`interrupt ${id} left out`, all => delete all.interrupts[id]],
            [`interrupt ${id} outranked`, all => (all.interrupts.mechanical.rank = about.rank + 9)],
            [`interrupt ${id} not everywhere`, all => (all.interrupts[id].not_for = ['drive-noise'])],
          ] satisfies [string, Change][])),
      [`interrupt ${id} to no block`, all => (all.interrupts[id].block = 'no-such-block')],
      [`interrupt ${id} to another block`, all => (all.interrupts[id].block = 'where-are-you')],
      [`interrupt ${id} without its words`, all => (all.interrupts[id].caution = 'no-such-caution')],
      [`interrupt ${id} with other words`, all => (all.interrupts[id].caution = 'keep-on')],
    ]),
    ...Object.entries<Raw>(cautions)
      .filter(([, { on_sign }]) => on_sign)
      .map(([id]): [string, Change] => [
        `caution ${id} not with its sign`,
        all => delete all.cautions[id].on_sign,
      ]),
    ...Object.entries(SHORTENED)
      .filter(([id]) => id in cautions)
      .flatMap(([id, text]): [string, Change][] => [
        [`caution ${id} left out`, all => delete all.cautions[id]],
        [`caution ${id} shortened`, all => (all.cautions[id].text = text)],
      ]),
  ];
}
