/** The text of a first flow: small, real, safe as it is, with remarks where it is to be changed. */

export interface Scaffold {
  symptom: string;
  /** In the words of the person, as in "a drive that is full". */
  title: string;
  /** Faults of the catalogue that this symptom can come from. */
  faults: string[];
}

export const forPeople = ({ symptom, title, faults }: Scaffold): string => `\
# What is asked about ${title}, from top to bottom.
# Behind # stand remarks; nobody else reads them.
symptom: ${symptom}
title: ${JSON.stringify(capital(title))}
steps:
  # A visit goes through a block, a part that many flows share. All of them are in blocks/.
  - visit: which-device
  - caution: server-hands-off
    if: { device: server }
  - visit: safe-first

  # Your own questions: put what you ask first on the telephone here.
  - id: before
    ask: Has this happened before?
    answers:
      first: "No, this is the first time"
      again: "Yes, it has happened before"
      not-sure: "I'm not sure"
    hears:
      first: ["no", "never", "first time"]
      again: ["yes", "sometimes", "every week"]
    fills: history.first

  # Something that anybody can safely do. effect says what it does to the drive: none, start, read or write.
  - id: look
    try: "Please take a photo of what it shows, or write it down word for word, and note what you were doing."
    effect: none
    minutes: 2
    works: Have you got it?
${
  faults.length === 0
    ? ''
    : `    # Where a step can cure it, say of what, and the conversation ends well when it does:\n    # fixed: ${faults[0]}${faults.length > 1 ? `     # or ${faults.slice(1).join(', ')}` : ''}\n`
}
  # What every ticket needs. A question that is answered already is not asked again.
  - visit: power-now
  - visit: data-first
  - visit: what-happened
  - visit: who-is-affected
  - visit: where-are-you

  - hand_over:
      because: "The desk takes this on from here, with everything that you told me."
      # What to do with the power until somebody comes: off, on or as-it-is.
      keep: as-it-is
`;

export const forTheDesk = ({ symptom, title }: Scaffold): string => `\
# What technicians go through: ${title}, from top to bottom. They begin it with: reseat chat --desk ${symptom.slice('desk-'.length)}
# Behind # stand remarks; nobody else reads them.
symptom: ${symptom}
title: ${JSON.stringify(capital(title))}
steps:
  # Look before touch.
  - id: look
    try: "Look at it from outside before you touch anything: labels, lights, leads, marks of a drop or of liquid."
    effect: none
    minutes: 3
    works: Have you looked?

  - id: found
    ask: Is there anything that should not be so?
    answers:
      "yes": "Yes"
      "no": "No"
      not-sure: "I'm not sure"

  # A text is kept word for word.
  - id: what
    if: { found: ["yes", not-sure] }
    ask: What is it? In a few words.

  # The last words are the result; with --ticket they go to that ticket as a note.
  - end: done
    if: { found: "no" }
    say: Looked at from outside, and nothing found.
  - end: done
    say: Looked at from outside; what was found is above.
`;

const capital = (text: string): string => `${text[0]?.toUpperCase() ?? ''}${text.slice(1)}`;
