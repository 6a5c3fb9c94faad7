/** The workings as forms, and what came out. Pure. */
import type { InputBlock, KnownBlock, ModalView } from '@slack/types';
import { isDeskTopic } from '#engine/schema.ts';
import { LONGEST } from '#tickets/act.ts';
import { reference } from '#tickets/schema.ts';
import { WORKINGS } from '#workings/all.ts';
import { type Filled, type FormField, formOf } from '#workings/form.ts';
import { columns, noteOf } from '#workings/told.ts';
import type { Told, Working } from '#workings/working.ts';
import { button, header, option, sections, smallSaid } from '../blocks.ts';
import { cut, escaped, marked, unformatted } from '../text.ts';
import { modal } from './forms.ts';
import { lineBlocks } from './lines.ts';

/** Carried along in the views: the ticket that it was opened from. */
export interface Bench {
  number: number | null;
}
export interface Filling extends Bench {
  working: string;
}
export interface Result extends Bench {
  note: string;
}

const MOST_FIELD = 3000;
const SECTION = 2800;

/** Everything that helps at the bench: questions step by step, and the calculators. */
export function benchView(
  number: number | null,
  flows: Record<string, { script: { title: string } }>,
): ModalView {
  const topics = Object.entries(flows).filter(([topic]) => isDeskTopic(topic));
  const line = (text: string, action: string, label: string, value: string): KnownBlock => ({
    type: 'section',
    text: unformatted(cut(text, 300)),
    accessory: button(action, label, `${value} ${number ?? ''}`),
  });
  return modal(number === null ? 'At the bench' : `${reference(number)}: at the bench`, [
    header('Step by step'),
    smallSaid('The questions come in your own messages; what you find goes to the ticket as a note.'),
    ...topics.map(([topic, { script }]) => line(script.title, 'work:begin', 'Begin', topic)),
    header('Work something out'),
    ...WORKINGS.map(({ id, title }) => line(sentence(title), 'work:fill', 'Fill in', id)),
  ]);
}

export function fillView(working: Working, number: number | null): ModalView {
  return modal(working.id, [...sections(sentence(working.title)), ...formOf(working).map(input)], {
    callback_id: 'work:form',
    submit: unformatted('Work it out'),
    private_metadata: JSON.stringify({ number, working: working.id } satisfies Filling),
  });
}

function input(field: FormField): InputBlock {
  const { name, label, required, help } = field;
  return {
    type: 'input',
    block_id: name,
    label: unformatted(label),
    optional: !required,
    ...(help === '' ? {} : { hint: unformatted(cut(help, 2000)) }),
    element: elementOf(field),
  };
}

function elementOf({ kind, options, usual, longest }: FormField): InputBlock['element'] {
  if (kind === 'choice' || kind === 'yes-no') {
    const all = options.map(({ label, value }) => option(label, value));
    const initial = all.find(({ value }) => value === usual);
    return {
      type: 'static_select',
      action_id: 'v',
      options: all,
      ...(initial === undefined ? {} : { initial_option: initial }),
    };
  }
  return {
    type: 'plain_text_input',
    action_id: 'v',
    multiline: kind === 'long-text',
    max_length: Math.min(longest, MOST_FIELD),
    ...(usual === null ? {} : { placeholder: unformatted(cut(usual, 150)) }),
  };
}

export function resultView(
  working: Working,
  { told, verdict }: Extract<Filled, { ok: true }>,
  values: Record<string, string>,
  number: number | null,
): ModalView {
  const name = number === null ? null : reference(number);
  const keep: KnownBlock[] =
    name === null
      ? []
      : [
          {
            type: 'actions',
            elements: [button('work:note', `Put it on ${name} as a note`, 'note', 'primary')],
          },
        ];
  return modal(`${working.id}: ${verdict}`, [...toldBlocks(told), ...keep], {
    callback_id: 'work:result',
    close: unformatted('Back'),
    private_metadata: JSON.stringify({
      number,
      note: carried(noteOf(working, told, values, LONGEST - 100)),
    } satisfies Result),
  });
}

function toldBlocks({ says, table, limits, cautions = [] }: Told): KnownBlock[] {
  const plain = (lines: string[], head: string) => lineBlocks(lines.map(text => ({ head, text })));
  return [
    ...plain(cautions, '⚠️ '),
    ...plain(says, ''),
    ...(table === undefined ? [] : tableBlocks(columns(table).split('\n'))),
    ...lineBlocks([{ head: '*This assumes*', text: '' }, ...limits.map(text => ({ head: '• ', text }))]),
  ];
}

function tableBlocks(lines: string[]): KnownBlock[] {
  const chunks: string[] = [];
  for (const line of lines.map(each => escaped(each.replaceAll('`', 'ˋ').slice(0, 500)))) {
    const last = chunks.at(-1);
    if (last !== undefined && last.length + line.length < SECTION)
      chunks[chunks.length - 1] = `${last}\n${line}`;
    else chunks.push(line);
  }
  return chunks.map(chunk => ({ type: 'section', text: marked(`\`\`\`${chunk}\`\`\``) }));
}

/** Short enough to be carried in a view. */
function carried(note: string): string {
  let short = note;
  while (JSON.stringify({ number: 999_999_999, note: short }).length > MOST_FIELD)
    short = cut(short, short.length - 100);
  return short;
}

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
