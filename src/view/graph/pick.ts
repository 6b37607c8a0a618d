/**
 * What was picked? From a node or edge of the scene to what the screen is told.
 */
import type { PickDetail, Scene, SceneEdge, SceneNode } from './scene-types.ts';

/** A node or edge by its id. */
export function findShown(scene: Scene | undefined, id: string): SceneNode | SceneEdge | undefined {
  return scene?.nodes.find((node) => node.id === id) ?? scene?.edges.find((edge) => edge.id === id);
}

/** The full name, with the line where it is not the chosen one. */
export function nameOf(shown: SceneNode | SceneEdge | undefined): string {
  if (shown === undefined) return '';
  return shown.faded && shown.line !== null && shown.kind !== 'stub'
    ? `${shown.name}, line ${shown.line}`
    : shown.name;
}

/** The detail of `hop-pick` for a node or edge; null for what stands for nothing. */
export function pickOf(shown: SceneNode | SceneEdge | undefined): PickDetail | null {
  if (shown === undefined) return null;
  const line = shown.line === null ? {} : { line: shown.line };
  if (shown.vertex !== null) return { vertex: shown.vertex, ...line };
  if (shown.element !== null) return { element: shown.element, ...line };
  return shown.line === null ? null : line;
}
