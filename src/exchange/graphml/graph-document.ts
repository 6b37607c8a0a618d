/**
 * A compiled board, or the part of it that a view shows, as plain nodes and
 * edges: what goes into a GraphML file and what comes out of one. Names are
 * kept as they are; the file numbers its nodes, because names are no XML ids.
 */
import type { Place } from '../../board/board-map.ts';
import type {
  CompiledBoard,
  ELEMENT_KINDS,
  ElementIndex,
  VERTEX_KINDS,
  VertexIndex,
} from '../../board/compiled-board.ts';

export interface GraphNode {
  /** Vertex id, such as `J3.7`, `ground`, `VDD@radio`. */
  readonly id: string;
  readonly kind: (typeof VERTEX_KINDS)[number];
  readonly deck: string | null;
  readonly part: string | null;
  readonly frame: string | null;
  readonly rail: string | null;
  readonly at: Place | null;
}

export interface GraphEdge {
  /** Element id. */
  readonly id: string;
  readonly kind: (typeof ELEMENT_KINDS)[number];
  readonly from: string;
  readonly to: string;
  readonly deck: string | null;
  readonly part: string | null;
  readonly frame: string | null;
  readonly ohms: number | null;
}

export interface GraphDocument {
  readonly title: string;
  readonly nodes: readonly GraphNode[];
  readonly edges: readonly GraphEdge[];
}

/** What a view shows; an edge brings both its ends. */
export interface GraphChoice {
  readonly vertices: readonly VertexIndex[];
  readonly elements: readonly ElementIndex[];
}

/** The whole board, or a choice of it, in the board's order. O(what is taken). */
export function graphOfBoard(board: CompiledBoard, choice?: GraphChoice): GraphDocument {
  const elements = [...new Set(choice?.elements ?? board.elements.keys())].sort((a, b) => a - b);
  const vertices = new Set<number>(choice?.vertices ?? board.vertices.keys());
  for (const index of elements) {
    const element = board.elements[index];
    if (element !== undefined) vertices.add(element.a).add(element.b);
  }
  const nameOf = (vertex: number): string => board.vertices[vertex]?.id ?? '';
  return {
    title: board.map.title,
    nodes: [...vertices]
      .sort((a, b) => a - b)
      .flatMap((index): GraphNode[] => {
        const vertex = board.vertices[index];
        if (vertex === undefined) return [];
        const { id, kind, deck, part, frame, rail, at } = vertex;
        return [{ id, kind, deck, part, frame, rail, at }];
      }),
    edges: elements.flatMap((index): GraphEdge[] => {
      const element = board.elements[index];
      if (element === undefined) return [];
      const { id, kind, a, b, deck, part, frame, ohms } = element;
      return [{ id, kind, from: nameOf(a), to: nameOf(b), deck, part, frame, ohms }];
    }),
  };
}
