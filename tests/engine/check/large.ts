/** A flow at the edge of what can be explored: 60 steps, and twelve findings that are all still read at the end. */
import type { Catalogue } from '#engine/catalogue.ts';
import type { Compiled } from '#engine/compile.ts';
import { catalogue, compiled } from '../../support/flows.ts';

const LIVE = 12;
const STEPS = 60;
const ANSWERS = { yes: 'Yes', no: 'No', 'not-sure': "I'm not sure" };

export function large(): { compiled: Compiled; catalogue: Catalogue } {
  const question = (id: string) => ({ id, ask: `Question ${id}?`, answers: ANSWERS });
  const asked = Array.from({ length: LIVE }, (_, index) => question(`live-${index}`));
  const read = asked.map(({ id }) => ({ ...question(`more-${id}`), if: { [id]: 'yes' } }));
  const between = Array.from({ length: STEPS - 2 * LIVE - 1 }, (_, index) => ({ say: `Word ${index}.` }));
  const steps = [...asked, ...between, ...read, { hand_over: {} }];
  return { compiled: compiled({ symptom: 'drive-slow', title: 'Large', steps }), catalogue };
}
