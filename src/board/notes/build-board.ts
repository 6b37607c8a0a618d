/**
 * Statements that say what the board is made of: `board`, `deck`, `shield`,
 * `frame`, `plug`, `contacts`, `contact`.
 */
import { ownerOf } from '../compiled-board.ts';
import { NOTES_LIMITS } from './codes.ts';
import { contactRange } from './contact-range.ts';
import { type Draft, type PlacedOf, place, placeOf, report, reportUnknown } from './draft.ts';
import type { Token } from './statement.ts';

/** `board "Plover HR-2"`: the map's title; said once. */
export function buildBoard(draft: Draft, placed: PlacedOf<'board'>): void {
  const { title } = placed.statement;
  if (draft.spots.has('title')) {
    report(draft, placed, title, {
      code: 'said-twice',
      what: 'The board has its title already.',
      mend: 'Keep one `board` statement.',
    });
    return;
  }
  draft.map.title = title.text;
  place(draft, 'title', placed, title);
}

export function buildDeck(draft: Draft, placed: PlacedOf<'deck'>): void {
  const { id, title, flex } = placed.statement;
  const path = `decks.${draft.map.decks.length}`;
  place(draft, path, placed, id);
  place(draft, `${path}.title`, placed, title ?? id);
  draft.map.decks.push({ id: id.text, title: title?.text ?? id.text, kind: flex ? 'flex' : 'board' });
}

export function buildShield(draft: Draft, placed: PlacedOf<'shield'>): void {
  const { id, deck } = placed.statement;
  const path = `shields.${draft.map.shields.length}`;
  place(draft, path, placed, id);
  place(draft, `${path}.deck`, placed, deck);
  draft.map.shields.push({ id: id.text, deck: deck.text });
}

export function buildFrame(draft: Draft, placed: PlacedOf<'frame'>): void {
  const { id, plugged, upper, lower } = placed.statement;
  const index = draft.map.frames.length;
  const path = `frames.${index}`;
  place(draft, path, placed, id);
  place(draft, `${path}.upper`, placed, upper);
  place(draft, `${path}.lower`, placed, lower);
  if (!draft.frameIndex.has(id.text)) draft.frameIndex.set(id.text, index);
  draft.map.frames.push({
    id: id.text,
    kind: plugged ? 'plugged' : 'soldered',
    upper: upper.text,
    lower: lower.text,
    contacts: [],
  });
}

/** `contacts S 1..15 from 2.0, 1.0 step 2.0, 0`: a row of contacts. */
export function buildContacts(draft: Draft, placed: PlacedOf<'contacts'>): void {
  const { frame, first, last, grid } = placed.statement;
  const index = frameAt(draft, placed, frame, frame.text);
  if (index === null) return;
  const whole = { ...first, end: last.end };
  const range = contactRange(first.text, last.text, grid === null ? null : corners(grid));
  if (range === null) {
    report(draft, placed, whole, {
      code: 'bad-range',
      what: `\`${first.text}..${last.text}\` is no range of contact numbers.`,
      mend: 'Both ends are whole numbers with the same letters before them, such as 1..15 or A1..A15.',
    });
    return;
  }
  if (range.count > NOTES_LIMITS.contacts - draft.contactsMade) {
    report(draft, placed, whole, {
      code: 'too-many',
      what: `This would make more than ${NOTES_LIMITS.contacts} contacts.`,
      mend: 'Check the range.',
    });
    return;
  }
  const { contacts } = draft.map.frames[index] as (typeof draft.map.frames)[number];
  draft.contactsMade += range.count;
  for (const contact of range.contacts()) {
    place(draft, `frames.${index}.contacts.${contacts.length}`, placed, whole);
    contacts.push(contact);
  }
}

/** `contact S.61 at 3.0, 4.0`: one contact; its place may be left out. */
export function buildContact(draft: Draft, placed: PlacedOf<'contact'>): void {
  const { point, at } = placed.statement;
  const owner = ownerOf(point.text);
  const index = frameAt(draft, placed, point, owner);
  if (index === null) return;
  const number = point.text.slice(owner.length + 1);
  if (number === '') {
    report(draft, placed, point, {
      code: 'bad-range',
      what: `Expected one contact such as \`${owner}.1\`, found the whole frame.`,
      mend: 'Write its number after a point.',
    });
    return;
  }
  const { contacts } = draft.map.frames[index] as (typeof draft.map.frames)[number];
  const path = `frames.${index}.contacts.${contacts.length}`;
  place(draft, path, placed, point);
  contacts.push(at === null ? { number } : { number, at: placeOf(draft, placed, at, `${path}.at`) });
}

function corners(grid: NonNullable<PlacedOf<'contacts'>['statement']['grid']>) {
  const pair = ({ x, y }: { x: string; y: string }) => ({ xMillimetres: Number(x), yMillimetres: Number(y) });
  return { from: pair(grid.from), step: pair(grid.step) };
}

function frameAt(
  draft: Draft,
  placed: PlacedOf<'contact' | 'contacts'>,
  token: Token,
  id: string,
): number | null {
  const index = draft.frameIndex.get(id);
  if (index !== undefined) return index;
  reportUnknown(draft, placed, token, {
    what: `There is no frame or plug \`${id}\`.`,
    name: id,
    known: draft.frameIndex.keys(),
    otherwise: `Declare it: \`frame ${id} between UPPER, LOWER\`.`,
  });
  return null;
}
