/**
 * Random documents and events for property tests, drawn from the same closed
 * sets as the schemas. Times lie within one day; names include ones that
 * break careless code (empty, quotes, markup, right-to-left marks, `__proto__`).
 */
import fc from 'fast-check';
import { POLARITIES, READING_KINDS } from '../../src/board/board-map.ts';
import { HISTORY_KINDS } from '../../src/board/case.ts';
import { FUNCTION_WORDS, LOOK_WORDS, READING_SOURCES } from '../../src/board/reading.ts';
import {
  type CaseDocument,
  type CaseEvent,
  ORDINARY_METER,
  type Outcome,
  type Probe,
  type ReworkEdit,
  type StackState,
} from '../../src/engine.ts';

const NASTY_NAMES = [
  '__proto__',
  'constructor',
  '"><svg onload=x>',
  '\u202eJ3.7',
  'a\u0000b',
  '\ud800',
  '=1+1',
  '名',
];
export const name: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom('J3.7', 'F2.3', 'S.41@power', 'U1.G4'),
  fc.constantFrom(...NASTY_NAMES),
  fc.string({ minLength: 1, maxLength: 30 }),
);
export const text: fc.Arbitrary<string> = fc.oneof(fc.constant(''), name, fc.string({ maxLength: 100 }));

const names = fc.array(name, { maxLength: 3 });
export const stackState: fc.Arbitrary<StackState> = fc.record({ split: names, lifted: names, open: names });

export const outcome: fc.Arbitrary<Outcome> = fc.oneof(
  fc.record({
    kind: fc.constant('value' as const),
    value: fc.double({ min: -1000, max: 1e12, noNaN: true }).map((value) => value + 0),
  }),
  fc.constant({ kind: 'over' as const }),
  fc.record({ kind: fc.constant('word' as const), word: fc.constantFrom(...FUNCTION_WORDS, ...LOOK_WORDS) }),
);

export const probe: fc.Arbitrary<Probe> = fc.oneof(
  fc.record({
    kind: fc.constantFrom(...READING_KINDS),
    at: name,
    polarity: fc.constantFrom(...POLARITIES),
    state: stackState,
  }),
  fc.record({
    kind: fc.constant('between' as const),
    at: name,
    and: name,
    polarity: fc.constantFrom(...POLARITIES),
    state: stackState,
  }),
);

export const edit: fc.Arbitrary<ReworkEdit> = fc.oneof(
  fc.record({ kind: fc.constantFrom('remove-part' as const, 'bypass-part' as const), part: name }),
  fc.record({ kind: fc.constant('cut' as const), element: name }),
  fc.record({
    kind: fc.constant('jumper' as const),
    from: name,
    to: name,
    ohms: fc.double({ min: 0, max: 1e6, noNaN: true }),
  }),
);

export const history = fc.uniqueArray(fc.constantFrom(...HISTORY_KINDS));

/** What an event says, without its stamp; `target` numbers an earlier event to undo, redo or remove. */
type Body =
  | {
      kind: 'reading-added';
      probe: Probe;
      outcome: Outcome;
      raw: string;
      source: (typeof READING_SOURCES)[number];
    }
  | { kind: 'reading-removed' | 'undone' | 'redone'; target: number }
  | { kind: 'state-set'; state: StackState }
  | { kind: 'rework-set'; edits: ReworkEdit[] }
  | { kind: 'history-set'; history: (typeof HISTORY_KINDS)[number][] }
  | { kind: 'symptom-set' | 'title-set' | 'notes-set'; text: string }
  | { kind: 'meter-set' };

const body: fc.Arbitrary<Body> = fc.oneof(
  fc.record({
    kind: fc.constant('reading-added' as const),
    probe,
    outcome,
    raw: text,
    source: fc.constantFrom(...READING_SOURCES),
  }),
  fc.record({
    kind: fc.constantFrom('reading-removed' as const, 'undone' as const, 'redone' as const),
    target: fc.nat(20),
  }),
  fc.record({ kind: fc.constant('state-set' as const), state: stackState }),
  fc.record({ kind: fc.constant('rework-set' as const), edits: fc.array(edit, { maxLength: 3 }) }),
  fc.record({ kind: fc.constant('history-set' as const), history }),
  fc.record({
    kind: fc.constantFrom('symptom-set' as const, 'title-set' as const, 'notes-set' as const),
    text,
  }),
  fc.constant({ kind: 'meter-set' as const }),
);

function eventOf(what: Body, index: number, sequence: number): CaseEvent {
  const stamp = {
    id: `e${index}`,
    sequence,
    at: new Date(Date.UTC(2026, 0, 5, 9, 0, index)).toISOString(),
  };
  const target = 'target' in what ? `e${what.target}` : '';
  switch (what.kind) {
    case 'reading-added': {
      const { probe, outcome, raw, source } = what;
      const reading = { id: stamp.id, probe, outcome, raw, meter: 'ordinary', source };
      return { ...stamp, kind: what.kind, reading };
    }
    case 'reading-removed':
      return { ...stamp, kind: what.kind, reading: target };
    case 'undone':
    case 'redone':
      return { ...stamp, kind: what.kind, event: target };
    case 'symptom-set':
      return { ...stamp, kind: what.kind, symptom: what.text };
    case 'title-set':
      return { ...stamp, kind: what.kind, title: what.text };
    case 'notes-set':
      return { ...stamp, kind: what.kind, notes: what.text };
    case 'meter-set':
      return { ...stamp, kind: what.kind, meter: { ...ORDINARY_METER, id: stamp.id, testAmps: 0.9e-3 } };
    default:
      return { ...stamp, ...what };
  }
}

/** Events with ids `e0`, `e1`, … whose sequences may repeat and come in any order. */
export const events: fc.Arbitrary<CaseEvent[]> = fc
  .array(fc.tuple(body, fc.nat(30)), { maxLength: 20 })
  .map((bodies) => bodies.map(([what, sequence], index) => eventOf(what, index, sequence)));

export const caseDocument: fc.Arbitrary<CaseDocument> = fc
  .record({ id: name, title: text, notes: text, symptom: text, history, events })
  .map(({ id, title, notes, symptom, history, events }) => ({
    schema: 1,
    kind: 'hopline-case',
    id,
    title,
    map: { schema: 1, kind: 'hopline-map', id: `${id}-map`.slice(0, 120), title, notes },
    meter: ORDINARY_METER,
    symptom,
    history,
    events,
  }));
