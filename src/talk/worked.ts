/** Works out what a flow asks to have worked out, from the answers so far. */
import type { WorkedOut } from '#engine/entries.ts';
import type { WorkSource, WorkStep } from '#engine/script.ts';
import { UNCLEAR } from '#engine/script.ts';
import type { State } from '#engine/state.ts';
import { workingNamed } from '#workings/all.ts';
import { workOut } from '#workings/working.ts';

export function workedOut(step: WorkStep, state: State, at: number): WorkedOut {
  const input = inputOf(step, state);
  const { id, working: name } = step;
  const entry = { kind: 'worked', at, question: state.number, step: id, working: name, input } as const;
  const working = workingNamed(name);
  const worked = working === undefined ? null : workOut(working, input);
  if (worked === null || !worked.ok)
    return { ...entry, verdict: UNCLEAR, says: worked === null || step.perhaps ? [] : [worked.why] };
  const { says, cautions = [] } = worked.told;
  return { ...entry, verdict: worked.verdict, says: [...cautions, ...says] };
}

type Json = string | number | boolean | Json[] | { [field: string]: Json };

function inputOf({ from, with: fixed }: WorkStep, state: State): Json {
  const input: { [field: string]: Json } = {};
  for (const [field, value] of Object.entries(fixed)) put(input, field.split('.'), value as Json);
  for (const [field, source] of Object.entries(from)) {
    const value = given(source, state);
    if (value !== undefined) put(input, field.split('.'), value);
  }
  return input;
}

/** The last answer that set the finding; undefined where there is none that means anything to the working. */
function given({ finding, as, list }: WorkSource, state: State): Json | undefined {
  const value = state.answers.findLast(answer => answer.finding === finding)?.value;
  if (value === undefined) {
    const set = state.findings[finding];
    return set === undefined || as === null ? undefined : as[set];
  }
  if ('id' in value) return as === null ? value.id : as[value.id];
  if ('number' in value) return value.number;
  if (!('text' in value)) return undefined;
  return list ? listed(value.text) : value.text;
}

const NONE = /^\W*(?:none|no|nothing|not any|keine[rs]?|nein|ninguno|aucun)\W*$/i;
const PLAIN_LIST =
  /^(?:\s*(?:(?:members?|numbers?|nos?\.?|nr\.?|drives?|disks?|and|und|et|y|\d{1,3})(?![\p{L}\d])|[#&+,;]))+[\s.]*$/iu;

/**
 * Numbers only where nothing else is said. Anything else stays text, which the working refuses: "two of them" read as an empty
 * list would be an array that is well, and a serial number would be members that are not there.
 */
function listed(text: string): Json {
  if (NONE.test(text)) return [];
  return PLAIN_LIST.test(text) && /\d/.test(text) ? (text.match(/\d+/g) ?? []).map(Number) : text;
}

/** `usb.amperes` and `sets.0.gigabytes` lead into objects and lists. */
function put(into: { [field: string]: Json }, [first, ...rest]: string[], value: Json): void {
  if (first === undefined || first === '__proto__') return;
  if (rest.length === 0) {
    into[first] = value;
    return;
  }
  into[first] ??= /^\d+$/.test(rest[0]!) ? [] : {};
  put(into[first] as { [field: string]: Json }, rest, value);
}
