/** A share of site.yaml, and how each system takes it. Made from site.yaml alone, never from what somebody typed. */
import { z } from 'zod';
import { id } from './schema.ts';

const words = z.string().trim().min(1);
/** It stands inside our own texts, where these would be taken for marks. */
const plain = words.regex(
  /^[^*_~`[\]{}<>\r\n]*$/,
  'write it on one line, without any of * _ ~ ` [ ] { } < >',
);

/**
 * MS-DTYP 2.2.57 (UNC), less what a command line would not carry to the other end: a quotation mark, a percent sign
 * (taken for a variable even in quotes), a backtick (ends the code that it is shown as). No part ends in a space or a dot.
 */
const COMMON = String.raw`\p{L}\p{N}!#$&'()\-@^_{}~`;
const part = (more: string) => String.raw`\\[${COMMON}${more} .]*[${COMMON}${more}]`;
const PATH = new RegExp(String.raw`^\\\\[\p{L}\p{N}._\-]+${part('')}(?:${part(String.raw`+,;=[\]`)})*$`, 'u');

export const share = z.strictObject({
  id: id.describe('Its name for these files; it goes on tickets and never changes.'),
  letter: z
    .string()
    .regex(/^[A-Z]:$/, 'write a capital letter and a colon, such as "G:"')
    .optional()
    .describe('The drive letter that people know it by.'),
  path: z
    .string()
    .regex(
      PATH,
      String.raw`write it as \\server\share, with letters, figures, spaces and common marks only; a name with % or a quotation mark can't be put into a command safely`,
    )
    .describe('Where it really is. People are given it word for word.'),
  about: plain.max(60).describe('What is on it, as it reads behind its letter: "the group folders".'),
  owner: plain.max(60).describe('Who decides who may use it, by role: "the head of sales".'),
  shared: z.boolean().optional().describe('Do several people depend on it?'),
  time_critical: z.boolean().optional().describe('Does work stop within the hour without it?'),
});
export type Share = z.infer<typeof share>;

/** As it is called in a sentence and on a button: "G: (the group folders)". */
export const nameOf = ({ letter, about }: Share): string =>
  letter === undefined ? about : `${letter} (${about})`;

/** `\\files.example\groups` is on `files.example`. */
export const serverOf = ({ path }: Share): string => path.split('\\')[2] ?? '';

/** The Windows command that connects it to its letter. It holds no password: Windows uses the sign-in, or asks. */
export const connectCommand = ({ letter, path }: Share): string =>
  letter === undefined ? `net use ${argument(path)}` : `net use ${letter} ${argument(path)} /persistent:yes`;

/** The Windows command that takes away this one connection and no other. */
export const removeCommand = ({ letter, path }: Share): string =>
  `net use ${letter ?? argument(path)} /delete`;

/** The address for Connect to Server on a Mac and for Files in GNOME. */
export function smbAddress({ path }: Share): string {
  const [server = '', ...parts] = path.slice(2).split('\\');
  return `smb://${[server, ...parts.map(escaped)].join('/')}`;
}

/** RFC 3986: what may stand in a path stays readable, as in `data$`; all else is escaped. */
const escaped = (name: string): string =>
  encodeURIComponent(name).replace(/%(?:24|26|2B|2C|3B|3D|40)/g, decodeURIComponent);

/**
 * One argument of a Windows command line, in quotes. Microsoft, "Parsing C++ command-line arguments": a backslash counts
 * as such unless a quotation mark comes behind it; before one, two of them stand for one.
 */
export const argument = (text: string): string =>
  `"${text.replace(/(\\*)("|$)/g, (_, slashes: string, mark: string) => slashes + slashes + (mark && '\\"'))}"`;

/** Its letter as people say it where they are asked for it. A lone A or I is a word of its own. */
export function waysToSay({ letter }: Share): string[] {
  const bare = letter?.[0]?.toLowerCase();
  if (bare === undefined) return [];
  return bare === 'a' || bare === 'i' ? [`${bare}:`] : [`${bare}:`, bare, `${bare} drive`, `drive ${bare}`];
}
