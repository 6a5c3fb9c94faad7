/** Every rule, one line each; a test compares it with the folders. */

import type { Rule } from './rule.ts';
import { rule as answersUsed } from './rules/answers-used/rule.ts';
import { rule as conditionsSet } from './rules/conditions-set/rule.ts';
import { rule as everyPathEnds } from './rules/every-path-ends/rule.ts';
import { rule as namesKnown } from './rules/names-known/rule.ts';
import { rule as reachable } from './rules/reachable/rule.ts';
import { rule as ticketComplete } from './rules/ticket-complete/rule.ts';

export const RULES: readonly Rule[] = [
  everyPathEnds,
  ticketComplete,
  conditionsSet,
  reachable,
  answersUsed,
  namesKnown,
];
