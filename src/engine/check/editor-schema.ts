/** JSON Schema (draft 2020-12) of the files that a desk lead writes, so that an editor completes and corrects while typing. */
import { z } from 'zod';
import { block, flow } from '#engine/schema.ts';

/** `flow` is the schema of flow.yaml, `block` of block.yaml. */
export const editorSchema = (of: 'flow' | 'block'): z.core.JSONSchema.BaseSchema =>
  z.toJSONSchema(of === 'flow' ? flow : block, { io: 'input', reused: 'ref' });
