/** What the desk's side of Teams is to the person's side: presses and dialogs that are its own, and the cards of its place. */
import type { Channel } from '../channel.ts';
import type { Incoming, Reference } from './incoming.ts';

/** Somebody pressed something of ours, or filled one of our forms. */
export interface Acted {
  /** `desk:take`: which side it belongs to, and what it is. */
  verb: string;
  /** What the card carried, with what was entered. */
  data: Record<string, unknown>;
  /** Where, and by whom: `reference.user`. Shown names are `reference.user.name`. */
  reference: Reference;
  /** Of what happened: the same press twice has the same. */
  identity: string;
  at: number;
  /** The message with the card; null for a dialog that was opened from elsewhere. */
  card: string | null;
  locale: string | null;
  /** IANA name of the time zone. */
  zone: string | null;
}

/** What comes of a press: the card that stands there from now on, words, or what was wrong with it. */
export type CardAnswer = { card: unknown } | { words: string } | { wrong: string };

/** What a dialog shows next: a form or page, words with a button to close, or nothing: it closes. */
export type DialogAnswer =
  | {
      title: string;
      card: unknown;
      width?: 'small' | 'medium' | 'large';
      height?: 'small' | 'medium' | 'large';
    }
  | { words: string }
  | null;

export interface DeskSide {
  /** A press on a card with a `desk:` verb. */
  act(acted: Acted): Promise<CardAnswer>;
  /** task/fetch: a dialog is to open. */
  open(acted: Acted): Promise<DialogAnswer>;
  /** task/submit: its form was sent. */
  submit(acted: Acted): Promise<DialogAnswer>;
  /** A message: true when it was the desk's matter and is answered. */
  heard(incoming: Incoming): Promise<boolean>;
  show: NonNullable<Channel['show']>;
  /** Why tickets cannot be shown, in one line; null: they can. */
  trouble(): string | null;
  /** Lets what has begun end. */
  stop(): Promise<void>;
}
