/** Slack's published limits of blocks, messages and views, as a second opinion on what we send. Sources: tests/sources.md. */

type Block = Record<string, unknown>;

/** Everything that Slack would refuse in these blocks, as sentences; empty: nothing. */
export function wrongBlocks(blocks: unknown, most: 50 | 100): string[] {
  if (!Array.isArray(blocks)) return ['blocks are no list'];
  const wrong: string[] = [];
  const say = (where: string, what: string) => wrong.push(`${where}: ${what}`);
  if (blocks.length > most) say('blocks', `${blocks.length} of at most ${most}`);
  const ids = new Set<string>();
  for (const [index, block] of (blocks as Block[]).entries()) {
    const where = `block ${index} (${block.type})`;
    if (typeof block.block_id === 'string') {
      if (block.block_id.length > 255) say(where, 'block_id is longer than 255');
      if (ids.has(block.block_id)) say(where, `block_id ${block.block_id} is there twice`);
      ids.add(block.block_id);
    }
    for (const what of wrongBlock(block)) say(where, what);
  }
  return wrong;
}

const ELEMENTS: Record<string, number> = { context: 10, actions: 25 };

function wrongBlock(block: Block): string[] {
  const elements = (block.elements ?? []) as Block[];
  switch (block.type) {
    case 'section': {
      const fields = (block.fields ?? []) as Block[];
      return [
        ...(block.text === undefined && fields.length === 0 ? ['neither text nor fields'] : []),
        ...wrongText(block.text, 3000),
        ...(fields.length > 10 ? ['more than 10 fields'] : []),
        ...fields.flatMap(field => wrongText(field, 2000)),
        ...(block.accessory === undefined ? [] : wrongElement(block.accessory as Block)),
      ];
    }
    case 'header':
      return [...wrongText(block.text, 150), ...mustBePlain(block.text)];
    case 'divider':
      return [];
    case 'context':
    case 'actions': {
      const most = ELEMENTS[block.type]!;
      const ids = elements.map(each => each.action_id).filter(id => id !== undefined);
      return [
        ...(elements.length === 0 ? ['no elements'] : []),
        ...(elements.length > most ? [`${elements.length} of at most ${most} elements`] : []),
        ...(new Set(ids).size < ids.length ? ['the same action_id twice'] : []),
        ...elements.flatMap(each => (block.type === 'context' ? wrongText(each, 2000) : wrongElement(each))),
      ];
    }
    case 'input':
      return [
        ...wrongText(block.label, 2000),
        ...mustBePlain(block.label),
        ...(block.hint === undefined ? [] : wrongText(block.hint, 2000)),
        ...wrongElement(block.element as Block),
      ];
    case 'image':
      return String(block.alt_text ?? '').length > 2000 ? ['alt text longer than 2000'] : [];
    default:
      return [`an unknown kind of block`];
  }
}

function wrongText(text: unknown, most: number): string[] {
  if (text === undefined) return [];
  const { type, text: words } = (text ?? {}) as { type?: unknown; text?: unknown };
  if (type !== 'mrkdwn' && type !== 'plain_text') return [`text of kind ${type}`];
  if (typeof words !== 'string' || words.length === 0) return ['empty text'];
  return words.length > most ? [`${words.length} of at most ${most} characters: ${words.slice(0, 60)}`] : [];
}

const mustBePlain = (text: unknown): string[] =>
  (text as Block | undefined)?.type === 'plain_text' ? [] : ['not plain text'];

function wrongElement(element: Block): string[] {
  const { type, action_id: id } = element;
  const named = typeof id === 'string' && id.length > 0 && id.length <= 255 ? [] : ['no action_id up to 255'];
  const confirm = element.confirm === undefined ? [] : wrongConfirm(element.confirm as Block);
  const placeholder = wrongText(element.placeholder, 150);
  const options = (most: number, least = 1) => {
    const given = (element.options ?? []) as Block[];
    const values = given.map(({ value }) => value);
    return [
      ...(given.length < least || given.length > most
        ? [`${given.length} options, ${least} to ${most}`]
        : []),
      ...(new Set(values).size < values.length ? ['the same option value twice'] : []),
      ...given.flatMap(option => [
        ...wrongText(option.text, 75),
        ...wrongText(option.description, 75),
        ...(String(option.value ?? '').length > 75 ? [`option value longer than 75: ${option.value}`] : []),
        ...(option.value === undefined ? ['an option without value'] : []),
      ]),
    ];
  };
  const selects = () => {
    const groups = element.option_groups as Block[] | undefined;
    if (groups === undefined) return options(100);
    return [
      ...(groups.length > 100 ? ['more than 100 groups'] : []),
      ...groups.flatMap(group => [
        ...wrongText(group.label, 75),
        ...((group.options ?? []) as Block[]).flatMap(option => wrongText(option.text, 75)),
        ...(((group.options ?? []) as Block[]).length > 100 ? ['more than 100 options in a group'] : []),
      ]),
    ];
  };
  switch (type) {
    case 'button':
      return [
        ...named,
        ...confirm,
        ...wrongText(element.text, 75),
        ...mustBePlain(element.text),
        ...(String(element.value ?? '').length > 2000 ? ['a value longer than 2000'] : []),
        ...(String(element.accessibility_label ?? '').length > 75 ? ['accessibility label above 75'] : []),
        ...(![undefined, 'primary', 'danger'].includes(element.style as string) ? ['an unknown style'] : []),
      ];
    case 'overflow':
      return [...named, ...confirm, ...options(5)];
    case 'radio_buttons':
    case 'checkboxes':
      return [...named, ...confirm, ...options(10)];
    case 'static_select':
    case 'multi_static_select':
      return [...named, ...confirm, ...placeholder, ...selects()];
    case 'external_select':
    case 'users_select':
    case 'datepicker':
    case 'datetimepicker':
    case 'timepicker':
    case 'number_input':
    case 'file_input':
    case 'url_text_input':
    case 'email_text_input':
      return [...named, ...confirm, ...placeholder];
    case 'plain_text_input':
      return [
        ...named,
        ...placeholder,
        ...(Number(element.max_length ?? 1) > 3000 ? ['max_length above 3000'] : []),
        ...(String(element.initial_value ?? '').length > 3000 ? ['initial value above 3000'] : []),
      ];
    default:
      return [`an unknown element ${type}`];
  }
}

const wrongConfirm = (confirm: Block): string[] => [
  ...wrongText(confirm.title, 100),
  ...wrongText(confirm.text, 300),
  ...wrongText(confirm.confirm, 30),
  ...wrongText(confirm.deny, 30),
];

/** A message's arguments as `chat.postMessage` and `chat.update` take them. */
export function wrongMessage(message: { text?: unknown; blocks?: unknown }): string[] {
  const text = message.text;
  return [
    ...(typeof text !== 'string' || text.trim() === ''
      ? ['no text for notifications and screen readers']
      : []),
    ...(typeof text === 'string' && text.length > 4000 ? [`a text of ${text.length}, at most 4000`] : []),
    ...(message.blocks === undefined ? [] : wrongBlocks(message.blocks, 50)),
  ];
}

export function wrongView(view: unknown): string[] {
  const given = (view ?? {}) as Block;
  const blocks = (given.blocks ?? []) as Block[];
  const modal = given.type === 'modal';
  const inputs = blocks.some(block => block.type === 'input');
  return [
    ...wrongBlocks(given.blocks, 100),
    ...(modal ? [...wrongText(given.title, 24), ...mustBePlain(given.title)] : []),
    ...(modal && given.title === undefined ? ['a modal without title'] : []),
    ...(given.submit === undefined ? [] : wrongText(given.submit, 24)),
    ...(given.close === undefined ? [] : wrongText(given.close, 24)),
    ...(modal && inputs && given.submit === undefined ? ['inputs without submit'] : []),
    ...(String(given.private_metadata ?? '').length > 3000 ? ['private_metadata above 3000'] : []),
    ...(String(given.callback_id ?? '').length > 255 ? ['callback_id above 255'] : []),
    ...(JSON.stringify(given).length > 250_000 ? ['a view above 250 KB'] : []),
  ];
}
