import fc from 'fast-check';
import { expect, test } from 'vitest';
import { caseDocumentSchema } from '../../src/engine.ts';
import { createId } from '../../src/store/ids.ts';
import { createCaseDocument, createMapDocument } from '../../src/store/new-case.ts';

// RFC 9562 (2024) section 5.4: version 4 in the 13th digit, variant 8, 9, a or b in the 17th.
const VERSION_4 = /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

test('[S32] without randomUUID, as on plain http, an id has the same form and all its random bits', () => {
  fc.assert(
    fc.property(fc.uint8Array({ minLength: 16, maxLength: 16 }), (bytes) => {
      const source = {
        getRandomValues: (target: Uint8Array) => {
          target.set(bytes);
          return target;
        },
      };
      const id = createId(source as unknown as Crypto);
      expect(id).toMatch(VERSION_4);
      const back = (id.replaceAll('-', '').match(/../g) ?? []).map((pair) => Number.parseInt(pair, 16));
      const kept = (value: number, index: number) =>
        index === 6 ? value & 0x0f : index === 8 ? value & 0x3f : value;
      expect(back.map(kept)).toEqual([...bytes].map(kept));
    }),
  );
});

test('[S32] the browser’s own ids are used where there are any', () => {
  expect(createId()).toMatch(VERSION_4);
  expect(createId({ randomUUID: () => 'from-the-browser' } as unknown as Crypto)).toBe('from-the-browser');
});

test('[S32] a new case is valid, carries its map, and no two have one id', () => {
  const map = createMapDocument({ title: 'Plover HR-2', notes: 'board "Plover HR-2"\n' });
  const [first, second] = [1, 2].map(() => createCaseDocument({ title: 'MARK dead', map }));
  expect(caseDocumentSchema.parse(first)).toEqual(first);
  expect(first?.map).toEqual(map);
  expect(first?.id).not.toBe(second?.id);
});
