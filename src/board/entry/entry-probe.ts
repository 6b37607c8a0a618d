/**
 * Where an entry is measured: names found, put as the stack state names them,
 * and refused where a shield, a joined stack or a chip hides them.
 */
import { accessNeeded, canonicalPoint, printAccessStep } from '../access.ts';
import type { ReadingKind } from '../board-map.ts';
import type { Probe } from '../reading.ts';
import type { Problem } from '../result.ts';
import { type EntryContext, problemAt, type Word } from './entry-context.ts';
import { type Found, findLine, findPoint, findThing, pointsOf } from './find-name.ts';
import { EXAMPLE, type Sense } from './read-sense.ts';

/** The probe of an entry whose kind is known, or the problem with its names. */
export function probeOf(
  sense: Sense,
  kind: ReadingKind,
  context: EntryContext,
  notices: Problem[],
): Probe | Problem {
  const [first, second] = sense.names;
  const { board, state } = context;
  if (first === undefined) return problemAt(sense.value, 'needs-point', 'Expected a name first.', EXAMPLE);
  const directed = kind === 'diode' || kind === 'ohms' || kind === 'between';
  if (!directed && sense.polarityWord !== null) {
    const mend = 'Leave it out.';
    return problemAt(sense.polarityWord, 'no-meaning', 'A polarity says nothing here.', mend);
  }
  // Kinds without a direction get the same polarity always, so that equal probes are equal.
  const usual = kind === 'between' ? 'red-on-ground' : context.polarity;
  const polarity = directed ? (sense.polarity ?? usual) : 'red-on-ground';
  const names = second === undefined ? [first] : [first, second];
  const ends: string[] = [];
  for (const word of names) {
    const found = find(kind, word, context);
    if (!found.ok) return found.problem;
    const name = kind === 'function' ? found.name : canonicalPoint(board, found.name, state);
    const hidden = kind === 'function' ? null : hiddenBy(name, kind, word, context);
    if (hidden !== null) return hidden;
    if (name !== found.name && name.startsWith(`${found.name}@`))
      notices.push(lowerEnd(word, found.name, name));
    ends.push(name);
  }
  const [at = '', and] = ends;
  if (second === undefined || and === undefined) return { kind, at, polarity, state };
  if (at === and) {
    return problemAt(second, 'same-point', `${and} is the first point already.`, 'Name the other point.');
  }
  return { kind, at, and, polarity, state };
}

function find(kind: ReadingKind, word: Word, { board }: EntryContext): Found {
  if (kind === 'function') return findLine(board, word);
  return kind === 'look' ? findThing(board, word) : findPoint(board, word);
}

/** Taken apart, a contact has two ends; the bare name means the lower one. */
function lowerEnd(word: Word, bare: string, name: string): Problem {
  const what = `${bare} is apart: it was read as ${name}.`;
  return problemAt(word, 'lower-end', what, 'Add `@DECK` for the end on the other deck.');
}

/** What must be opened before this can be touched or seen, as a problem. */
function hiddenBy(name: string, kind: ReadingKind, word: Word, context: EntryContext): Problem | null {
  const { board, state } = context;
  const part = kind === 'look' ? board.partOf.get(name) : undefined;
  const vertex = board.vertexOf.get(part === undefined ? name : (pointsOf(board, name)[0] ?? name));
  const owner = part?.id ?? (vertex === undefined ? null : (board.vertices[vertex]?.part ?? null));
  const steps = vertex === undefined ? [] : (accessNeeded(board, vertex, state) ?? []);
  // A chip is seen without lifting it, and a pull at its ball is done at the nearest copper.
  const needed = steps.filter(
    (step) => !(step.kind === 'lift' && step.id === owner && (kind === 'pull' || part !== undefined)),
  );
  if (needed.length === 0) return null;
  const verb = kind === 'look' ? 'seen' : 'touched';
  const what = `${name} cannot be ${verb} as the unit stands.`;
  const mend = `First ${needed.map(printAccessStep).join(', then ')}, and set the stack state.`;
  return problemAt(word, 'hidden', what, mend);
}
