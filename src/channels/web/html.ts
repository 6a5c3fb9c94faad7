/** Pages as text, escaped unless said otherwise: whatever stands in `html` with ${...} is text until it is Html. */

export interface Html {
  readonly html: string;
}

export type Part = Html | string | number | false | null | undefined | readonly Part[];

const ENTITIES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** For text and for attribute values in quotes. */
export const escaped = (text: string): string => text.replace(/[&<>"']/g, mark => ENTITIES[mark]!);

export function html(fixed: TemplateStringsArray, ...parts: Part[]): Html {
  return { html: fixed.reduce((page, piece, index) => page + drawn(parts[index - 1]) + piece) };
}

/** Only for markup that this program made itself. */
export const trusted = (markup: string): Html => ({ html: markup });

function drawn(part: Part): string {
  if (part === null || part === undefined || part === false) return '';
  if (typeof part === 'string') return escaped(part);
  if (typeof part === 'number') return String(part);
  if ('html' in part) return part.html;
  return part.map(drawn).join('');
}
