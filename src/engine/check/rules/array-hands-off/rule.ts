import type { Touch } from '#engine/schema.ts';
import type { TryStep } from '#engine/script.ts';
import {
  ARRAY_WORDS,
  COPY,
  COPY_SEEN,
  DEVICE,
  DID_NOT_START,
  DONE,
  HEALTHY,
  isAboutArray,
  NO_MARGIN,
  REBUILD,
  RESCUE,
  RESCUE_SETTLED,
  RESEAT,
  RUNNING,
  SERVER,
  SERVER_WORDS,
  SLOT_IDENTIFIED,
  STANDING,
} from '../../names.ts';
import type { Opened, Rule, Trouble } from '../../rule.ts';
import type { View } from '../../view.ts';

/** Their words come first, and speak of what others depend on themselves. */
const ALARMS = ['danger', 'attack', 'mechanical'] as const;

const SWAPS: readonly Touch[] = ['hot-swap', 'array-member', 'array-reseat', 'array-rebuild'];
const ARRAY: readonly Touch[] = [...SWAPS, 'array-start', 'array-check'];

export const rule: Rule = {
  name: 'array-hands-off',
  proves:
    'People at a server or an array only read lights and messages; technicians touch a member only when its slot, the standing and the data are settled.',

  opened(at) {
    const { step, desk } = at;
    if (step.kind !== 'try') return null;
    return desk ? atTheDesk(step, at.view) : forPeople(step, at);
  },

  ended({ script, view, desk, segment, by, step }) {
    if (desk || segment !== 'main' || by !== 'flow' || step.kind !== 'hand-over') return null;
    if (ALARMS.some(sign => view.sign(sign))) return null;
    if (!view.said(SERVER_WORDS)) return view.is(DEVICE, SERVER) ? UNTOLD : null;
    // Whoever spoke of a server's drive and then of something else has heard them already.
    if (isAboutArray(script) || view.sign('hardware-failure')) return null;
    return view.isSet(DEVICE) && !view.is(DEVICE, SERVER) ? MISLED : null;
  },
};

const UNTOLD: Trouble = {
  message: `a machine that others depend on is handed over without the words of "${SERVER_WORDS}"`,
  remedy: `say "${SERVER_WORDS}" once "${DEVICE}" is ${SERVER}`,
};

/** "Switch nothing off" stands in the way of what may have to be said of it next. */
const MISLED: Trouble = {
  message: `"${SERVER_WORDS}" was said of something that nobody else depends on`,
  remedy: `say it only where "${DEVICE}" is ${SERVER}`,
};

function forPeople(step: TryStep, { script, segment, view }: Opened): Trouble | null {
  const touches = step.touches.length > 0;
  const remedy = 'hand over; ask only what its lights and messages say';
  if (ARRAY.some(touch => step.touches.includes(touch))) {
    return { path: ['touches'], message: 'a person is told to handle an array', remedy };
  }
  if (step.effect === 'none' && !touches) return null;
  // An alarm's questions are those of all flows, arrays among them.
  if (segment !== 'main' || isAboutArray(script)) {
    return { message: 'at an array people only read lights and messages', remedy };
  }
  if (step.effect === 'read' || !view.is(DEVICE, SERVER)) return null;
  return {
    message: 'a person is told to switch or handle a machine that others depend on',
    remedy: `let the step stand only where "${DEVICE}" is not ${SERVER}, or hand over`,
  };
}

function atTheDesk({ touches }: TryStep, view: View): Trouble | null {
  if (touches.some(touch => touch.startsWith('array-')) && !view.said(ARRAY_WORDS)) {
    return trouble(`an array is handled without the words of "${ARRAY_WORDS}"`, 'say them at the beginning');
  }
  if (touches.includes('array-start') && (!view.isSet(STANDING) || view.is(STANDING, DID_NOT_START))) {
    return trouble(
      'an array that did not start is restarted, imported, cleared or forced',
      'save the members first',
    );
  }
  if (touches.includes('array-check') && !view.is(STANDING, HEALTHY)) {
    return trouble(
      'a check or scrub of an array that is not known to be healthy',
      `only where "${STANDING}" is ${HEALTHY}`,
    );
  }
  if (!SWAPS.some(touch => touches.includes(touch))) return null;
  if (view.is(REBUILD, RUNNING) || view.is(RESEAT, DONE)) {
    return trouble('a member is handled while the array puts itself together', 'let it finish first');
  }
  if (!view.is(SLOT_IDENTIFIED, 'yes')) {
    return trouble('a member is handled before its slot is identified', `ask for "${SLOT_IDENTIFIED}" first`);
  }
  if (!view.isSet(STANDING)) {
    return trouble('a member is handled before the standing is worked out', `establish "${STANDING}" first`);
  }
  if (touches.includes('array-reseat') && view.is(STANDING, NO_MARGIN)) {
    return trouble(
      'a member is reseated where there is no margin',
      `only where "${STANDING}" leaves a margin`,
    );
  }
  if (!view.isSet(COPY))
    return trouble('a member is handled before the data is settled', `settle "${COPY}" first`);
  if (view.is(COPY, COPY_SEEN) || view.is(RESCUE, ...RESCUE_SETTLED)) return null;
  return trouble(
    'without a copy, copying comes before the swap',
    `establish "${RESCUE}" (${RESCUE_SETTLED.join(', ')}) first`,
  );
}

const trouble = (message: string, remedy: string): Trouble => ({ path: ['touches'], message, remedy });
