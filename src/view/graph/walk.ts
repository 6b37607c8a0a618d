/**
 * Where does an arrow key lead? Right and left walk along a line, outside pin
 * to controller; down goes to what hangs below, then to the next line; up goes
 * back. The walk follows the line, not the paper, so it is the same when the
 * line is folded. Plain copper is passed over unless it is suspected: the list
 * twin has every piece of it.
 */
import { LEAST_SHARE } from './marks.ts';
import type { Scene, SceneEdge, SceneNode } from './scene-types.ts';

/** Ids of nodes and edges in walking order. */
export interface Walk {
  /** One per line, the chosen one first. */
  readonly lines: readonly (readonly string[])[];
  /** What hangs below a stop, nearest first. */
  readonly below: ReadonlyMap<string, readonly string[]>;
  /** The stop something hangs from. */
  readonly above: ReadonlyMap<string, string>;
}

export const WALK_KEYS = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Home', 'End'] as const;
export type WalkKey = (typeof WALK_KEYS)[number];

const worthAStop = (edge: SceneEdge | undefined): boolean =>
  edge !== undefined && (edge.share >= LEAST_SHARE || edge.selected);

/** Builds the walk of a scene. Scenes without chains are walked in the order of their nodes. */
export function walkOf(scene: Scene): Walk {
  const nodes = new Map(scene.nodes.map((node) => [node.id, node]));
  const edges = new Map(scene.edges.map((edge) => [edge.id, edge]));
  const below = new Map<string, readonly string[]>();
  const above = new Map<string, string>();
  const hang = (stop: string, ids: readonly string[]): void => {
    const own = ids.filter((id) => isPickable(nodes.get(id)));
    if (own.length === 0) return;
    below.set(stop, [...(below.get(stop) ?? []), ...own]);
    for (const id of own) above.set(id, stop);
  };
  const lines = scene.chains.map((chain) => {
    const walk: string[] = chain.world === '' ? [] : [chain.world];
    for (const stop of chain.stops) {
      walk.push(stop.node);
      if (stop.join !== 'track' || worthAStop(edges.get(stop.joinId))) walk.push(stop.joinId);
      hang(
        stop.node,
        stop.sides.flatMap((side) => side.nodes),
      );
      hang(stop.joinId, stop.beside);
    }
    return walk;
  });
  for (const edge of scene.edges) {
    if (edge.kind === 'beside') hang(edge.from, [edge.id]);
    if (edge.kind === 'bridge' && worthAStop(edge)) {
      const from = lines[0]?.includes(edge.from) ? edge.from : edge.to;
      below.set(from, [edge.id, ...(below.get(from) ?? [])]);
      above.set(edge.id, from);
    }
  }
  const loose = scene.nodes.filter(isPickable).map((node) => node.id);
  return { lines: scene.chains.length > 0 ? lines : [loose], below, above };
}

/** True for what can be picked: it is a point or an element, or stands for one. */
export function isPickable(shown: SceneNode | SceneEdge | undefined): boolean {
  return (
    shown !== undefined &&
    (shown.vertex !== null || shown.element !== null || shown.line !== null) &&
    shown.name !== ''
  );
}

function sideStep(walk: Walk, stop: string, at: string, key: WalkKey): string {
  const sides = walk.below.get(stop) ?? [];
  const index = sides.indexOf(at);
  if (key === 'ArrowDown' || key === 'ArrowRight')
    return sides[index + 1] ?? (key === 'ArrowDown' ? at : stop);
  return key === 'ArrowUp' || key === 'ArrowLeft' ? (sides[index - 1] ?? stop) : at;
}

/** The id a key leads to from `at`; the first pin of the chosen line where `at` is not in the walk. */
export function walkStep(walk: Walk, at: string | null, key: WalkKey): string | null {
  const main = walk.lines[0] ?? [];
  const stop = at === null ? undefined : walk.above.get(at);
  const row = walk.lines.findIndex((line) => at !== null && line.includes(stop ?? at));
  const line = walk.lines[row] ?? main;
  if (key === 'Home') return line[0] ?? null;
  if (key === 'End') return line[line.length - 1] ?? null;
  if (at === null || row < 0) return main[0] ?? null;
  if (stop !== undefined) return sideStep(walk, stop, at, key);
  const index = line.indexOf(at);
  switch (key) {
    case 'ArrowRight':
      return line[index + 1] ?? at;
    case 'ArrowLeft':
      return line[index - 1] ?? at;
    case 'ArrowDown':
      return walk.below.get(at)?.[0] ?? acrossTo(walk, row + 1, index, line.length) ?? at;
    case 'ArrowUp':
      return acrossTo(walk, row - 1, index, line.length) ?? at;
  }
}

/** The like place on another line: as far along as here. */
function acrossTo(walk: Walk, row: number, index: number, length: number): string | undefined {
  const other = walk.lines[row];
  if (other === undefined) return undefined;
  const along = length < 2 ? 0 : index / (length - 1);
  return other[Math.round(along * (other.length - 1))];
}

/** All ids of a walk, line by line, each stop followed by what hangs from it. */
export function walkOrder(walk: Walk): readonly string[] {
  return walk.lines.flatMap((line) => line.flatMap((id) => [id, ...(walk.below.get(id) ?? [])]));
}
