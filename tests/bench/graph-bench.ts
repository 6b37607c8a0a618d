/**
 * Cost of the graph layer on generated boards: `npx tsx tests/bench/graph-bench.ts`.
 * Prints, per board size and per kind of query, the median, the 99th percentile
 * and the worst time in milliseconds; the first tenth of each run is warm-up.
 * "line": from an outside pin to its ball; "plane": between two random points of
 * the copper planes, one block with a tenth of all vertices.
 */
import { performance } from 'node:perf_hooks';
import { allMinimumCuts } from '../../src/graph/all-cuts.ts';
import { disjointWays } from '../../src/graph/disjoint-ways.ts';
import { findWay } from '../../src/graph/find-way.ts';
import { createCutter } from '../../src/graph/minimum-cut.ts';
import { nextBestCuts } from '../../src/graph/next-cuts.ts';
import { reach } from '../../src/graph/reach.ts';
import { createRandom, generateBoard } from './graph-boards.ts';

const SEED = 7;
const TIMES = 400;
/** Few next-best questions on planes: each uses up its limit on work. */
const FEW = 5;

type Ends = readonly [source: number, sink: number];

function timeEach(label: string, ends: readonly Ends[], ask: (source: number, sink: number) => void): void {
  const times = ends.map(([source, sink]) => {
    const start = performance.now();
    ask(source, sink);
    return performance.now() - start;
  });
  const sorted = times.slice(Math.floor(times.length / 10)).sort((a, b) => a - b);
  const at = (share: number): string =>
    (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0).toFixed(3).padStart(10);
  process.stdout.write(`${label.padEnd(26)}${at(0.5)}${at(0.99)}${at(1)}\n`);
}

for (const size of [1_000, 10_000, 100_000]) {
  const { graph, vertexStops, weights, parts, lines, planes } = generateBoard(SEED, size);
  const passage = { vertexStops };
  const random = createRandom(SEED);
  const pick = <T>(list: ArrayLike<T>): T => list[Math.floor(random() * list.length)] as T;
  const lineEnds = Array.from({ length: TIMES }, () => pick(lines));
  const planeEnds = Array.from({ length: TIMES }, (): Ends => [pick(planes), pick(planes)]);
  const toGround = lineEnds.map(([source]): Ends => [source, 0]);
  const builds = Array.from({ length: 10 }, (): Ends => [0, 0]);

  const cutter = createCutter(graph, passage);
  const { blocks } = cutter.arenaFor(...pick(lines));
  let largest = 0;
  for (let block = 0; block < blocks.blockCount; block++) {
    largest = Math.max(largest, (blocks.edgeOffsets[block + 1] ?? 0) - (blocks.edgeOffsets[block] ?? 0));
  }
  process.stdout.write(
    `\n${graph.vertexCount} vertices, ${graph.edgeCount} edges, ${lines.length} lines, ` +
      `${blocks.blockCount} blocks, the largest of ${largest} edges\n${' '.repeat(26)}    median       p99     worst\n`,
  );
  timeEach('createCutter', builds, () => createCutter(graph, passage));
  for (const [where, ends, few] of [
    ['line', lineEnds, lineEnds],
    ['plane', planeEnds, planeEnds.slice(0, FEW)],
  ] as const) {
    timeEach(`${where} reach`, ends, (source) => reach(graph, source, passage));
    timeEach(`${where} findWay`, ends, (source, sink) => findWay(graph, source, sink, passage, weights));
    timeEach(`${where} cut, unit`, ends, (source, sink) => cutter.minimumCut({ source, sink }));
    timeEach(`${where} cut, weights`, ends, (source, sink) => cutter.minimumCut({ source, sink, weights }));
    timeEach(`${where} cut, groups`, ends, (source, sink) =>
      cutter.minimumCut({ source, sink, groups: parts }),
    );
    timeEach(`${where} all cuts`, ends, (source, sink) => allMinimumCuts(cutter, { source, sink }));
    timeEach(`${where} disjoint ways`, ends, (source, sink) => disjointWays(cutter, { source, sink }));
    timeEach(`${where} five next best`, few, (source, sink) =>
      nextBestCuts(cutter, { source, sink, weights, count: 5 }),
    );
  }
  timeEach('line to ground, cut', toGround, (source, sink) => cutter.minimumCut({ source, sink }));
}
