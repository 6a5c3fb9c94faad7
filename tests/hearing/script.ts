/** A small script with phrases that give its answers already in the opening. */
import type { AskStep, Script } from '#engine/script.ts';

const ask = (finding: string, opening: Record<string, string[]>): AskStep => ({
  kind: 'ask',
  id: finding,
  finding,
  if: null,
  form: 'choice',
  text: finding,
  answers: Object.keys(opening).map(id => ({ id, label: id, hears: [] })),
  after: {},
  cautions: [],
  help: null,
  fills: [],
  optional: false,
  unit: null,
  minimum: null,
  maximum: null,
  opening,
});

export const script: Script = {
  format: 1,
  symptom: 'drive-noise',
  title: 'noise',
  faults: [],
  main: [
    ask('noise', {
      clicking: ['clicking', 'it clicks', 'drive clicks'],
      grinding: ['grinding'],
      whine: ['coil whine'],
    }),
    ask('place', {
      laptop: ['my laptop', 'laptop makes'],
      portable: ['usb drive', 'portable hard drive'],
      powered: ['big external usb drive'],
    }),
    ask('copy', { nowhere: ['no backup', 'only copy', 'not backed up', 'never backed up'] }),
    ask('did', {
      message: ["laptop won't start", 'no boot device'],
      dead: ['no lights at all', 'no sign of life'],
    }),
    ask('plugged', { yes: ['left a stick in', 'stick is still in'], no: ['nothing plugged in'] }),
  ],
  interrupts: {
    danger: {
      about: { id: 'danger', rank: 3, sign: 'danger', caution: 'c', doubt: 'd' },
      steps: [ask('when', { now: ['today'] })],
    },
  },
  findings: {},
  start: {},
  cautions: {},
  onSign: {},
};
