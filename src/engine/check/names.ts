/** Names in flows/ that the rules rely on. Whoever renames one there renames it here; the fixtures of the rules use them too. */
import type { Field } from '#engine/fields.ts';
import type { Script } from '#engine/script.ts';

/** Questions from the opening to the end, at most. A bound for the proof; the aims are lower. */
export const MOST_QUESTIONS = 25;

/** Flows for technicians. */
export const isDesk = (script: Script): boolean => script.symptom.startsWith('desk-');

/** What a hand-over after a danger sign still needs. */
export const NEEDED_IN_DANGER: readonly Field[] = ['place.site', 'place.room', 'contact.way'];

/** After a danger sign only where, who and how to reach you is asked. */
export const ASKED_IN_DANGER: readonly Field[] = [...NEEDED_IN_DANGER, 'contact.when', 'impact.who'];

/** Findings that rules look at by their value. */
export const WATCHED_FINDINGS: readonly string[] = [];

/** Cautions that rules ask for. */
export const WATCHED_CAUTIONS: readonly string[] = [];
