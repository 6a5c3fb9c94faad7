/** What a script's conditions may read: every finding with the values that it can have. */
import type { Catalogue, Site } from './catalogue.ts';
import type { Origin, Problem } from './compile.ts';
import { readsOf } from './condition.ts';
import { choiceOf } from './near.ts';
import { SIGNS } from './schema.ts';
import { type Question, type Script, verdictOf } from './script.ts';

const questions = (script: Script): Question[] =>
  [script.main, ...Object.values(script.interrupts).map(({ steps }) => steps)]
    .flat()
    .filter(step => step.kind === 'ask' || step.kind === 'try');

/** What the finding becomes: the answer, unless that settles it otherwise (one of site.yaml's shares: `listed`). */
export const valueAfter = ({ finding, after }: Question, answer: string): string =>
  after[answer]?.sets[finding] ?? answer;

/** Collects every finding with its values: signs, policies, answers and what answers set. */
export function declare(script: Script, catalogue: Catalogue, site: Site): void {
  const add = (finding: string, values: readonly string[]) => {
    script.findings[finding] = [...new Set([...(script.findings[finding] ?? []), ...values])];
  };
  for (const sign of SIGNS) {
    add(sign, ['no', 'yes']);
    script.start[sign] = 'no';
  }
  for (const [policy, { values, default: usual }] of Object.entries(catalogue.policies)) {
    add(`policy.${policy}`, values);
    script.start[`policy.${policy}`] = site.policies[policy] ?? usual;
  }
  for (const step of [script.main, ...Object.values(script.interrupts).map(({ steps }) => steps)].flat()) {
    if (step.kind !== 'work') continue;
    for (const name of [verdictOf(step.id), step.finding]) add(name, Object.keys(step.verdicts));
    for (const { sets } of Object.values(step.verdicts)) {
      for (const [finding, value] of Object.entries(sets)) add(finding, [value]);
    }
  }
  for (const step of questions(script)) {
    add(
      step.finding,
      Object.keys(step.after).map(answer => valueAfter(step, answer)),
    );
    for (const { sets } of Object.values(step.after)) {
      for (const [finding, value] of Object.entries(sets)) add(finding, [value]);
    }
  }
}

/** Conditions read only findings that exist, and compare them with values that they can have. */
export function checkConditions(script: Script, origins: Record<string, Origin>, problems: Problem[]): void {
  const all = [script.main, ...Object.values(script.interrupts).map(({ steps }) => steps)].flat();
  for (const step of all) {
    for (const { finding, values } of readsOf(step.if)) {
      const origin = origins[step.id];
      const known = Object.hasOwn(script.findings, finding) ? script.findings[finding] : undefined;
      if (origin === undefined) continue;
      const at = { unit: origin.unit, path: [...origin.path, 'if', finding] };
      if (known === undefined) {
        problems.push({
          ...at,
          message: `nothing sets a finding "${finding}"`,
          remedy: choiceOf(finding, Object.keys(script.findings), 'name the id of an earlier question'),
        });
        continue;
      }
      for (const value of values.filter(each => !known.includes(each))) {
        problems.push({
          ...at,
          message: `"${finding}" is never "${value}"`,
          remedy: choiceOf(value, known),
        });
      }
    }
  }
}
