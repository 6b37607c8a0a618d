/**
 * What a compiled board is: vertices, elements, lines and pairs beside one
 * graph, with names on the outside and branded indexes within. `compile.ts`
 * makes it; every layer above reads it.
 */
import type { Graph } from '../graph/graph.ts';
import type { BoardMap, Channel, ControllerPin, Part, Place } from './board-map.ts';

export const VERTEX_KINDS = ['ground', 'hub', 'point', 'die', 'world'] as const;
export const ELEMENT_KINDS = ['track', 'series', 'shunt', 'hop', 'pin', 'outside'] as const;
export type VertexKind = (typeof VERTEX_KINDS)[number];
export type ElementKind = (typeof ELEMENT_KINDS)[number];

declare const vertexBrand: unique symbol;
declare const elementBrand: unique symbol;
/** Index of a vertex in a compiled board. */
export type VertexIndex = number & { readonly [vertexBrand]: true };
/** Index of an element, which is also its edge in the graph. */
export type ElementIndex = number & { readonly [elementBrand]: true };

/** The one vertex every ground probe touches. */
export const GROUND = 0 as VertexIndex;

export interface Vertex {
  /** Point id, or `ground`, `RAIL`, `NET@deck`, `U1.G4:die`, `LINE:world`. */
  readonly id: string;
  readonly kind: VertexKind;
  readonly deck: string | null;
  readonly part: string | null;
  readonly frame: string | null;
  readonly at: Place | null;
  /** Rail id where this vertex is a rail's hub. */
  readonly rail: string | null;
}

export interface Element {
  readonly id: string;
  readonly kind: ElementKind;
  readonly a: VertexIndex;
  readonly b: VertexIndex;
  readonly deck: string | null;
  readonly part: string | null;
  readonly frame: string | null;
  /** Series resistance in ohms when healthy; for junction and capacitor channels `null`. */
  readonly ohms: number | null;
  readonly channel: Channel | null;
  readonly controllerPin: ControllerPin | null;
}

/** A line with its elements in order, from the world outside to the die. */
export interface CompiledLine {
  readonly id: string;
  readonly title: string;
  readonly outside: VertexIndex;
  readonly ball: VertexIndex;
  readonly die: VertexIndex;
  readonly world: VertexIndex;
  readonly way: readonly ElementIndex[];
}

/** Two points that may be bridged; `id` is `A|B` with the names in map order. */
export interface CompiledPair {
  readonly id: string;
  readonly a: VertexIndex;
  readonly b: VertexIndex;
  readonly gapMillimetres: number | null;
}

export interface CompiledBoard {
  readonly map: BoardMap;
  readonly graph: Graph;
  readonly vertices: readonly Vertex[];
  readonly elements: readonly Element[];
  readonly lines: readonly CompiledLine[];
  readonly pairs: readonly CompiledPair[];
  /** Point name (also bare contact names) to vertex. */
  readonly vertexOf: ReadonlyMap<string, VertexIndex>;
  readonly elementOf: ReadonlyMap<string, ElementIndex>;
  readonly partOf: ReadonlyMap<string, Part>;
  /** Per vertex, 1 for ground and rail hubs: a line ends there. */
  readonly vertexStops: Uint8Array;
}

/** Healthy copper and joints, in ohms. Common practice, no source. */
export const TRACK_OHMS = 0.02;
export const HOP_OHMS = 0.02;
export const PIN_OHMS = 0.02;

/** Name before the dot: `J3.7` gives `J3`, `S.41@power` gives `S`. */
export function ownerOf(point: string): string {
  const dot = point.indexOf('.');
  return dot < 0 ? point : point.slice(0, dot);
}

/** A contact's name without the deck of its end: `S.41@power` gives `S.41`; other names stay as they are. */
export function bareName(name: string): string {
  return name.replace(/@[^@]*$/, '');
}
