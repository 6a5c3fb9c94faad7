/** Slips of the pen in YAML, in the words of whoever must mend them. */
import type { YAMLError } from 'yaml';

export interface Slip {
  line: number;
  message: string;
  remedy: string;
}

const QUOTES = 'put the whole text in double quotes';
const INDENT: Omit<Slip, 'line'> = {
  message: 'this line does not begin below the words that it belongs to',
  remedy: 'give it as many spaces in front as the lines beside it have',
};

/** What is not the YAML that it looks like: signs that only look like spaces, and letters that were saved wrongly. */
export function strangeIn(text: string): Slip | null {
  const rows = text.split('\n');
  const at = (wrong: RegExp) => rows.findIndex(row => wrong.test(row)) + 1;
  const unreadable = at(/\uFFFD/);
  if (unreadable > 0) {
    return {
      line: unreadable,
      message: 'the file is saved in a way that loses letters such as ä or é',
      remedy: 'save it as UTF-8, and correct the letters',
    };
  }
  const space = at(
    /^[ -]*\u00A0|^[ -]*(?:ask|say|try|help|works|caution|visit|because|title|id|if|effect|minutes):\u00A0/,
  );
  if (space === 0) return null;
  return {
    line: space,
    message: 'one of the spaces only looks like one, as text copied from a page has them',
    remedy: 'delete the spaces in front and behind the colon, and type them again',
  };
}

type Explained = Omit<Slip, 'line'> & { line?: number };

/** `line` is where the reader stumbled, `rows` the whole text, `rest` the text from there on. */
export function explain(
  { code, message }: YAMLError,
  line: number,
  rows: readonly string[],
  rest: string,
): Slip {
  const row = rows[line - 1] ?? '';
  return { line, ...(bySight(code, row, line, rows) ?? byCode(code, message, row, rest)) };
}

/** Slips that the line itself shows better than the place where reading came to an end. */
function bySight(code: string, row: string, line: number, rows: readonly string[]): Explained | null {
  if (code === 'TAB_AS_INDENT') {
    return {
      message: 'a tab stands in front of this line',
      remedy: 'use spaces there, two for each step inwards',
    };
  }
  if (code === 'DUPLICATE_KEY' || code === 'MULTIPLE_DOCS') return null;
  if (/^\s*-[^\s-]/.test(row)) {
    return { message: 'a dash needs a space behind it', remedy: 'write "- " and then the word' };
  }
  const joined = /^\s*(?:- )?([a-z_]+):(?=[^\s])/.exec(row);
  if (joined !== null) {
    return {
      message: `the colon behind "${joined[1]}" needs a space behind it`,
      remedy: `write "${joined[1]}: " and then the rest`,
    };
  }
  const [, sign] = /^\s*(?:- |[\w.-]+: +)+([*&!@`%,]|[?-](?= ))/.exec(row) ?? [];
  if (sign !== undefined) return { message: `a text that begins with ${sign} needs quotes`, remedy: QUOTES };
  const value = /^\s*(?:- )?[\w.-]+:\s+(.*)$/.exec(row)?.[1] ?? '';
  if (/^[“”„‘’‚«»]/.test(value)) {
    return { message: 'these quotes are not the ones that YAML knows', remedy: 'use the straight ones: "' };
  }
  if (NESTED.has(code)) {
    const [, word, inside] = TAKES_VALUES.exec(row) ?? [];
    if (word !== undefined) {
      return { message: `what stands behind "${word}" needs braces`, remedy: `write ${word}: { ${inside} }` };
    }
    if (/:(\s|$)/.test(value)) {
      return { message: 'a text with a colon in it needs quotes', remedy: QUOTES };
    }
    const bare = rows.slice(0, line).findLastIndex(before => WITHOUT_COLON.test(before));
    if (bare >= 0 && line - bare <= NEAR) {
      return { ...uncoloned(rows[bare]!), line: bare + 1 };
    }
    const deeper = rows.findIndex((next, at) => at >= line && depth(next) !== depthOfWord(row));
    return { ...INDENT, line: deeper < 0 ? line : deeper + 1 };
  }
  return null;
}

/** Words whose values are names with values: `if: device: server`. */
const TAKES_VALUES =
  /^\s*(?:- )?(if|sets|raises|clears|goes|answers|hears|opening|evidence|from|with):\s+([\w.-]+: [^{}]*)$/;
/** The reader stumbles a line or more behind it. */
const WITHOUT_COLON = /^\s*(?:- )?(?:ask|say|try|help|works|caution|visit|because|title)\s+[^:]*$/;
const NEAR = 4;

const uncoloned = (row: string): Explained => ({
  message: `"${row.trim().replace(/^- /, '')}" has no colon behind its first word`,
  remedy: 'write the word, a colon, a space and then the rest',
});

const NESTED = new Set(['BLOCK_AS_IMPLICIT_KEY', 'BLOCK_IN_FLOW', 'MULTILINE_IMPLICIT_KEY']);

const depth = (row: string): number => /^\s*/.exec(row)![0].length;
/** Where the first word of the line stands, behind its dash. */
const depthOfWord = (row: string): number => /^\s*(?:- +)?/.exec(row)![0].length;

function byCode(code: string, message: string, row: string, rest: string): Explained {
  switch (code) {
    case 'DUPLICATE_KEY':
      return {
        message: `"${/^["']?([^\s:"']+)/.exec(rest)?.[1] ?? row.trim()}" stands here twice`,
        remedy: 'keep one of the two, or begin the second step with a dash',
      };
    case 'MULTIPLE_DOCS':
      return { message: 'a line of dashes begins another document', remedy: 'take the line out' };
    case 'BAD_DQ_ESCAPE':
      return {
        message: 'in double quotes a backslash begins a special sign',
        remedy: 'put the text in single quotes',
      };
    case 'BAD_INDENT':
      return /flow/i.test(message) ? OPEN : INDENT;
    case 'MISSING_CHAR':
      if (/quote/.test(message)) {
        return {
          message: 'a quote is opened here and not closed',
          remedy: 'close it at the end of the text',
        };
      }
      if (/map values/.test(message)) {
        return uncoloned(row);
      }
      return /flow|\}|\]/i.test(message) ? OPEN : INDENT;
    case 'UNEXPECTED_TOKEN':
      if (/["']/.test(row)) return AFTER_QUOTE;
  }
  return { message: `this cannot be read (${message})`, remedy: QUOTES };
}

const OPEN = { message: 'a bracket is opened here and not closed', remedy: 'close it: { with }, [ with ]' };
const AFTER_QUOTE = {
  message: 'something stands behind the closing quote',
  remedy: "put the whole text in double quotes, and use ' for quotes and apostrophes inside",
};
