/**
 * How are points and elements called, short on the drawing and in full for
 * readers? One home for these words, so that canvas, list twin, caption and
 * exported picture say the same and can be translated in one place.
 */
import {
  bareName,
  type CompiledBoard,
  type Element,
  type Finding,
  type Outcome,
  type Vertex,
} from '../../engine.ts';
import { STATE_WORDS } from '../theme/tokens.ts';
import { LEAST_SHARE, type Marks } from './marks.ts';

const PREFIXES: readonly (readonly [number, string])[] = [
  [1e6, 'M'],
  [1e3, 'k'],
  [1, ''],
  [1e-3, 'm'],
  [1e-6, 'µ'],
  [1e-9, 'n'],
  [1e-12, 'p'],
];

/** A quantity with its unit and a fitting prefix, three figures: `47 kΩ`. */
export function printQuantity(value: number, unit: string): string {
  if (value === 0) return `0 ${unit}`;
  const size = Math.abs(value);
  if (size >= 0.1 && size < 1) return `${Number(value.toPrecision(3))} ${unit}`;
  const [factor, prefix] = PREFIXES.find(([step]) => size >= step * 0.9995) ?? [1e-12, 'p'];
  return `${Number((value / factor).toPrecision(3))} ${prefix}${unit}`;
}

/** Volts as the trade reads them, to the millivolt: `0.412 V`. */
export function printVolts(volts: number): string {
  return `${volts.toFixed(3)} V`;
}

/** A share in whole percent: `55 %`; under one percent said so. */
export function printShare(share: number): string {
  return share < LEAST_SHARE ? 'under 1 %' : `${Math.round(share * 100)} %`;
}

/** An outcome in the unit of its reading. */
export function printOutcome(outcome: Outcome, kind: Finding['probe']['kind']): string {
  if (outcome.kind === 'over') return 'OL';
  if (outcome.kind === 'word') return outcome.word;
  return kind === 'ohms' || kind === 'between'
    ? printQuantity(outcome.value, 'Ω')
    : printVolts(outcome.value);
}

/** What a reading was held against: `0.455 ± 0.006 V`. */
export function printExpectation(finding: Finding): string {
  const { outcome, spread } = finding.expected;
  if (outcome.kind !== 'value' || spread === 0) return printOutcome(outcome, finding.probe.kind);
  const { kind } = finding.probe;
  if (kind === 'ohms' || kind === 'between') {
    return `${printQuantity(outcome.value, 'Ω')} ± ${printQuantity(spread, 'Ω')}`;
  }
  return `${outcome.value.toFixed(3)} ± ${printVolts(spread)}`;
}

/** Title of a deck, or its id. */
export function deckTitle(board: CompiledBoard, deck: string | null): string {
  const found = board.map.decks.find((entry) => entry.id === deck);
  return found === undefined ? (deck ?? '') : found.title || found.id;
}

/** A point's name on the drawing: contact ends drop the deck, the band says it. */
export function pointTitle(vertex: Vertex): string {
  return vertex.kind === 'point' ? bareName(vertex.id) : vertex.id;
}

const SERIES_WORDS: Readonly<Record<string, string>> = {
  resistor: 'series resistor',
  bead: 'bead',
  inductor: 'inductor',
  fuse: 'fuse',
  switch: 'switch',
  link: 'link',
  'filter-array': 'filter section',
};

/** What sort of thing an element is, in a word or two. */
export function kindWord(board: CompiledBoard, element: Element): string {
  const part = element.part === null ? undefined : board.partOf.get(element.part);
  switch (element.kind) {
    case 'track':
      return 'copper';
    case 'hop': {
      const frame = board.map.frames.find((entry) => entry.id === element.frame);
      return frame?.kind === 'plugged' ? 'plug contact' : 'frame contact';
    }
    case 'pin':
      return 'controller pin';
    case 'outside':
      return 'outside the board';
    case 'series':
      return SERIES_WORDS[part?.kind ?? ''] ?? 'series part';
    case 'shunt':
      if (element.channel?.kind === 'capacitor') return 'capacitor';
      if (element.channel?.kind === 'junction') return part?.kind === 'suppressor' ? 'suppressor' : 'clamp';
      return 'resistor';
  }
}

/** The value of a channel as text; empty where there is none worth a word. */
export function channelValue(element: Element): string {
  const { channel } = element;
  if (channel === null) return '';
  if (channel.kind === 'resistance') return printQuantity(channel.ohms, 'Ω');
  if (channel.kind === 'capacitor') return printQuantity(channel.farads, 'F');
  return printVolts(channel.junction.dropVolts);
}

/** An element by its two ends, without technical marks. */
export function elementTitle(board: CompiledBoard, element: Element): string {
  const a = board.vertices[element.a];
  const b = board.vertices[element.b];
  if (a === undefined || b === undefined) return element.id;
  switch (element.kind) {
    case 'hop':
    case 'pin':
      return bareName(element.id);
    case 'outside':
      return `outside of ${pointTitle(b)}`;
    case 'track':
      return `${pointTitle(a)} to ${b.kind === 'hub' ? `net ${b.id}` : pointTitle(b)}`;
    case 'series':
    case 'shunt':
      return `${pointTitle(a)} to ${b.rail === null ? pointTitle(b) : `rail ${b.rail}`}`;
  }
}

/** What a controller pin holds, in short lines for its cell of the slab. */
export function pinDetail(element: Element): readonly string[] {
  const pin = element.controllerPin;
  if (pin === null) return [];
  // The clamp to ground is the one that is read; the other is told in full on picking.
  const drop = pin.lower?.dropVolts ?? pin.upper?.junction.dropVolts;
  return [
    drop === undefined ? '' : `clamp ${drop.toFixed(3)} V`,
    pin.pull === undefined ? '' : `pull ${printQuantity(pin.pull.ohms, 'Ω')}`,
  ].filter((text) => text !== '');
}

/** The same in full, with the rails. */
function pinWords(element: Element): readonly string[] {
  const { lower, upper, pull } = element.controllerPin ?? {};
  return [
    lower === undefined ? '' : `clamp to ground ${printVolts(lower.dropVolts)}`,
    upper === undefined ? '' : `clamp to ${upper.rail} ${printVolts(upper.junction.dropVolts)}`,
    pull === undefined ? '' : `pull ${printQuantity(pull.ohms, 'Ω')} to ${pull.rail}`,
  ];
}

/** "suspect 1 of 3, 55 %", or empty. */
export function suspicionWords(marks: Marks, element: { id: string; part: string | null }): string {
  const { share, rank } = marks.suspicionOf(element);
  return rank === 0 ? '' : `suspect ${rank} of ${marks.suspectCount}, ${printShare(share)}`;
}

const sentence = (...pieces: readonly string[]): string => pieces.filter((piece) => piece !== '').join(', ');

/** A point in full: place, value, state, expectation. */
export function pointName(board: CompiledBoard, vertex: Vertex, marks: Marks): string {
  const point = marks.points.get(vertex.id);
  const finding = marks.findings.get(vertex.id);
  const same = finding?.sameAs ?? null;
  return sentence(
    pointTitle(vertex),
    `point on ${deckTitle(board, vertex.deck)}`,
    point?.label ?? '',
    STATE_WORDS[point?.state ?? 'not-measured'] + (same === null ? '' : ` (${same})`),
    finding === undefined ? '' : `expected ${printExpectation(finding)}`,
  );
}

/** An element in full: ends, kind, value, suspicion, whether it is off. */
export function elementName(board: CompiledBoard, element: Element, marks: Marks): string {
  const own = element.part === null || element.kind === 'pin' ? '' : ` ${element.part}`;
  const off = element.kind === 'hop' ? 'split apart' : 'lifted';
  return sentence(
    elementTitle(board, element),
    element.kind === 'outside' ? '' : kindWord(board, element) + own,
    ...(element.kind === 'pin' ? pinWords(element) : [channelValue(element)]),
    suspicionWords(marks, element),
    marks.isGone(element) ? off : '',
  );
}
