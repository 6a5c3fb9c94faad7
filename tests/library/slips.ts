/** Mistakes that somebody makes in their first flow. */

export const HEAD = 'symptom: disk-full\ntitle: A drive that is full\nsteps:\n';
export const ASK =
  '  - id: room\n    ask: How much is left?\n    answers: { little: A little, none: Nothing }\n';
export const TRY = '  - id: bin\n    try: Empty the recycle bin.\n';
export const DESK = '  - visit: to-the-desk\n';

/** What it is, what is written, and what is told: line, what is wrong, what to do. Lines 1 to 3 are HEAD. */
export const SLIPS: [string, string, string][] = [
  // The signs of YAML.
  [
    'a condition without braces',
    `${ASK}    if: room: little\n`,
    '7: what stands behind "if" needs braces. Write if: { room: little }.',
  ],
  [
    'a word without its colon, above a list',
    '  - id: room\n    ask How much is left?\n    answers: { little: A little, none: Nothing }\n',
    '5: "ask How much is left?" has no colon behind its first word. Write the word, a colon, a space and then the rest.',
  ],
  [
    'a space from a page behind the colon',
    '  - id: room\n    ask:\u00a0How much is left?\n',
    '5: one of the spaces only looks like one, as text copied from a page has them. Delete the spaces in front and behind the colon, and type them again.',
  ],
  [
    'a tab',
    `  - id: room\n\task: How much?\n`,
    '5: a tab stands in front of this line. Use spaces there, two for each step inwards.',
  ],
  [
    'a text with a colon',
    '  - id: room\n    ask: Please look: how much?\n',
    '5: a text with a colon in it needs quotes. Put the whole text in double quotes.',
  ],
  [
    'a label with a colon',
    '  - id: room\n    answers: { none: None: all full, some: Some }\n',
    '5: a text with a colon in it needs quotes. Put the whole text in double quotes.',
  ],
  [
    'a text that begins bold',
    '  - say: **Wait** a moment.\n',
    '4: a text that begins with * needs quotes. Put the whole text in double quotes.',
  ],
  [
    'a text that begins with a star',
    '  - say: *Wait*\n',
    '4: a text that begins with a star needs quotes. Put the whole text in double quotes.',
  ],
  [
    'a text that begins with an exclamation mark',
    '  - say: !Wait a moment.\n',
    '4: a text that begins with ! needs quotes. Put the whole text in double quotes.',
  ],
  [
    'a text that begins with a quote',
    '  - say: "Full" is a word.\n',
    "4: something stands behind the closing quote. Put the whole text in double quotes, and use ' for quotes and apostrophes inside.",
  ],
  [
    'an apostrophe in single quotes',
    "  - say: 'It's full.'\n",
    "4: something stands behind the closing quote. Put the whole text in double quotes, and use ' for quotes and apostrophes inside.",
  ],
  [
    'a quote left open',
    '  - say: "Wait a moment.\n  - say: Thanks.\n',
    '4: a quote is opened here and not closed. Close it at the end of the text.',
  ],
  [
    'a bracket left open',
    '  - id: room\n    answers: { little: Little, none: None\n    fills: message\n',
    '5: a bracket is opened here and not closed. Close it: { with }, [ with ].',
  ],
  [
    'typographic quotes',
    '  - say: “Wait: a moment.”\n',
    '4: these quotes are not the ones that YAML knows. Use the straight ones: ".',
  ],
  [
    'a path in double quotes',
    '  - say: "It is in C:\\files"\n',
    '4: in double quotes a backslash and the letter behind it become one sign. Put the text in single quotes.',
  ],
  [
    'a # in a text',
    '  - say: Take port #3 then.\n',
    '4: "#3 then." is left out: behind a space, # begins a remark. Put the whole text in double quotes, or a space behind the # of a remark.',
  ],
  [
    'no space behind a colon',
    '  - id: room\n    ask:How much?\n',
    '5: the colon behind "ask" needs a space behind it. Write "ask: " and then the rest.',
  ],
  [
    'no space behind a dash',
    '  -id: room\n    ask: How much?\n',
    '4: a dash needs a space behind it. Write "- " and then the word.',
  ],
  [
    'no colon',
    '  - id: room\n    ask How much?\n',
    '5: "ask How much?" has no colon behind its first word. Write the word, a colon, a space and then the rest.',
  ],
  [
    'too few spaces',
    '  - id: room\n   ask: How much?\n',
    '5: this line does not begin below the words that it belongs to. Give it as many spaces in front as the lines beside it have.',
  ],
  [
    'too many spaces',
    '  - id: room\n      ask: How much?\n',
    '5: this line does not begin below the words that it belongs to. Give it as many spaces in front as the lines beside it have.',
  ],
  [
    'a dash out of line',
    `${ASK}   - say: Thanks.\n`,
    '7: this line does not begin below the words that it belongs to. Give it as many spaces in front as the lines beside it have.',
  ],
  [
    'answers that do not stand further in',
    '  - id: room\n    ask: How much?\n    answers:\n    little: Little\n    none: None\n',
    '6: step "room", answers: what belongs to it does not stand further in than it. Put two more spaces in front of each line that belongs to it.',
  ],
  [
    'a word twice',
    '  - id: room\n    ask: How much?\n    ask: And now?\n',
    '6: "ask" stands here twice. Keep one of the two, or begin the second step with a dash.',
  ],
  [
    'an answer twice',
    '  - id: room\n    ask: How much?\n    answers: { none: None, none: Nothing }\n',
    '6: "none" stands here twice. Keep one of the two, or begin the second step with a dash.',
  ],
  [
    'a space copied from a page',
    '  -\u00a0say: Thanks.\n',
    '4: one of the spaces only looks like one, as text copied from a page has them. Delete the spaces in front and behind the colon, and type them again.',
  ],

  // The words of a flow.
  [
    'a step without a word',
    '  - Thanks.\n',
    '4: step 1: "Thanks." is no step. Write a word, a colon and what it is, such as "say: Good.".',
  ],
  [
    'a misspelt kind of step',
    '  - id: room\n    aks: How much?\n    answers: { little: Little, none: None }\n',
    '5: step "room": there is no "aks" here. Write "ask" if that is meant.',
  ],
  [
    'a misspelt word',
    `${ASK}    fils: message\n`,
    '7: step "room": there is no "fils" here. Write "fills" if that is meant.',
  ],
  [
    'a word of another kind of step',
    `${ASK}    minutes: 4\n`,
    '7: step "room": "ask" has no "minutes". Take it out; it belongs to "try".',
  ],
  [
    'a word that there is not',
    `${DESK}owner: me\n`,
    '5: there is no "owner" here. Use one of: symptom, title, steps.',
  ],
  [
    'two kinds in one step, a dash forgotten',
    `${ASK}    try: Empty the recycle bin.\n    minutes: 2\n`,
    '4: step "room": "ask" and "try" stand in one step. Make a step of each, the second behind a dash of its own.',
  ],
  ['no id', '  - ask: How much is left?\n', '4: step 1: "id" is missing. Add "id:" and behind it a name.'],
  [
    'effect forgotten',
    `${TRY}    minutes: 3\n`,
    '4: step "bin": "effect" is missing. Add "effect:" and behind it one of: none, start, read, write.',
  ],
  [
    'effect misspelt',
    `${TRY}    minutes: 3\n    effect: wrtie\n`,
    '7: step "bin", effect: "wrtie" is not known here. Write "write" if that is meant.',
  ],
  [
    'minutes in words',
    `${TRY}    minutes: five\n    effect: write\n`,
    '6: step "bin", minutes: "five" is no number. Write it in figures and without quotes, such as 5.',
  ],
  [
    'nothing behind a word',
    '  - id: room\n    ask:\n',
    '5: step "room", ask: nothing stands behind it. Write the words, or take the word out.',
  ],
  [
    'an empty hand-over',
    '  - hand_over:\n',
    '4: step 1, hand_over: nothing stands behind it. Write { keep: as-usual } behind it.',
  ],
  [
    'words behind hand_over',
    '  - hand_over: Over to the desk.\n',
    '4: step 1, hand_over: words with values must stand here, not "Over to the desk.". Write a name, a colon and a value for each, such as { because: "Over to the desk." }.',
  ],
  [
    'a label in figures',
    '  - id: room\n    ask: How much?\n    answers: { none: 0, some: Some }\n',
    '6: step "room", answers, none: 0 without quotes is no text. Write "0".',
  ],
  [
    'a label that is too long',
    `  - id: room\n    ask: How much?\n    answers: { none: "${'x'.repeat(90)}", some: Some }\n`,
    '6: step "room", answers, none: 90 characters, and 75 is the most. Say it in fewer words.',
  ],
  [
    'a text that is too long',
    `  - say: "${'no '.repeat(600)}"\n`,
    '4: step 1, say: 1799 characters, and 1500 is the most. Say it in fewer words.',
  ],
  [
    'an umlaut in an id',
    '  - id: Größe\n    ask: How much?\n',
    '4: step "Größe", id: "Größe" cannot be a name. Use small letters, digits and single hyphens, starting with a letter, such as "which-noise"; here perhaps "groesse".',
  ],
  [
    'an answer with a capital',
    '  - id: room\n    ask: How much?\n    answers: { Little: Little, none: None }\n',
    '6: step "room", answers: "Little" cannot be a name. Use small letters, digits and single hyphens, starting with a letter, such as "which-noise"; here perhaps "little".',
  ],
  [
    'a list where names belong',
    '  - id: room\n    ask: How much?\n    answers: [Little, None]\n',
    '6: step "room", answers: names with values must stand here, not a list. Write a name, a colon and a value for each, such as { yes: Yes }.',
  ],
  [
    'a name where a list belongs',
    `${ASK}    raises: { none: suspect }\n`,
    '7: step "room", raises, none: a list must stand here, not "suspect". Write [suspect].',
  ],
  [
    'a sign misspelt',
    `${ASK}    raises: { none: [suspekt] }\n`,
    '7: step "room", raises, none: "suspekt" is not known here. Write "suspect" if that is meant.',
  ],
  [
    'a field by half its name',
    `${ASK}    fills: copy\n`,
    '7: step "room", fills: "copy" is not known here. Write "data.copy" if that is meant.',
  ],
  [
    'evidence without for or against',
    `${ASK}    evidence: { none: { disk-full-user-data: 2 } }\n`,
    '7: step "room", evidence, none: there is no "disk-full-user-data" here. Use one of: for, against.',
  ],
  [
    'goes without an answer',
    `${ASK}    goes: bin\n`,
    '7: step "room", goes: names with values must stand here, not "bin". Write a name, a colon and a value for each, such as { yes: bin }.',
  ],
  [
    'a condition as a formula',
    '  - say: Thanks.\n    if: room = none\n',
    '5: step 1, if: "room = none" is no condition. Write a finding and its values, such as { device: [laptop, desktop] }.',
  ],

  // What must fit together.
  [
    'an answer misspelt in goes',
    `${ASK}    goes: { noen: bin }\n${TRY}    effect: none\n    minutes: 2\n${DESK}`,
    '7: "noen" is no answer of this step. Write "none" if that is meant.',
  ],
  [
    'a step misspelt in goes',
    `${ASK}    goes: { none: bni }\n${TRY}    effect: none\n    minutes: 2\n${DESK}`,
    '7: there is no step "bni" here. Write "bin" if that is meant.',
  ],
  [
    'a way back',
    `${ASK}    fills: message\n${TRY}    effect: none\n    minutes: 2\n    goes: { done: room }\n${DESK}`,
    '12: "room" stands earlier. Name a step further down in this file; steps never go back.',
  ],
  [
    'return outside a block',
    `${ASK}    goes: { none: return }\n${DESK}`,
    '7: "return" leaves a block, and this is not one. Name a later step, or hand over.',
  ],
  [
    'an unknown block',
    `  - visit: data-frist\n${DESK}`,
    '4: there is no block "data-frist". Write "data-first" if that is meant.',
  ],
  [
    'an unknown caution',
    `  - caution: keep-off\n${DESK}`,
    '4: there is no caution "keep-off". Write "keep-on" if that is meant.',
  ],
  [
    'an unknown fault',
    `${TRY}    effect: write\n    minutes: 2\n    fixed: bin-full\n${DESK}`,
    '8: there is no fault "bin-full". Name a fault of catalogue/faults.yaml, or add it there.',
  ],
  [
    'two steps with the same id',
    `${ASK}    fills: message\n${ASK}    fills: message\n${DESK}`,
    '8: the id "room" is taken. Give this step an id of its own.',
  ],
  [
    'a block visited twice',
    `  - visit: power-now\n  - visit: power-now\n${DESK}`,
    '5: the id "power-now" is taken. Give this step an id of its own.',
  ],
  [
    'a finding that there is not',
    `${ASK}    fills: message\n  - say: Thanks.\n    if: { rom: none }\n${DESK}`,
    '9: nothing sets a finding "rom". Write "room" if that is meant.',
  ],
  [
    'a value that there is not',
    `${ASK}    fills: message\n  - say: Thanks.\n    if: { room: empty }\n${DESK}`,
    '9: "room" is never "empty". Use one of: little, none.',
  ],
  [
    'one answer only',
    `  - id: room\n    ask: How much?\n    answers: { none: None }\n${DESK}`,
    '6: a choice needs at least two answers. Add answers, or make it a text question.',
  ],
];
