/** The shipped flows as decide knows them. */
import { loadLibrary } from '#library/load.ts';
import type { Knowledge } from '#talk/knowledge.ts';
import { knowledgeFor } from '../../src/commands/replay.ts';

const loaded = loadLibrary('flows');
export const knowledge: Knowledge = knowledgeFor({ load: () => loaded });
