/** Looks at a picture for talk: reads its words, finds the message in them, and has keys and passwords covered. */
import type { ScreenMessages } from '#engine/catalogue.ts';
import { type Photos, preparePhotos, seenOn } from '#hearing/photo.ts';
import { secretsIn } from '#hearing/photo-secrets.ts';
import { redact } from '#hearing/redact.ts';
import { kindOf } from '#reading/pictures/kind.ts';
import type { ScreenReader } from '#reading/screens/reader.ts';
import { linesOf } from '#reading/screens/words.ts';
import type { Look, Looked } from '#talk/deliver.ts';
import type { Knowledge } from '#talk/knowledge.ts';

const NOTHING = { seen: null, covered: null };

export function look(reader: ScreenReader, knowledge: () => Knowledge): Look {
  let photos: { of: ScreenMessages; prepared: Photos } | undefined;
  const prepared = (of: ScreenMessages): Photos => {
    if (photos?.of !== of) photos = { of, prepared: preparePhotos(of) };
    return photos.prepared;
  };
  const at = async ({ content }: { content: Uint8Array }): Promise<Looked> => {
    const type = kindOf(content);
    if (type !== 'image/png' && type !== 'image/jpeg' && type !== 'image/webp') return NOTHING;
    const words = await reader.read({ type, content });
    if (words === null) return NOTHING;
    const secrets = secretsIn(words).map(at => words[at]!.box);
    const covered = secrets.length === 0 ? null : await reader.cover({ type, content }, secrets);
    // Never done with it uncovered: it is looked at again, and whoever runs Reseat is told in the end.
    if (secrets.length > 0 && covered === null) throw new Error('a secret on a picture could not be covered');
    const { catalogue, openings } = knowledge();
    const seen = seenOn(prepared(catalogue.screenMessages), openings.codes, linesOf(words));
    return { seen: seen && { ...seen, verbatim: redact(seen.verbatim).text }, covered };
  };
  return Object.assign(at, { stop: () => reader.close() });
}
