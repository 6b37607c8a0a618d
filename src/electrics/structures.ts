/**
 * Which structure answers a question, and is it built already? The question's
 * vertices and the fault's are followed to their limbs; what lies in a piece
 * that neither the probes nor a joint reach is left out. Kept in a bounded
 * number, least recently used out first.
 */
import type { VertexIndex } from '../board/compiled-board.ts';
import { type Element, GROUND } from '../board/compiled-board.ts';
import type { FaultEdit, Needs } from './fault-edit.ts';
import { createStructure, type Ground, type Structure } from './structure.ts';

/** Structures kept; one of a line takes some tens of kilobytes. */
const MOST_STRUCTURES = 400;

export interface Structures {
  /** The structure for a meter between two vertices (ground allowed) under a fault. */
  get(red: VertexIndex, black: VertexIndex, edit: FaultEdit): Structure;
}

export function createStructures(ground: Ground): Structures {
  const { board, limbs } = ground;
  const kept = new Map<string, Structure>();
  let last: { readonly key: string; readonly structure: Structure } | null = null;

  const needsFor = (red: VertexIndex, black: VertexIndex, edit: FaultEdit): Needs => {
    // With one probe on ground, all points of a limb share a structure.
    const alone = red === GROUND ? black : black === GROUND ? red : null;
    const limb = alone === null ? null : limbs.limbOf(alone);
    const number = limb !== null ? -1 - limb.id : red * board.vertices.length + black;
    const known = edit.needs.get(number);
    if (known !== undefined) return known;
    const made = findNeeds(ground, red, black, edit);
    edit.needs.set(number, made);
    return made;
  };

  return {
    get(red, black, edit) {
      const needs = needsFor(red, black, edit);
      const { key } = needs;
      if (last?.key === key) return last.structure;
      let structure = kept.get(key);
      if (structure === undefined) {
        structure = createStructure(ground, needs);
        const [oldest] = kept.keys();
        if (kept.size >= MOST_STRUCTURES && oldest !== undefined) kept.delete(oldest);
      } else kept.delete(key);
      kept.set(key, structure);
      last = { key, structure };
      return structure;
    },
  };
}

/** What a question needs, in an order that equal questions share. */
function findNeeds(ground: Ground, red: VertexIndex, black: VertexIndex, edit: FaultEdit): Needs {
  const { board, limbs } = ground;
  const probed = [red, black].filter((vertex) => vertex !== GROUND);
  const pieces = new Set(probed.map((vertex) => limbs.pieceOf(vertex)));
  const isIn = (vertex: VertexIndex): boolean => vertex !== GROUND && pieces.has(limbs.pieceOf(vertex));
  for (let grown = true; grown; ) {
    grown = false;
    for (const [a, b] of edit.pairs) {
      if (isIn(a) === isIn(b)) continue;
      pieces.add(limbs.pieceOf(isIn(a) ? b : a));
      grown = true;
    }
  }
  const seeds = new Set([...probed, ...edit.roots.filter(isIn)]);
  const near = new Set<number>();
  const hubs = new Set<VertexIndex>();
  const starts: VertexIndex[] = [];
  for (const vertex of seeds) {
    const limb = limbs.limbOf(vertex);
    if (limb === null) hubs.add(vertex);
    else if (!near.has(limb.id)) {
      near.add(limb.id);
      starts.push(limb.id);
    }
  }
  const pairs = edit.pairs.filter(([a]) => isIn(a));
  if (probed.length === 2 && red !== black) pairs.push([red, black]);
  const splits = edit.splits.filter((index) => isIn((board.elements[index] as Element).a));
  const ascending = (a: number, b: number): number => a - b;
  const roots = [...starts, ...hubs].sort(ascending);
  const nearLimbs = [...near].sort(ascending);
  const key = [roots, nearLimbs, pairs, splits].map((list) => list.join(' ')).join(';');
  return { key, roots, near: new Set(nearLimbs), pairs, splits };
}
