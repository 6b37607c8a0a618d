/**
 * Which block comes before which, over all lines at once? Dagre's ranks
 * (Gansner, Koutsofios, North & Vo 1993, layered drawing; ranker tight-tree,
 * the fastest for our sizes by our own measurement). It gets the blocks as
 * nodes, the lines as edges, and for every pair that may be bridged the wish
 * to lie on one rank, so that suspected contacts stand side by side.
 */
import type { createCytoscape } from './cytoscape-chunk.ts';
import type { Scene } from './scene-types.ts';
import type { Unit } from './units.ts';

const RANK_PX = 100;

type Link = readonly [from: string, to: string];

/** Block that holds a node, as `chain:unit`. */
function blockIndex(strung: readonly (readonly Unit[])[]): ReadonlyMap<string, string> {
  const index = new Map<string, string>();
  strung.forEach((units, chain) => {
    units.forEach((unit, i) => {
      for (const id of unit.xs.keys()) if (!index.has(id)) index.set(id, `${chain}:${i}`);
    });
  });
  return index;
}

const before = (block: string): string => {
  const [chain, unit] = block.split(':');
  return `${chain}:${Number(unit) - 1}`;
};

function dagreRanks(create: typeof createCytoscape, blocks: readonly string[], links: readonly Link[]) {
  const graph = create({
    headless: true,
    styleEnabled: false,
    elements: [
      ...blocks.map((id) => ({ data: { id } })),
      ...links.map(([source, target], i) => ({ data: { id: `link ${i}`, source, target } })),
    ],
  });
  const options = {
    name: 'dagre',
    rankDir: 'LR',
    ranker: 'tight-tree',
    rankSep: RANK_PX,
    nodeSep: 10,
    fit: false,
    nodeDimensionsIncludeLabels: false,
  } as const;
  graph.layout(options).run();
  const xs = new Map(graph.nodes().map((node) => [node.id(), Math.round(node.position('x'))] as const));
  graph.destroy();
  const order = [...new Set(xs.values())].sort((a, b) => a - b);
  return new Map([...xs].map(([id, x]) => [id, order.indexOf(x)] as const));
}

/** True if ranks grow along every chain. */
export function ranksGrow(strung: readonly (readonly Unit[])[], ranks: ReadonlyMap<string, number>): boolean {
  return strung.every((units, chain) =>
    units.every(
      (_, i) => i === 0 || (ranks.get(`${chain}:${i - 1}`) ?? 0) < (ranks.get(`${chain}:${i}`) ?? 0),
    ),
  );
}

/**
 * Ranks per block, from 0 at the left, growing along every line.
 * @param create a way to make a headless cytoscape with dagre
 */
export function rankUnits(
  scene: Scene,
  strung: readonly (readonly Unit[])[],
  create: typeof createCytoscape,
): ReadonlyMap<string, number> {
  const blocks = strung.flatMap((units, chain) => units.map((_, i) => `${chain}:${i}`));
  const chainLinks = strung.flatMap((units, chain) =>
    units.slice(1).map((_, i): Link => [`${chain}:${i}`, `${chain}:${i + 1}`]),
  );
  const index = blockIndex(strung);
  const known = new Set(blocks);
  const pairLinks = scene.edges
    .filter((edge) => edge.kind === 'bridge')
    .flatMap((edge): Link[] => {
      const from = index.get(edge.from);
      const to = index.get(edge.to);
      if (from === undefined || to === undefined || from === to) return [];
      return [
        [before(from), to],
        [before(to), from],
      ];
    })
    .filter(([from, to]) => known.has(from) && known.has(to) && from !== to);
  const wished = dagreRanks(create, blocks, [...chainLinks, ...pairLinks]);
  if (ranksGrow(strung, wished)) return wished;
  return dagreRanks(create, blocks, chainLinks);
}
