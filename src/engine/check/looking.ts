/** What the rules see at an open question, and what one can do there beside answering; remembered at its place. */
import type { Question, Script } from '#engine/script.ts';
import { URGENT } from '#engine/state.ts';
import type { Eyes } from './exploring.ts';
import { type Edge, leaving, type Move } from './graph.ts';
import type { Fork, Look, Place } from './places.ts';
import type { Space } from './space.ts';
import { type Doors, doors } from './transition.ts';
import type { Vector } from './vectors.ts';
import { ObservedView } from './view.ts';

export interface Asking {
  script: Script;
  space: Space;
  eyes: Eyes;
}

/** Signs that settle it: this one is handed over. */
const DECIDING = [...URGENT, 'mechanical'] as const;

/** What the rules say to the open question. */
export function lookAt(place: Place, vector: Vector, asking: Asking): Look | Fork {
  const known = place.looks.find(vector);
  if (known !== undefined) return known;
  const { segment } = place;
  const { space, eyes } = asking;
  const { reads, interrupts, endings } = doorsAt(place, vector, asking);
  const view = new ObservedView(space, vector, reads.slice());
  const found = eyes.opened(view, segment, place.step as Question, interrupts);
  const left = endings.flatMap((ending): Edge[] => {
    const minded = eyes.ended(view, segment, ending, null);
    if (minded.length === 0) return [];
    const move: Move = { kind: 'end', by: ending.by as Extract<Move, { kind: 'end' }>['by'] };
    return [leaving(move, ending.outcome, minded)];
  });
  const decided = DECIDING.some(sign => view.sign(sign));
  const seen: Look | Fork =
    view.undecided === null
      ? { reads: view.reads, decided, found, leaving: left }
      : { policy: view.undecided, reads: view.reads };
  place.looks.add(vector, view.reads, seen);
  return seen;
}

export function doorsAt(place: Place, vector: Vector, { script, space }: Asking): Doors {
  const known = place.doors.find(vector);
  if (known !== undefined) return known;
  const found = doors(script, space, vector, place.segment, place.at, place.step as Question);
  place.doors.add(vector, found.reads, found);
  return found;
}
