/**
 * Statements about what is measured and where it may be bridged: `line`,
 * `near`, `good`.
 */
import type { GoodReading, Part, Place } from '../board-map.ts';
import { ONE_PAD_KINDS, pairKey } from '../check/map-index.ts';
import { NOTES_LIMITS } from './codes.ts';
import { type Draft, notice, numberOf, type PlacedOf, place, report, reportUnknown } from './draft.ts';
import { pairsWithin } from './pairs-within.ts';
import { shorten } from './read-statement.ts';
import type { Token, WayItem } from './statement.ts';

/** `line MARK "Mark key" K2.1 - J3.7 - F2.3~F2.8 - S.41 - R18 - U1.G4`. */
export function buildLine(draft: Draft, placed: PlacedOf<'line'>): void {
  const { id, title, way } = placed.statement;
  const path = `lines.${draft.map.lines.length}`;
  place(draft, path, placed, id);
  place(draft, `${path}.title`, placed, title ?? id);
  const points: string[] = [];
  for (const item of way) {
    for (const { text, token } of expand(draft, placed, item)) {
      place(draft, `${path}.way.${points.length}`, placed, token);
      points.push(text);
    }
  }
  draft.map.lines.push({ id: id.text, title: title?.text ?? id.text, way: points });
}

/** The points of one step: `R18` passes the part, `A~B` passes a channel, others are themselves. */
function expand(draft: Draft, placed: PlacedOf<'line'>, item: WayItem): { text: string; token: Token }[] {
  const { from, to } = item;
  const whole = to === null ? from : { ...from, end: to.end };
  if (to === null) {
    const part = partOf(draft, from.text);
    if (part === undefined || ONE_PAD_KINDS.has(part.kind)) return [{ text: from.text, token: from }];
    const ends = [`${part.id}.1`, `${part.id}.2`] as const;
    if (!draft.channelKeys.has(pairKey(...ends))) reportNoChannel(draft, placed, whole, ...ends, part);
    return ends.map((text) => ({ text, token: from }));
  }
  const part = partOf(draft, from.text.split('.', 1)[0] ?? '');
  if (part !== undefined && !draft.channelKeys.has(pairKey(from.text, to.text))) {
    reportNoChannel(draft, placed, whole, from.text, to.text, part);
  }
  return [
    { text: from.text, token: from },
    { text: to.text, token: to },
  ];
}

function partOf(draft: Draft, id: string): Part | undefined {
  const index = draft.partIndex.get(id);
  return index === undefined ? undefined : draft.map.parts[index];
}

function reportNoChannel(
  draft: Draft,
  placed: PlacedOf<'line'>,
  token: Token,
  from: string,
  to: string,
  part: Part,
): void {
  if (draft.assumed.has(`${part.id}:channels`)) return;
  const series = part.channels.slice(0, 100).find((channel) => channel.to.startsWith(`${part.id}.`));
  report(draft, placed, token, {
    code: 'no-channel',
    what: `${part.id} has no channel ${from}~${to} to pass through.`,
    mend:
      series === undefined
        ? `Add \`channel ${from}~${to} OHMS\`, or name the pins the line passes.`
        : `It has \`${series.from}~${series.to}\`.`,
  });
}

/** `near S.41 S.42 S.53` (a chain) or `near S within 1.3` (all pairs that close). */
export function buildNear(draft: Draft, placed: PlacedOf<'near'>): void {
  const { owner, points, millimetres } = placed.statement;
  if (owner !== null && millimetres !== null) {
    buildWithin(draft, placed, owner, millimetres);
    return;
  }
  const gap = millimetres === null ? null : Number.parseFloat(millimetres.text);
  for (let i = 0; i + 1 < points.length; i++) {
    const a = points[i] as Token;
    const b = points[i + 1] as Token;
    const index = addPair(draft, a.text, b.text, gap);
    if (index === null) continue;
    place(draft, `neighbours.${index}`, placed, { ...a, end: b.end });
    place(draft, `neighbours.${index}.a`, placed, a);
    place(draft, `neighbours.${index}.b`, placed, b);
    if (millimetres !== null) place(draft, `neighbours.${index}.gapMillimetres`, placed, millimetres);
  }
}

/** Adds a pair once; a second mention may only add the gap. Returns the index of a new pair. */
function addPair(draft: Draft, a: string, b: string, gap: number | null): number | null {
  const { neighbours } = draft.map;
  const known = draft.pairIndex.get(pairKey(a, b));
  const pair = known === undefined ? undefined : neighbours[known];
  if (pair !== undefined) {
    if (gap !== null) pair.gapMillimetres ??= gap;
    return null;
  }
  draft.pairIndex.set(pairKey(a, b), neighbours.length);
  neighbours.push(gap === null ? { a, b } : { a, b, gapMillimetres: gap });
  return neighbours.length - 1;
}

function buildWithin(draft: Draft, placed: PlacedOf<'near'>, owner: Token, radius: Token): void {
  if (draft.spots.has(`within.${owner.text}`)) {
    report(draft, placed, owner, {
      code: 'said-twice',
      what: `${shorten(owner.text)} has its distance already.`,
      mend: 'Keep the larger of the two.',
    });
    return;
  }
  place(draft, `within.${owner.text}`, placed, owner);
  const spots = placedPoints(draft, owner.text);
  if (spots === null) {
    reportUnknown(draft, placed, owner, {
      what: `There is no part, frame or plug \`${shorten(owner.text)}\`.`,
      name: owner.text,
      known: [...draft.frameIndex.keys(), ...draft.partIndex.keys()],
      otherwise: '`near NAME within DISTANCE` takes the name of a part, frame or plug.',
    });
    return;
  }
  const room = NOTES_LIMITS.neighbours - draft.map.neighbours.length;
  const pairs = pairsWithin(spots, Number.parseFloat(radius.text), room);
  if (pairs === null) {
    report(draft, placed, radius, {
      code: 'too-many',
      what: `This would make more than ${NOTES_LIMITS.neighbours} pairs.`,
      mend: 'Use a smaller distance.',
    });
    return;
  }
  if (pairs.length === 0) {
    notice(draft, placed, owner, {
      code: 'nothing-near',
      what: `No two places of ${owner.text} are that close (${spots.length} of them have a place).`,
      mend: 'Give its contacts or pins their places, or use a larger distance.',
    });
  }
  for (const { a, b, gapMillimetres } of pairs) {
    const index = addPair(draft, a, b, gapMillimetres);
    if (index !== null) place(draft, `neighbours.${index}`, placed, owner);
  }
}

/** Points of a frame or part that have a place of their own; `null` for an unknown name. */
function placedPoints(draft: Draft, id: string): { id: string; at: Place }[] | null {
  const frame = draft.map.frames[draft.frameIndex.get(id) ?? -1];
  if (frame !== undefined) {
    return frame.contacts.flatMap(({ number, at }) =>
      at === undefined ? [] : { id: `${id}.${number}`, at },
    );
  }
  const part = partOf(draft, id);
  return part === undefined ? null : part.pins.map(({ pin, at }) => ({ id: `${id}.${pin}`, at }));
}

/** `good J3.7 diode 0.455 0.452 OL`: readings of known-good boards. */
export function buildGood(draft: Draft, placed: PlacedOf<'good'>): void {
  const { point, reading, items } = placed.statement;
  const path = `good.${draft.map.good.length}`;
  place(draft, path, placed, point);
  place(draft, `${path}.point`, placed, point);
  const entry: GoodReading = {
    point: point.text,
    kind: reading.text as GoodReading['kind'],
    polarity: 'red-on-ground',
    state: { split: [], lifted: [], open: [] },
    values: [],
  };
  let polarities = 0;
  for (const { kind, token } of items) {
    if (kind === 'value' || kind === 'over') {
      place(draft, `${path}.values.${entry.values.length}`, placed, token);
      const unit = entry.kind === 'ohms' ? 'ohm' : 'V';
      entry.values.push(kind === 'over' ? null : numberOf(draft, placed, token, unit));
    } else if (kind === 'polarity') {
      if (++polarities > 1) {
        report(draft, placed, token, {
          code: 'said-twice',
          what: 'This reading has its polarity already.',
          mend: 'Keep one of the two.',
        });
      }
      entry.polarity = token.text === 'red-on-point' ? 'red-on-point' : 'red-on-ground';
    } else {
      place(draft, `${path}.state.${kind}.${entry.state[kind].length}`, placed, token);
      entry.state[kind].push(token.text);
    }
  }
  if (entry.values.length === 0) {
    report(draft, placed, point, {
      code: 'needs-value',
      what: 'Expected at least one value, found none.',
      mend: 'Add the readings, such as `0.455 0.452` or `OL`.',
    });
    return;
  }
  draft.map.good.push(entry);
}
