/**
 * What the steps ahead can read at all, whatever is answered: a first, cheap way to see that two states are one. What
 * really is read, state by state, is found by exploring; see explore.ts.
 */
import { readsOf } from '#engine/condition.ts';
import { asksAnew } from '#engine/interrupts.ts';
import type { Script, Step } from '#engine/script.ts';

export type Live = ReadonlySet<string>;

/** Per segment and step (and behind the last one), findings that conditions and known answers can still ask for. */
export function liveIn(script: Script): Map<string, Live[]> {
  const all = new Map<string, Live[]>();
  const done: { live: Live; rank: number }[] = [];
  for (const { about, steps } of Object.values(script.interrupts).sort(
    (a, b) => b.about.rank - a.about.rank,
  )) {
    const live = backwards(steps, outer(about.rank));
    const again = new Set(asksAnew(script, about.id));
    done.push({ live: new Set([...live[0]!].filter(finding => !again.has(finding))), rank: about.rank });
    all.set(about.id, live);
  }
  all.set('main', backwards(script.main, outer(0)));
  return all;

  /** An interrupt may break in anywhere, and reads what it reads. */
  function outer(rank: number): Live {
    return new Set(done.filter(other => other.rank > rank).flatMap(({ live }) => [...live]));
  }
}

/** Steps name later ones only, so one pass is enough. */
function backwards(steps: readonly Step[], always: Live): Live[] {
  const places = new Map(steps.map((step, index) => [step.id, index]));
  const live: Live[] = [];
  live[steps.length] = always;
  for (let at = steps.length - 1; at >= 0; at--) {
    const step = steps[at]!;
    const here = new Set(always);
    const join = (place: number | undefined) => {
      for (const finding of live[place ?? steps.length]!) here.add(finding);
    };
    for (const { finding } of readsOf(step.if)) here.add(finding);
    if (step.kind === 'gate') join(places.get(step.else));
    if (step.kind === 'ask') here.add(step.finding);
    if (step.kind === 'ask' || step.kind === 'try') {
      for (const { goes } of Object.values(step.after)) if (goes !== null) join(places.get(goes));
    }
    if (step.kind === 'work')
      for (const { goes } of Object.values(step.verdicts)) if (goes !== null) join(places.get(goes));
    join(at + 1);
    live[at] = here;
  }
  return live;
}
