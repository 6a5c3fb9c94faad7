/** Names in flows/ that the rules rely on. Whoever renames one there renames it here; the rules' own examples use them too. */
import type { Field } from '#engine/fields.ts';
import { isDeskTopic } from '#engine/schema.ts';
import type { Script } from '#engine/script.ts';

/** Questions from the opening to the end, at most. A bound for the proof; the aims are lower. */
export const MOST_QUESTIONS = 25;

/** Flows for technicians. */
export const isDesk = ({ symptom }: Script): boolean => isDeskTopic(symptom);

/** Flows about a machine that will not start: there a repair is seen to work only after a start. */
export const isAboutStarting = ({ symptom }: Script): boolean => symptom.startsWith('boot-');

/** The words before technicians handle an array: nothing is pulled, restarted or forced until all is settled. */
export const ARRAY_WORDS = 'desk-array-first';

/** All that rules ask of a flow's symptom: flows of one kind are judged alike. */
export const kindOf = (script: Script): boolean[] =>
  [
    isDesk,
    isAboutStarting,
    isAboutShare,
    isAboutArray,
    isAboutNoise,
    isAboutDrive,
    isAboutPlugIn,
    isAboutLostFiles,
  ].map(is => is(script));

/** Flows about a share. */
export const isAboutShare = ({ symptom }: Script): boolean => symptom.startsWith('share-');

/** Flows about an array. */
export const isAboutArray = ({ symptom }: Script): boolean => symptom === 'raid-alarm';

/** What a hand-over after a danger sign still needs. */
export const NEEDED_IN_DANGER: readonly Field[] = ['place.site', 'place.room', 'contact.way'];

/** After a danger sign only where, who and how to reach you is asked. */
export const ASKED_IN_DANGER: readonly Field[] = [...NEEDED_IN_DANGER, 'contact.when', 'impact.who'];

/** The finding that settles the data question: where else the files are. Only `seen` counts as a copy. */
export const COPY = 'copy';
export const COPY_SEEN = 'seen';

/** What would be missed; `nothing` needs no copy. */
export const MISSED = 'missed';
export const NOTHING_MISSED = 'nothing';

/** What made the noise, was dropped or got wet: `drive` for a spinning drive, or one that may be. */
export const SPINS = 'spins';
export const SPINNING_DRIVE = 'drive';

/** What it sounds like, and the sounds of a dying drive; and the words that come before anybody is asked. */
export const NOISE = 'noise';
export const GRAVE_NOISES: readonly string[] = ['clicking', 'grinding', 'spin-up'];
export const NOISE_WORDS = 'noise-first';
/** Where the noise comes from when it is no drive's, and the kind of drive that cannot make it. */
export const SOURCE = 'source';
export const NO_DRIVES_NOISE: readonly string[] = ['disc', 'ups', 'other'];
export const SPINNING = 'spinning';
export const SOLID = 'solid';

/** Flows about a noise. */
export const isAboutNoise = ({ symptom }: Script): boolean => symptom === 'drive-noise';

/** What the machine did when it was switched on: `message` when it showed one. */
export const DID = 'did';
export const MESSAGE = 'message';

/** The fault that speaks for a sign, from this many bits in one answer on. */
export const FAILING = 'drive-failing';
export const STRONG_BITS = 2;

/** Answers by which an alarm turns out to be none. Any other answer to an interrupt's first question raises a sign. */
export const CALMING: readonly string[] = ['no', 'nothing', 'none', 'other', 'solid'];

/** Do they write on the thing that has the problem. */
export const WRITING_ON = 'writing-on';

/** Is it on: `on`, `off`, `not-sure`; and the question by which somebody was asked to switch it off. */
export const POWER = 'power';
export const ASKED_OFF = 'off-now';

/** Words that leave it on, and words for what others depend on. */
export const KEEP_ON_WORDS = 'keep-on';
export const SERVER_WORDS = 'server-hands-off';

/** What is said once danger or an attack is confirmed, after the words that came at once. */
export const CONFIRMED_WORDS = { danger: 'keep-away', attack: 'leave-the-traces' } as const;

/** When a danger was; long past, it leaves a suspicion behind in the midst of whatever it broke into. */
export const DANGER_WHEN = 'danger-when';
/** It got wet: with that the first minute counts, and it has words of its own. */
export const WET = 'wet';
export const WET_WORDS = 'wet-off';

/** What made it look like an attack; what is lost or stolen is nowhere to be left as it is. */
export const ATTACK_SIGN = 'attack-sign';
export const LOST = 'lost';

/** Questions that ask whether it was dropped, got wet or makes a noise. */
export const HARM_ASKED: readonly string[] = ['happened', 'harm', 'noise', 'spins', DANGER_WHEN];

/** Flows about a drive that may spin, in which people are told to start it or plug it in again. */
export const isAboutDrive = ({ symptom }: Script): boolean =>
  /^(?:boot-(?:read|no)-|drive-|health-|overheating|new-hardware)/.test(symptom);

/** Words before somebody looks into firmware setup: change nothing, leave without saving. */
export const FIRMWARE_WORDS = 'firmware-look';

/** Steps that copy what would be missed off a drive while it runs. */
export const SAVING: readonly string[] = ['copy-to-share', 'copy-out'];

/** Where the drive is: `waits` in a machine that stops at a message before it starts, and so cannot copy. */
export const PLACE = 'place';
export const WAITS = 'waits';

/** The words that protect the data; they say to press Cancel. */
export const DATA_WORDS = 'data-first';

/** Shut down, unplug, drain, ground: before a case is opened. */
export const CASE_WORDS = 'case-safe';

/** Policies. */
export const FIRMWARE_POLICY = 'firmware';
export const CASE_POLICY = 'case';
export const USB_POLICY = 'usb-storage';
export const ALLOWED = 'allowed';
/** `yes` where the desk has released this very drive; and flows about one that is plugged in. */
export const RELEASED = 'released';
export const isAboutPlugIn = ({ symptom }: Script): boolean => symptom === 'drive-missing-usb';

/** How a share refuses, with the values at which a password is typed; the words before that: a third wrong one locks. */
export const REFUSAL = 'refusal';
export const ASKS_PASSWORD: readonly string[] = ['password', 'several'];
export const PASSWORD_WORDS = 'password-twice';

/** Is the drive encrypted; `off` and `suspended` need no key. */
export const ENCRYPTION = 'encryption';
export const UNLOCKED: readonly string[] = ['off', 'suspended'];

/** `yes` once the desk has found the key for the identifier that the screen shows. */
export const KEY_ON_FILE = 'key-on-file';

/** `yes` once a drive to be formatted was told by serial number, size and having no partitions. */
export const DRIVE_IDENTIFIED = 'drive-identified';
/** `yes` once the full drives are unplugged. */
export const FULL_DRIVES_OUT = 'full-drives-out';

/** At the desk: `yes` once they proved who they are; and whose machine it is, with the values for which no key is looked for. */
export const PROVED = 'proved';
export const THEIRS = 'theirs';
export const NOT_THEIRS: readonly string[] = ['other', 'unknown'];

/** What is about: with files, `profile` where all of a desktop is gone at once and nobody could name them. */
export const THING = 'thing';
export const PROFILE = 'profile';

/** Flows about files that are gone, and their words: save nothing, what is lost may still be there. */
export const isAboutLostFiles = ({ symptom }: Script): boolean => symptom === 'files-lost';
export const STOP_WORDS = 'stop-writing';

/** What kind of thing has the problem; others depend on a `server`. */
export const DEVICE = 'device';
export const SERVER = 'server';
/** And what kind of machine asks, in flows that ask it in words of their own; the one with a case that opens. */
export const MACHINE = 'machine';
export const DESKTOP = 'desktop';
/** Things without a drive of their own. */
export const SHARE = 'share';
export const NO_DRIVE: readonly string[] = ['other', SHARE];

/** `running` while the array puts itself together. */
export const REBUILD = 'rebuild';
export const RUNNING = 'running';
/** `done` once a member was seated anew and is in again. */
export const RESEAT = 'reseat';
export const DONE = 'done';

/** `yes` once the slot of an array's member is identified. */
export const SLOT_IDENTIFIED = 'slot-identified';
/** The array's standing, as worked out. */
export const STANDING = 'standing';
export const HEALTHY = 'healthy';
export const NO_MARGIN = 'no-margin';
export const DID_NOT_START = 'did-not-start';
/** Without a copy: `done` once the data was copied off, `decided` when a technician decided not to wait for that. */
export const RESCUE = 'rescue';
export const RESCUE_SETTLED: readonly string[] = ['done', 'decided'];

/** How often this has happened on the machine; from `third` on the desk takes it. */
export const TIMES = 'times';
export const THIRD = 'third';

/** Fields of the ticket with the finding from which its priority is worked out. */
export const RANKED_BY = { 'impact.who': 'impact-who', 'impact.work': 'impact-work' } as const;

/** Fields with the finding that tells them, wherever it is asked for. */
export const TOLD_BY: Partial<Record<Field, string>> = {
  ...RANKED_BY,
  ...{ 'power.now': POWER, 'device.kind': DEVICE, 'device.writing-on': WRITING_ON, 'device.os': 'os' },
  ...{ 'history.first': TIMES, 'history.changed': 'changed' },
};

/** Findings that rules look at, with the values that they tell from all others. */
export const WATCHED_FINDINGS: Readonly<Record<string, readonly string[]>> = {
  [COPY]: [COPY_SEEN],
  [POWER]: ['on', 'off'],
  [ASKED_OFF]: [],
  [ENCRYPTION]: UNLOCKED,
  [KEY_ON_FILE]: ['yes'],
  [DRIVE_IDENTIFIED]: ['yes'],
  [FULL_DRIVES_OUT]: ['yes'],
  [DEVICE]: [SERVER, ...NO_DRIVE],
  ...Object.fromEntries(SAVING.map(step => [step, []])),
  [REBUILD]: [RUNNING],
  [RESEAT]: [DONE],
  [PROVED]: ['yes'],
  [THEIRS]: NOT_THEIRS,
  [DANGER_WHEN]: [WET],
  [ATTACK_SIGN]: [LOST],
  ...Object.fromEntries(HARM_ASKED.slice(0, 2).map(asked => [asked, []])),
  [SPINS]: [],
  [RELEASED]: ['yes'],
  [THING]: [PROFILE],
  [REFUSAL]: ASKS_PASSWORD,
  ...Object.fromEntries(Object.values(RANKED_BY).map(finding => [finding, []])),
  [NOISE]: GRAVE_NOISES,
  [SOURCE]: NO_DRIVES_NOISE,
  [SPINNING]: [SOLID],
  [DID]: [MESSAGE],
  [PLACE]: [WAITS],
  [SLOT_IDENTIFIED]: ['yes'],
  [STANDING]: [HEALTHY, NO_MARGIN, DID_NOT_START],
  [RESCUE]: RESCUE_SETTLED,
  [TIMES]: [THIRD],
};

/** Cautions that rules ask for. */
export const WATCHED_CAUTIONS: readonly string[] = [
  ...[DATA_WORDS, CASE_WORDS, KEEP_ON_WORDS, SERVER_WORDS, FIRMWARE_WORDS, NOISE_WORDS],
  ...[ARRAY_WORDS, WET_WORDS, PASSWORD_WORDS, STOP_WORDS],
  ...Object.values(CONFIRMED_WORDS),
];
