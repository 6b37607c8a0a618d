/**
 * Minimum cuts of generated boards against the minimum-cut linear programme,
 * solved by HiGHS (Huangfu & Hall 2018, "Parallelizing the dual revised simplex
 * method"; npm `highs`). The programme is the dual of maximum flow (Ford &
 * Fulkerson 1962): least sum of w(e) d(e) with d(e) >= |p(a) - p(b)| for the ends
 * a, b of e, p = 1 at the source and 0 at the sink.
 */
import loadHighs from 'highs';
import { describe, expect, test } from 'vitest';
import { createCutter } from '../../src/graph/minimum-cut.ts';
import { createRandom, type GeneratedBoard, generateBoard } from '../bench/graph-boards.ts';
import { certifyCut } from '../graph/certify.ts';
import { usableEdges } from '../graph/slow-twins.ts';

const highs = await loadHighs();
const SEED = 901;
const BOARDS = 500;

/** What is paid for when an edge is cut: the edge itself or its whole part. */
interface Item {
  readonly name: string;
  readonly weight: number;
}

/** Optimum of the minimum-cut programme; with items of several edges, an integer one. */
function programmeValue(
  { graph, vertexStops, weights }: GeneratedBoard,
  source: number,
  sink: number,
  itemOf?: (edge: number) => Item,
): number {
  const edges = usableEdges(graph, { vertexStops }, [source, sink]).filter(({ a, b }) => a !== b);
  const itemAt = itemOf ?? ((edge: number): Item => ({ name: `d${edge}`, weight: weights[edge]! }));
  const items = new Map(edges.map(({ index }) => [itemAt(index).name, itemAt(index).weight]));
  const problem = [
    'Minimize',
    ...[...items].map(([name, weight]) => `+ ${weight} ${name}`),
    'Subject To',
    ...edges.flatMap(({ index, a, b }) => [
      `${itemAt(index).name} - p${a} + p${b} >= 0`,
      `${itemAt(index).name} + p${a} - p${b} >= 0`,
    ]),
    `p${source} = 1`,
    `p${sink} = 0`,
    ...(itemOf === undefined ? [] : ['Binary', ...items.keys()]),
    'End',
  ].join('\n');
  const solution = highs.solve(problem, { output_flag: false });
  expect(solution.Status).toBe('Optimal');
  return solution.ObjectiveValue;
}

describe('the minimum-cut linear programme', () => {
  test(`[G20] on ${BOARDS} boards with random weights (seed ${SEED}) the cut weighs what HiGHS finds`, () => {
    const random = createRandom(SEED);
    const sizes: number[] = [];
    for (let seed = SEED; sizes.length < BOARDS; seed++) {
      const board = generateBoard(seed, 60 + Math.floor(100 * random()), 0.4);
      const { graph, vertexStops, weights, lines, planes } = board;
      const passage = { vertexStops };
      const plane = (): number => planes[Math.floor(random() * planes.length)]!;
      /** The net next to an end of a line; the end's own track would be a bridge every time. */
      const netAt = (end: number): number => graph.neighbours[graph.offsets[end]!]!;
      const [pin, ball] = lines[Math.floor(random() * lines.length)]!;
      const [source, sink] = seed % 2 === 0 ? [netAt(pin), netAt(ball)] : [plane(), plane()];
      if (source === sink) continue;
      const cut = createCutter(graph, passage).minimumCut({ source, sink, weights });
      expect(cut.value).toBeCloseTo(programmeValue(board, source, sink), 6);
      if (cut.apart) continue;
      certifyCut(graph, passage, { source, sink }, cut.nearSource, cut.value, (edge) => weights[edge]!);
      certifyCut(graph, passage, { source, sink }, cut.nearSink, cut.value, (edge) => weights[edge]!);
      sizes.push(cut.nearSource.length);
    }
    // Guards against a sample of bridges only.
    expect(sizes.filter((size) => size > 1).length).toBeGreaterThan(BOARDS / 3);
  });

  test('[G25] on 100 boards whose parts are lifted whole the cut weighs what the integer programme finds', () => {
    for (let seed = SEED; seed < SEED + 100; seed++) {
      const board = generateBoard(seed, 150, 0.3);
      const { graph, vertexStops, weights, lines, planes } = board;
      const random = createRandom(seed);
      // A third of the elements in six made-up parts, so that groups matter.
      const groups = Int32Array.from(weights, () => Math.floor(18 * random())).map((g) => (g < 6 ? g : -1));
      const groupWeights = Float64Array.from({ length: 6 }, () => 1 + 9 * random());
      const ends = seed % 2 === 0 ? lines[0]!.map((end) => graph.neighbours[graph.offsets[end]!]!) : planes;
      const [source, sink] = [ends[0]!, ends[ends.length - 1]!];
      const cutter = createCutter(graph, { vertexStops });
      const cut = cutter.minimumCut({ source, sink, weights, groups, groupWeights });
      expect(cut.proven).toBe(true);
      const item = (edge: number): Item =>
        groups[edge]! < 0
          ? { name: `d${edge}`, weight: weights[edge]! }
          : { name: `g${groups[edge]}`, weight: groupWeights[groups[edge]!]! };
      expect(cut.value).toBeCloseTo(programmeValue(board, source, sink, item), 6);
    }
  });

  test('[G20] the two ends of a line and ground: a stop can be the sink', () => {
    for (let seed = 0; seed < 20; seed++) {
      const board = generateBoard(SEED + seed, 60);
      const { graph, vertexStops, weights, lines } = board;
      const [source] = lines[0]!;
      const cut = createCutter(graph, { vertexStops }).minimumCut({ source, sink: 0, weights });
      expect(cut.value).toBeCloseTo(programmeValue(board, source, 0), 6);
    }
  });
});
