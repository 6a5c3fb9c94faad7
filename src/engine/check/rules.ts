/** Every rule, one line each; a test compares it with the folders. */
import type { Rule } from './rule.ts';
import { rule as alarmsFollowed } from './rules/alarms-followed/rule.ts';
import { rule as answersUsed } from './rules/answers-used/rule.ts';
import { rule as arrayHandsOff } from './rules/array-hands-off/rule.ts';
import { rule as caseClosed } from './rules/case-closed/rule.ts';
import { rule as conditionsSet } from './rules/conditions-set/rule.ts';
import { rule as dangerEverywhere } from './rules/danger-everywhere/rule.ts';
import { rule as dataFirst } from './rules/data-first/rule.ts';
import { rule as effectsTrue } from './rules/effects-true/rule.ts';
import { rule as everyPathEnds } from './rules/every-path-ends/rule.ts';
import { rule as evidenceAgrees } from './rules/evidence-agrees/rule.ts';
import { rule as failureHandedOver } from './rules/failure-handed-over/rule.ts';
import { rule as faultsFit } from './rules/faults-fit/rule.ts';
import { rule as firmwareNeedsKey } from './rules/firmware-needs-key/rule.ts';
import { rule as fixedWhenSeen } from './rules/fixed-when-seen/rule.ts';
import { rule as namesAgree } from './rules/names-agree/rule.ts';
import { rule as namesKnown } from './rules/names-known/rule.ts';
import { rule as noFormat } from './rules/no-format/rule.ts';
import { rule as noneLeftOut } from './rules/none-left-out/rule.ts';
import { rule as ownStorage } from './rules/own-storage/rule.ts';
import { rule as passwordsCounted } from './rules/passwords-counted/rule.ts';
import { rule as powerAgrees } from './rules/power-agrees/rule.ts';
import { rule as quietAfterMechanical } from './rules/quiet-after-mechanical/rule.ts';
import { rule as reachable } from './rules/reachable/rule.ts';
import { rule as savedWhileItRuns } from './rules/saved-while-it-runs/rule.ts';
import { rule as secretsUnasked } from './rules/secrets-unasked/rule.ts';
import { rule as signsAgree } from './rules/signs-agree/rule.ts';
import { rule as startsWorthIt } from './rules/starts-worth-it/rule.ts';
import { rule as textsFit } from './rules/texts-fit/rule.ts';
import { rule as ticketComplete } from './rules/ticket-complete/rule.ts';
import { rule as wordsSayIt } from './rules/words-say-it/rule.ts';

/** In the order in which they are told: what could hurt people or data first. */
export const RULES: readonly Rule[] = [
  dangerEverywhere,
  alarmsFollowed,
  quietAfterMechanical,
  dataFirst,
  startsWorthIt,
  savedWhileItRuns,
  failureHandedOver,
  signsAgree,
  evidenceAgrees,
  passwordsCounted,
  secretsUnasked,
  powerAgrees,
  caseClosed,
  arrayHandsOff,
  firmwareNeedsKey,
  noFormat,
  ownStorage,
  everyPathEnds,
  ticketComplete,
  noneLeftOut,
  fixedWhenSeen,
  effectsTrue,
  conditionsSet,
  reachable,
  answersUsed,
  namesKnown,
  namesAgree,
  faultsFit,
  wordsSayIt,
  textsFit,
];
