import { describe, expect, it } from 'vitest';
import { editorSchema } from '#engine/check/editor-schema.ts';
import { STEP_KINDS, TOUCHES } from '#engine/schema.ts';

describe('the schema for editors', () => {
  const flow = JSON.parse(JSON.stringify(editorSchema('flow')));
  const [steps] = Object.values(flow.$defs).filter((each): each is { anyOf: Kind[] } =>
    Boolean((each as { anyOf?: Kind[] }).anyOf?.some(({ properties }) => properties?.try)),
  );

  interface Kind {
    properties?: Record<string, unknown>;
    required?: string[];
    additionalProperties?: boolean;
  }

  it('offers every kind of step by its keyword, and refuses words that no step has', () => {
    for (const kind of Object.keys(STEP_KINDS)) {
      const found = steps?.anyOf.find(({ required }) => required?.includes(kind));
      expect([kind, found?.additionalProperties]).toEqual([kind, false]);
    }
  });

  it('completes what a step lays hands on', () => {
    expect(JSON.stringify(flow)).toContain(JSON.stringify(TOUCHES));
  });

  it('says what a flow and a block must have', () => {
    expect(flow.required).toEqual(['symptom', 'title', 'steps']);
    expect(editorSchema('block').required).toEqual(['block', 'about', 'steps']);
  });
});
