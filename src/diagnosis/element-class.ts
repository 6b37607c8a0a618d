/**
 * What sort of thing an element is, where it lies, and what to call it. The
 * class picks the row of the prior table; the region is the piece of the
 * where-it-lies bar; the title is what a technician reads.
 */
import type { CompiledBoard, CompiledPair, Element, Vertex } from '../board/compiled-board.ts';
import type { Defect, Fault } from '../board/fault.ts';
import { unreachable } from '../board/result.ts';

export const ELEMENT_CLASSES = [
  'track',
  'soldered-hop',
  'plugged-hop',
  'resistor',
  'bead',
  'inductor',
  'fuse',
  'switch',
  'link',
  'filter-section',
  'clamp',
  'suppressor',
  'capacitor',
  'pull-resistor',
  'controller-pin',
  'outside',
  'frame-pair',
  'plug-pair',
  'ball-pair',
  'part-pair',
] as const;
export type ElementClass = (typeof ELEMENT_CLASSES)[number];

/** The class of an element. */
export function classOfElement(board: CompiledBoard, element: Element): ElementClass {
  switch (element.kind) {
    case 'track':
      return 'track';
    case 'hop':
      return isPlug(board, element.frame) ? 'plugged-hop' : 'soldered-hop';
    case 'pin':
      return 'controller-pin';
    case 'outside':
      return 'outside';
    case 'series':
      return classOfSeries(board, element);
    case 'shunt':
      return classOfShunt(board, element);
    default:
      return unreachable(element.kind);
  }
}

function isPlug(board: CompiledBoard, frame: string | null): boolean {
  return board.map.frames.find((entry) => entry.id === frame)?.kind === 'plugged';
}

function partKindOf(board: CompiledBoard, part: string | null): string {
  return part === null ? '' : (board.partOf.get(part)?.kind ?? '');
}

function classOfSeries(board: CompiledBoard, element: Element): ElementClass {
  const kind = partKindOf(board, element.part);
  switch (kind) {
    case 'bead':
    case 'inductor':
    case 'fuse':
    case 'switch':
    case 'link':
      return kind;
    case 'filter-array':
      return 'filter-section';
    default:
      return 'resistor';
  }
}

function classOfShunt(board: CompiledBoard, element: Element): ElementClass {
  if (element.channel?.kind === 'capacitor') return 'capacitor';
  if (element.channel?.kind === 'resistance') return 'pull-resistor';
  return partKindOf(board, element.part) === 'suppressor' ? 'suppressor' : 'clamp';
}

/** The class of a pair that may be bridged. */
export function classOfPair(board: CompiledBoard, pair: CompiledPair): ElementClass {
  const vertex = board.vertices[pair.a] as Vertex;
  if (vertex.frame !== null) return isPlug(board, vertex.frame) ? 'plug-pair' : 'frame-pair';
  const part = vertex.part === null ? undefined : board.partOf.get(vertex.part);
  return part?.ballGrid === true ? 'ball-pair' : 'part-pair';
}

/** Key of the region an element lies in, as in the where-it-lies bar. */
export function regionOfElement(element: Element): string {
  if (element.kind === 'outside') return 'outside';
  if (element.kind === 'pin') return 'controller';
  if (element.kind === 'hop') return `frame:${element.frame}`;
  return `deck:${element.deck}`;
}

/** Key of the region of a pair. */
export function regionOfPair(board: CompiledBoard, pair: CompiledPair): string {
  const vertex = board.vertices[pair.a] as Vertex;
  return vertex.frame !== null ? `frame:${vertex.frame}` : `deck:${vertex.deck}`;
}

/** An element in words: "filter section FL2.3~FL2.6", "contact S.38". */
export function titleOfElement(board: CompiledBoard, element: Element): string {
  const name = element.channel !== null && partHasOneChannel(board, element) ? element.part : element.id;
  switch (classOfElement(board, element)) {
    case 'track':
      return `track ${printTrack(element.id)}`;
    case 'soldered-hop':
      return `frame contact ${element.id}`;
    case 'plugged-hop':
      return `plug contact ${element.id}`;
    case 'filter-section':
      return `filter section ${name}`;
    case 'controller-pin':
      return `controller pin ${element.id}`;
    case 'outside':
      return `outside of ${element.id.replace(/:outside$/, '')} (flex, key or cable)`;
    case 'clamp':
      return `clamp at ${element.channel?.from ?? element.id}`;
    case 'pull-resistor':
      return `resistor ${name}`;
    default:
      return `${classOfElement(board, element)} ${name}`;
  }
}

function partHasOneChannel(board: CompiledBoard, element: Element): boolean {
  return element.part !== null && board.partOf.get(element.part)?.channels.length === 1;
}

/** `J3.7-FL2.3` as "J3.7 to FL2.3", `VBAT:C30.1` as "C30.1 to VBAT". */
export function printTrack(id: string): string {
  const colon = id.indexOf(':');
  if (colon > 0) return `${id.slice(colon + 1)} to ${id.slice(0, colon)}`;
  return id.replace('-', ' to ');
}

const DEFECT_WORDS: Readonly<Record<Defect, string>> = {
  open: 'open',
  resistive: 'resistive',
  short: 'shorted to ground',
  leak: 'leaky',
  bridge: 'bridged',
  missing: 'missing',
  bypassed: 'wired over',
  dead: 'dead inside, pin reads well',
};

/** A fault in words, capital first: "Filter section FL2.3~FL2.6 open". */
export function titleOfFault(board: CompiledBoard, fault: Fault): string {
  const words = DEFECT_WORDS[fault.defect];
  if (fault.defect === 'bridge') {
    const pair = board.pairs.find((entry) => entry.id === fault.element);
    const [a, b] = fault.element.split('|');
    const isFrame = pair !== undefined && (board.vertices[pair.a] as Vertex).frame !== null;
    return `${isFrame ? 'Contacts ' : ''}${a} and ${b} bridged`;
  }
  if (fault.defect === 'missing' || fault.defect === 'bypassed') {
    const kind = partKindOf(board, fault.element);
    return capital(`${kind === '' ? 'part' : kind.replace('-', ' ')} ${fault.element} ${words}`);
  }
  const index = board.elementOf.get(fault.element);
  const element = index === undefined ? undefined : board.elements[index];
  return capital(`${element === undefined ? fault.element : titleOfElement(board, element)} ${words}`);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
