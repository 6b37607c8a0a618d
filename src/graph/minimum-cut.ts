/**
 * Which edges part two vertices at least weight? The board is split into blocks
 * once (`createCutter`); a query then runs flow through the blocks between its
 * two vertices only, so its cost follows the line, not the board. Returned are
 * the cut nearest the source and the cut nearest the sink; all the cuts between
 * them are in `all-cuts.ts`, heavier ones in `next-cuts.ts`.
 * Source: Dinic 1970; Ford & Fulkerson 1962.
 */
import { type BlockChain, chainBetween } from './block-chain.ts';
import { createBlocks } from './blocks.ts';
import { type CutWeights, createCapacities } from './capacity.ts';
import { type Arena, cutNear, edgesOf, weighChain, weightOfArcs } from './chain-cut.ts';
import { createFlowScratch } from './flow.ts';
import type { Graph, Passage } from './graph.ts';
import { DEFAULT_GROUP_WORK_LIMIT, weighGroups } from './group-cut.ts';

/** A question for a cutter. */
export interface CutQuery extends CutWeights {
  /** Per edge, its group, `0..`, or -1: edges of one group are cut together for one weight. */
  readonly groups?: Int32Array;
  /** Per group, its weight; absent means 1 each. Required length: greatest group + 1. */
  readonly groupWeights?: Float64Array;
  /** Most edges the search over groups may go through, over all flows of one block; default 5 million. */
  readonly groupWorkLimit?: number;
}

/** The answer. Edge arrays are ascending and the caller's own. */
export interface Cut {
  /** Least weight that parts source and sink; 0 when apart, Infinity when `infinite`. */
  readonly value: number;
  /** No finite cut exists (or source and sink are one vertex). */
  readonly infinite: boolean;
  /** No way joins the two as it is; there is nothing to cut. */
  readonly apart: boolean;
  /** The cut nearest the source. With groups: the edges across the one found; a group met is cut whole. */
  readonly nearSource: Int32Array;
  /** The cut nearest the sink. With groups: the same as `nearSource`. */
  readonly nearSink: Int32Array;
  /** Groups cut, ascending. */
  readonly groupsCut: Int32Array;
  /** False when the search over groups met its limit: `value` may then be too high. */
  readonly proven: boolean;
  /** No cut weighs less than this; equals `value` when proven. */
  readonly lowerBound: number;
}

/** Built once per board state, asked often; not for two askers at a time (shared scratch). */
export interface Cutter {
  readonly graph: Graph;
  readonly passage: Passage;
  /** Blocks and scratch in which both vertices count as passable. */
  arenaFor(source: number, sink: number): Arena;
  minimumCut(query: CutQuery): Cut;
}

/**
 * Prepares minimum cuts on one graph in one state. O(vertices + edges), once.
 * @param passage what ways may use; a query may narrow it, never widen it. Stops
 *   other than a query's own source and sink are not passed. The blocks for a
 *   source or sink that is itself a stop (ground, a rail) are built on the first
 *   such query and kept until another stop is asked about.
 * @returns a cutter that keeps scratch between queries; answers are not views of it
 * Source: Hopcroft & Tarjan 1973 (blocks); Dinic 1970 (flow).
 */
export function createCutter(graph: Graph, passage: Passage = {}): Cutter {
  const arenaWithout = (opened: readonly number[]): Arena => {
    const { edgeAlive, vertexStops } = passage;
    const stops = vertexStops?.slice();
    for (const vertex of opened) if (stops !== undefined) stops[vertex] = 0;
    const blocks = createBlocks(graph, {
      ...(edgeAlive === undefined ? {} : { edgeAlive }),
      ...(stops === undefined ? {} : { vertexStops: stops }),
    });
    return { blocks, scratch: createFlowScratch(blocks) };
  };
  const plain = arenaWithout([]);
  let kept: { readonly key: string; readonly arena: Arena } | null = null;

  const arenaFor = (source: number, sink: number): Arena => {
    const opened = [source, sink].filter((vertex) => passage.vertexStops?.[vertex] === 1);
    if (opened.length === 0) return plain;
    const key = opened.sort((a, b) => a - b).join(' ');
    if (kept?.key !== key) kept = { key, arena: arenaWithout(opened) };
    return kept.arena;
  };
  const minimumCut = (query: CutQuery): Cut => findCut(arenaFor(query.source, query.sink), query);
  return { graph, passage, arenaFor, minimumCut };
}

/**
 * The chain of blocks a query is about.
 * @returns the chain, or `apart` or `infinite` where there is nothing to weigh
 * @throws RangeError when source or sink is out of range
 * Common practice, no source.
 */
export function chainFor(arena: Arena, query: CutWeights): BlockChain | 'apart' | 'infinite' {
  const { source, sink } = query;
  for (const vertex of [source, sink]) {
    if (!(vertex >= 0 && vertex < arena.blocks.graph.vertexCount))
      throw new RangeError(`no vertex ${vertex}`);
  }
  if (source === sink) return 'infinite';
  return chainBetween(arena.blocks, source, sink) ?? 'apart';
}

function noCut(value: number): Cut {
  return {
    value,
    infinite: value > 0,
    apart: value === 0,
    nearSource: new Int32Array(0),
    nearSink: new Int32Array(0),
    groupsCut: new Int32Array(0),
    proven: true,
    lowerBound: value,
  };
}

function findCut(arena: Arena, query: CutQuery): Cut {
  const chain = chainFor(arena, query);
  if (chain === 'apart') return noCut(0);
  if (chain === 'infinite') return noCut(Number.POSITIVE_INFINITY);
  if (query.groups !== undefined) return findGroupCut(arena, chain, query, query.groups);
  const capacities = createCapacities(arena.blocks, chain, query);
  const { steps, weakest } = weighChain(arena, chain, capacities);
  if (steps === 0 || steps === Number.POSITIVE_INFINITY) return noCut(steps);
  const first = cutNear(arena, chain, weakest[0] as number, capacities, 'source');
  const last = cutNear(arena, chain, weakest[weakest.length - 1] as number, capacities, 'sink');
  const value = weightOfArcs(first, capacities);
  return {
    ...noCut(0),
    apart: false,
    value,
    lowerBound: value,
    nearSource: edgesOf(first),
    nearSink: edgesOf(last),
  };
}

function findGroupCut(arena: Arena, chain: BlockChain, query: CutQuery, groups: Int32Array): Cut {
  const { weights, groupWeights } = query;
  if (query.weightsBack !== undefined) throw new RangeError('groups need undirected edges');
  const weightOf = (edge: number): number => {
    const group = groups[edge] as number;
    if (group >= 0) return groupWeights === undefined ? 1 : (groupWeights[group] as number);
    return weights === undefined ? 1 : (weights[edge] as number);
  };
  const capacities = createCapacities(arena.blocks, chain, query, weightOf);
  const limit = query.groupWorkLimit ?? DEFAULT_GROUP_WORK_LIMIT;
  const found = weighGroups(arena, chain, capacities, groups, limit);
  if (found.steps === 0 || found.steps === Number.POSITIVE_INFINITY) return noCut(found.steps);
  const isCounted = new Set<number>();
  let value = 0;
  for (const edge of found.edges) {
    const group = groups[edge] as number;
    if (group >= 0 && isCounted.has(group)) continue;
    if (group >= 0) isCounted.add(group);
    value += weightOf(edge);
  }
  const groupsCut = Int32Array.from(isCounted).sort();
  // Steps are proportional to weight, so the bound scales with the value.
  const lowerBound = found.proven ? value : (value * found.lowerSteps) / found.steps;
  return {
    value,
    infinite: false,
    apart: false,
    nearSource: found.edges,
    nearSink: found.edges.slice(),
    groupsCut,
    proven: found.proven,
    lowerBound,
  };
}
