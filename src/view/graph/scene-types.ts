/**
 * What does the graph region take in, and what does it draw? The input is what
 * the screen knows (board, line, diagnosis, stack state); the scene is what is
 * to be seen, still without places: nodes, edges, and the chains along which
 * the layout strings them. Both are plain data, so that canvas, list twin and
 * exported picture are three views of one scene.
 */
import type { CompiledBoard, CompiledLine, Diagnosis, FindingState, StackState } from '../../engine.ts';

export const ARRANGEMENTS = ['flow', 'around', 'stack'] as const;
export type Arrangement = (typeof ARRANGEMENTS)[number];

/** What is picked: a point by vertex id, or an element by element id (a bridge is `A|B`). */
export interface Selection {
  readonly vertex?: string;
  readonly element?: string;
}

/** Everything the graph region and its list twin need; a new object means a change. */
export interface SceneInput {
  readonly board: CompiledBoard | null;
  readonly line: CompiledLine | null;
  /** Drawn faintly: sisters, neighbours, the other end of a bridge. */
  readonly extraLines: readonly CompiledLine[];
  readonly diagnosis: Diagnosis | null;
  readonly state: StackState;
  readonly selected: Selection | null;
  readonly arrangement: Arrangement;
  /** Centre and reach (in elements) of `around`; else the selected vertex or the pin, 3. */
  readonly around?: { readonly vertex: string; readonly elements: number };
}

/** What a pick tells the screen. `line` alone: bring that faint line in. */
export interface PickDetail {
  readonly vertex?: string;
  readonly element?: string;
  readonly line?: string;
}

/** A horizontal band: a deck, a flex, or the contacts between two decks. */
export interface Band {
  /** `deck:ID` or `frame:ID`, the same keys as the where-it-lies bar. */
  readonly id: string;
  readonly kind: 'board' | 'flex' | 'frame';
  readonly title: string;
}

export type NodeKind =
  /** What lies beyond the outside pin. */
  | 'world'
  /** A place one can touch; round. */
  | 'point'
  /** Series part; a long pill that holds its two pins. */
  | 'series'
  /** Contact between decks; an upright. */
  | 'hop'
  /** Channel to ground or a rail; hangs below its line. */
  | 'shunt'
  /** Where a shunt ends: ground bars or the rail's name. */
  | 'ground'
  | 'rail'
  /** Controller pin with what it holds; a cell of the slab. */
  | 'pin'
  /** The controller's slab behind its pins. */
  | 'slab'
  /** Many things folded into one, with a count. */
  | 'stub';

/** What nodes and edges share. */
interface Shown {
  readonly id: string;
  /** Line it belongs to; null for what several lines share. */
  readonly line: string | null;
  readonly vertex: string | null;
  readonly element: string | null;
  /** Share of all suspects that involve it, 0 to 1: the width of its halo. */
  readonly share: number;
  /** Belongs to a line that is not the chosen one. */
  readonly faded: boolean;
  /** Off in this stack state: split or lifted. */
  readonly gone: boolean;
  readonly selected: boolean;
  /** Short text on the drawing; may be empty. */
  readonly title: string;
  /** Full sentence for readers: name, kind, value, state, suspicion. */
  readonly name: string;
}

/** A body of the drawing. */
export interface SceneNode extends Shown {
  readonly kind: NodeKind;
  readonly band: string;
  /** Measured value as text; empty when there is none. */
  readonly value: string;
  /** Points only. */
  readonly state: FindingState | null;
  /** Further short lines of text: what a controller pin holds. */
  readonly detail: readonly string[];
}

export type EdgeKind =
  /** Copper of one deck. */
  | 'track'
  /** From a contact's end to its upright. */
  | 'upright'
  /** Joins what hangs below to its line; no element of its own. */
  | 'stem'
  /** Two points that may be bridged; dotted. */
  | 'bridge'
  /** An element beside the way that joins two points of it. */
  | 'beside';

/** A line of the drawing, from node to node. */
export interface SceneEdge extends Shown {
  readonly kind: EdgeKind;
  readonly from: string;
  readonly to: string;
}

/** One thing that hangs below a stop: point, shunt and end, top to bottom. */
export interface Side {
  readonly nodes: readonly string[];
}

/** A point on a chain and how the chain goes on from it. */
export interface Stop {
  readonly node: string;
  readonly band: string;
  readonly join: 'track' | 'series' | 'hop' | 'pin';
  /** The node (series, hop, pin) or edge (track) of that join. */
  readonly joinId: string;
  readonly sides: readonly Side[];
  /** Stubs beside the upright: the other ends of bridge suspects. */
  readonly beside: readonly string[];
}

/** One line strung out from the outside pin to the controller pin. */
export interface Chain {
  readonly line: string;
  readonly faded: boolean;
  readonly world: string;
  readonly stops: readonly Stop[];
  readonly slab: string;
}

/** All that is to be seen, still without places. */
export interface Scene {
  readonly title: string;
  /** Top to bottom. */
  readonly bands: readonly Band[];
  readonly nodes: readonly SceneNode[];
  readonly edges: readonly SceneEdge[];
  /** The chosen line first. */
  readonly chains: readonly Chain[];
  /** Faint lines left out for want of room, by id. */
  readonly omitted: readonly string[];
  /** The whole picture in a few sentences. */
  readonly summary: string;
}

/** Most nodes and edges the canvas is given; faint lines and side points give way first. */
export const MOST_SHOWN = 400;
