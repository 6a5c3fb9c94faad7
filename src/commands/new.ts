/** `reseat new flow NAME`: a first flow with a walk, both of which hold as they are. */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { SYMPTOMS } from '#engine/catalogue.ts';
import { compile } from '#engine/compile.ts';
import { choiceOf } from '#engine/near.ts';
import { flow, id, isDeskTopic } from '#engine/schema.ts';
import { hashOf } from '#library/hash.ts';
import type { Library } from '#library/load.ts';
import { readYaml } from '#library/yaml.ts';
import type { Knowledge } from '#talk/knowledge.ts';
import { recordWalk } from '#talk/record-walk.ts';
import type { Walk } from '#talk/walk.ts';
import { UserError } from '../errors.ts';
import { knowledgeFor } from './replay.ts';
import { forPeople, forTheDesk } from './scaffold.ts';
import type { Shell } from './wired.ts';

export async function newFlow(shell: Shell, name: string): Promise<void> {
  const folder = join((await shell.config()).flows, name);
  const loaded = await shell.load();
  const knowledge = knowledgeFor(loaded);
  const library = loaded.library!;
  needFree(name, folder, library);
  const text = textOf(name, library);
  const walk = recorded(name, { ...knowledge, flows: { ...knowledge.flows, [name]: known(text, library) } });
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'flow.yaml'), text);
  writeFileSync(join(folder, 'walks.yaml'), walkText(walk));
  shell.output.write(
    [
      `${join(folder, 'flow.yaml')} and walks.yaml are written, and hold as they are. After each change:`,
      `  npx reseat check ${name}`,
      `  npx reseat replay ${join(folder, 'walks.yaml')}`,
      isDeskTopic(name) ? `  npx reseat chat --desk ${name.slice('desk-'.length)}` : '  npx reseat chat',
      '',
    ].join('\n'),
  );
}

function needFree(name: string, folder: string, { flows }: Library): void {
  const free = SYMPTOMS.filter(symptom => !(symptom in flows));
  const ways = `${free.length === 0 ? 'All symptoms have a flow' : `Free: ${free.join(', ')}`}; or desk-TOPIC, for technicians.`;
  if (existsSync(folder)) {
    throw new UserError(`There is a folder ${folder} already, and nothing was changed. ${ways}`);
  }
  if (isDeskTopic(name) && id.safeParse(name).success) return;
  if ((SYMPTOMS as readonly string[]).includes(name)) return;
  const meant = choiceOf(name, free, '');
  throw new UserError(
    `"${name}" is no symptom. ${meant === '' ? '' : `${meant[0]!.toUpperCase()}${meant.slice(1)}. `}${ways}`,
  );
}

function textOf(symptom: string, { catalogue }: Library): string {
  if (isDeskTopic(symptom)) {
    return forTheDesk({ symptom, title: symptom.slice('desk-'.length).replaceAll('-', ' '), faults: [] });
  }
  const faults = Object.entries(catalogue.faults).filter(
    ([, fault]) => !fault.hardware && fault.symptoms.includes(symptom),
  );
  return forPeople({
    symptom,
    title: catalogue.symptoms[symptom]?.title ?? symptom,
    faults: faults.map(([fault]) => fault),
  });
}

function known(text: string, { blocks, catalogue, site }: Library): Knowledge['flows'][string] {
  const written = flow.parse(readYaml('flow.yaml', text).value);
  const { script } = compile(written, blocks, catalogue, site);
  return { script, hash: hashOf(script), longest: null };
}

/** The first of the ways to say it that leads straight to the flow and to its end. */
function recorded(name: string, knowledge: Knowledge): Walk {
  if (isDeskTopic(name)) return recordWalk(knowledge, { begins: name }, 'from the first look to the result')!;
  for (const opening of knowledge.catalogue.symptoms[name]?.phrases ?? []) {
    const walk = recordWalk(knowledge, { opening }, 'handed to the desk with everything');
    if (walk !== null && walk.ends === 'escalated') return walk;
  }
  throw new UserError(
    `No phrase of "${name}" in catalogue/symptoms.yaml leads to it, so nothing was written. Add one that is said of nothing else.`,
  );
}

const walkText = ({ walk, opening, begins, says, ends }: Walk): string =>
  [
    '# A conversation that must come out as it stands here. One for every way in which the flow can end.',
    '# at: the question that is open. say: what is typed; press: the answer that is pressed.',
    `- walk: ${walk}`,
    ...(opening === undefined ? [] : [`  opening: ${quoted(opening)}`]),
    ...(begins === undefined ? [] : [`  begins: ${begins}`]),
    '  says:',
    ...says.map(said =>
      'say' in said
        ? `    - { at: ${quoted(said.at)}, say: ${quoted(said.say)} }`
        : 'press' in said
          ? `    - { at: ${quoted(said.at)}, press: ${quoted(said.press)} }`
          : `    - { at: ${quoted(said.at)}, word: ${said.word} }`,
    ),
    `  ends: ${ends}`,
    '',
  ].join('\n');

/** Names stand as they are; what another reader of YAML could take for a truth value does not. */
const quoted = (text: string): string =>
  /^[a-z][\w.-]*$/.test(text) && !/^(yes|no|on|off|true|false|null)$/.test(text)
    ? text
    : JSON.stringify(text);
