import { isAll, isAny, isNot, readsOf } from '#engine/condition.ts';
import type { Condition, Touch } from '#engine/schema.ts';
import { ALLOWED, CASE_POLICY, CASE_WORDS, DESKTOP, DEVICE, MACHINE } from '../../names.ts';
import type { Rule } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

const INSIDE: readonly Touch[] = ['case', 'inside-cable', 'module'];

/** Either finding tells what kind of machine it is. */
const isDesktop = ({ finding, values }: { finding: string; values: readonly string[] }): boolean =>
  [DEVICE, MACHINE].includes(finding) && values.length === 1 && values[0] === DESKTOP;

/** Whatever else is so, the condition lets nothing but a desktop PC through. */
function onlyDesktop(when: Condition | null): boolean {
  if (when === null || isNot(when)) return false;
  if (isAll(when)) return when.all.some(onlyDesktop);
  if (isAny(when)) return when.any.every(onlyDesktop);
  return readsOf(when).some(isDesktop);
}

export const rule: Rule = {
  name: 'case-closed',
  proves:
    'A case is opened only by the desk, or where the site allows it and it is a desktop PC, after the cautions for it; a power supply by nobody.',

  opened({ step, view, desk }) {
    if (step.kind !== 'try') return null;
    if (step.touches.includes('power-supply')) {
      return {
        path: ['touches'],
        message: 'somebody is told to open a power supply',
        remedy: 'take the step out: it holds its charge for a long time and is replaced as a whole',
      };
    }
    if (!INSIDE.some(touch => step.touches.includes(touch))) return null;
    if (!desk && view.policy(CASE_POLICY) !== ALLOWED) {
      return {
        path: ['touches'],
        message: `a person works inside a machine where site.yaml leaves that to the desk (${CASE_POLICY})`,
        remedy: `let the step stand only where { policy.${CASE_POLICY}: ${ALLOWED} }, or hand over`,
      };
    }
    if (view.said(CASE_WORDS)) return null;
    return {
      path: ['touches'],
      message: `work inside a machine without "${CASE_WORDS}": shut down, mains lead out, power button once, bare metal`,
      remedy: `give the step \`cautions: [${CASE_WORDS}]\``,
    };
  },

  flow: ({ script, desk }) =>
    desk
      ? []
      : segmentSteps(script)
          .filter(step => step.kind === 'try' && INSIDE.some(touch => step.touches.includes(touch)))
          .filter(step => !onlyDesktop(step.if))
          .map(({ id }) => ({
            ...{ step: id, path: ['if'] },
            message:
              'people are told to open a machine, whatever kind it is: only a desktop PC is made for it',
            remedy: `let the step stand only where { ${DEVICE}: ${DESKTOP} }`,
          })),
};
