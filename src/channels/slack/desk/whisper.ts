/** Told to the one who acted and to nobody else: only for what is of no use to anybody else, and may get lost. */
import type { KnownBlock } from '@slack/types';
import { sections } from '../blocks.ts';
import { escaped } from '../text.ts';
import type { Desking } from './desking.ts';

const TIMEOUT = 5000;

/** Through the address that came with a press of a message's button. Never rejects. */
export async function whisper(
  { log }: Pick<Desking, 'log'>,
  responseUrl: string | undefined,
  text: string,
  blocks: KnownBlock[] = [],
): Promise<void> {
  if (responseUrl === undefined) return;
  const body = {
    response_type: 'ephemeral',
    replace_original: false,
    text: escaped(text),
    blocks: [...sections(text), ...blocks],
  };
  try {
    await fetch(responseUrl, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
      signal: AbortSignal.timeout(TIMEOUT),
    });
  } catch (error) {
    log('slack-whisper-failed', { error: String(error) });
  }
}
