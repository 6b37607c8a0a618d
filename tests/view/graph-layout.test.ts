import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { JOINED } from '../../src/engine.ts';
import { type Arranged, arrangeLine, type LineInput, structureKey } from '../../src/view/graph/arrange.ts';
import { createCytoscape } from '../../src/view/graph/cytoscape-chunk.ts';
import { labelBox, labelsOf } from '../../src/view/graph/labels.ts';
import { layoutFlow, layoutFolded, type Place, strungUnits } from '../../src/view/graph/layout.ts';
import { LEAST_TEXT_PX, TEXT_PX } from '../../src/view/graph/metrics.ts';
import { ranksGrow, rankUnits } from '../../src/view/graph/ranks.ts';
import { buildScene } from '../../src/view/graph/scene.ts';
import type { Scene, SceneInput } from '../../src/view/graph/scene-types.ts';
import { lineOf, trialInput } from './graph-fixture.ts';
import { compileRandom, type RandomBoard, randomBoard } from './graph-random.ts';

const SEED = 20261125;
const WIDE = { width: 940, height: 550 };
const PHONE = { width: 390, height: 480 };

const asLine = (input: SceneInput): LineInput => ({ ...input, board: input.board!, line: input.line! });

function randomInput(random: RandomBoard): LineInput {
  const board = compileRandom(random);
  const [line, ...extraLines] = board.lines;
  return {
    board,
    line: line!,
    extraLines,
    diagnosis: null,
    state: JOINED,
    selected: null,
    arrangement: 'flow',
  };
}

interface Box extends Place {
  readonly id: string;
}

const overlap = (a: Place, b: Place): number =>
  Math.min((a.width + b.width) / 2 - Math.abs(a.x - b.x), (a.height + b.height) / 2 - Math.abs(a.y - b.y));

/** Boxes that must keep clear of each other: all but pins within their pill and cells within their slab. */
function bodies(scene: Scene, places: ReadonlyMap<string, Place>): readonly Box[] {
  const inside = new Set(
    scene.chains.flatMap(({ stops }) =>
      stops.flatMap((stop, i) => (stop.join === 'series' ? [stop.node, stops[i + 1]!.node] : [])),
    ),
  );
  return scene.nodes
    .filter((node) => !inside.has(node.id) && node.kind !== 'slab' && node.kind !== 'pin')
    .map((node) => ({ id: node.id, ...places.get(node.id)! }));
}

function collisions(boxes: readonly Box[], slack: number): readonly string[] {
  const found: string[] = [];
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1)) if (overlap(a, b) > slack) found.push(`${a.id} on ${b.id}`);
  });
  return found;
}

function labelBoxes({ scene, layout }: Pick<Arranged, 'scene' | 'layout'>): readonly Box[] {
  return labelsOf(scene, layout).map((label) => ({ id: label.text, ...labelBox(label) }));
}

/** Names, values and shares that lie on a body; text within bodies belongs there. */
function labelsOnBodies({ scene, layout }: Pick<Arranged, 'scene' | 'layout'>): readonly string[] {
  const free = labelsOf(scene, layout).filter(
    ({ tone }) => tone === 'name' || tone === 'value' || tone === 'share',
  );
  const boxes = bodies(scene, layout.places);
  return free.flatMap((label) =>
    boxes.filter((box) => overlap(labelBox(label), box) > 1.5).map((box) => `${label.text} on ${box.id}`),
  );
}

/** Bodies and labels an upright runs through, besides its own ends. */
function uprightCrossings({ scene, layout }: Pick<Arranged, 'scene' | 'layout'>): readonly string[] {
  const things = [...bodies(scene, layout.places), ...labelBoxes({ scene, layout })];
  return scene.edges
    .filter((edge) => edge.kind === 'upright')
    .flatMap((edge) => {
      const from = layout.places.get(edge.from)!;
      const to = layout.places.get(edge.to)!;
      const bar = { x: from.x, y: (from.y + to.y) / 2, width: 6, height: Math.abs(from.y - to.y) - 10 };
      return things
        .filter((thing) => thing.id !== edge.from && thing.id !== edge.to && overlap(bar, thing) > 1)
        .map((thing) => `${edge.id} through ${thing.id}`);
    });
}

/** The most often the first line crosses one frame. */
function mostCrossings(input: LineInput): number {
  const frames = input.line.way.flatMap((index) => input.board.elements[index]?.frame ?? []);
  return Math.max(0, ...frames.map((frame) => frames.filter((other) => other === frame).length));
}

describe('graph layout', () => {
  it('[V15] dagre ranks grow along every line, and contacts that may be bridged share a rank', () => {
    const scene = buildScene(asLine(trialInput()), { extras: 'lines', sides: 'all' });
    const strung = strungUnits(scene);
    const ranks = rankUnits(scene, strung, createCytoscape);
    expect(ranksGrow(strung, ranks)).toBe(true);
    const rankOf = (contact: string): number | undefined => {
      for (const [chain, units] of strung.entries()) {
        const unit = units.findIndex((entry) => entry.xs.has(`e:${contact}`));
        if (unit >= 0) return ranks.get(`${chain}:${unit}`);
      }
      return undefined;
    };
    expect(rankOf('S.41')).toBe(rankOf('S.42'));
    expect(rankOf('X.7')).toBe(rankOf('X.8'));
    expect(rankOf('X.7')).toBeLessThan(rankOf('S.41')!);
  });

  it('[V15] ranks grow along every line on random boards', () => {
    fc.assert(
      fc.property(randomBoard, (random) => {
        const scene = buildScene(randomInput(random), { extras: 'lines', sides: 'all' });
        const strung = strungUnits(scene);
        expect(ranksGrow(strung, rankUnits(scene, strung, createCytoscape))).toBe(true);
      }),
      { seed: SEED, numRuns: 40 },
    );
  });

  it('[V6] in the flow no body, label or upright lies on another, on random boards', () => {
    fc.assert(
      fc.property(randomBoard, (random) => {
        const scene = buildScene(randomInput(random), { extras: 'lines', sides: 'all' });
        const ranks = rankUnits(scene, strungUnits(scene), createCytoscape);
        const layout = layoutFlow(scene, ranks, WIDE);
        expect(scene.nodes.filter((node) => !layout.places.has(node.id)).map((node) => node.id)).toEqual([]);
        expect(collisions(bodies(scene, layout.places), 0.5)).toEqual([]);
        expect(collisions(labelBoxes({ scene, layout }), 1)).toEqual([]);
        expect(labelsOnBodies({ scene, layout })).toEqual([]);
        expect(uprightCrossings({ scene, layout })).toEqual([]);
      }),
      { seed: SEED, numRuns: 40 },
    );
  });

  it('[V6] folded, no body or label lies on another and none leaves the width, on random boards', () => {
    fc.assert(
      fc.property(randomBoard, (random) => {
        const input = randomInput(random);
        const scene = buildScene(input, { extras: 'stubs', sides: 'all' });
        const layout = layoutFolded(scene, PHONE);
        const boxes = bodies(scene, layout.places);
        expect(collisions(boxes, 0.5)).toEqual([]);
        expect(collisions(labelBoxes({ scene, layout }), 1)).toEqual([]);
        expect(labelsOnBodies({ scene, layout })).toEqual([]);
        // A line that crosses one frame three times or more may pass behind itself when folded.
        if (mostCrossings(input) < 3) expect(uprightCrossings({ scene, layout })).toEqual([]);
        for (const box of boxes) {
          expect(box.x - box.width / 2, box.id).toBeGreaterThanOrEqual(0);
          expect(box.x + box.width / 2, box.id).toBeLessThanOrEqual(layout.width);
        }
      }),
      { seed: SEED, numRuns: 40 },
    );
  });

  describe.each([
    ['a wide screen', WIDE, 'flow'],
    ['a phone', PHONE, 'folded'],
  ] as const)('the trial line on %s', (_, room, mode) => {
    const arranged = arrangeLine(asLine(trialInput()), room, createCytoscape);
    const { layout, scene, zoom } = arranged;

    it('[V7] fits whole with letters of at least 12 px', () => {
      expect(layout.mode).toBe(mode);
      expect(TEXT_PX * zoom).toBeGreaterThanOrEqual(LEAST_TEXT_PX - 1e-9);
      expect(layout.width * zoom).toBeLessThanOrEqual(room.width + 1);
      expect(layout.height * zoom).toBeLessThanOrEqual(room.height + 1);
    });

    it('[V6] no body or label lies on another of its kind, all within the drawing', () => {
      expect(collisions(bodies(scene, layout.places), 0.5)).toEqual([]);
      expect(collisions(labelBoxes(arranged), 1)).toEqual([]);
      expect(labelsOnBodies(arranged)).toEqual([]);
      expect(uprightCrossings(arranged)).toEqual([]);
      for (const label of labelsOf(scene, layout)) {
        const box = labelBox(label);
        expect(box.x - box.width / 2, label.text).toBeGreaterThanOrEqual(0);
        expect(box.x + box.width / 2, label.text).toBeLessThanOrEqual(layout.width);
      }
    });

    it('[V5] every node lies within its own band', () => {
      for (const node of scene.nodes) {
        const band = layout.bands.find((entry) => entry.id === node.band)!;
        const { y } = layout.places.get(node.id)!;
        expect(y, node.id).toBeGreaterThan(band.top);
        expect(y, node.id).toBeLessThan(band.top + band.height);
      }
    });

    it('[V5] a contact stands upright: both ends and its body share one x', () => {
      for (const { stops } of scene.chains) {
        stops.forEach((stop, i) => {
          if (stop.join !== 'hop') return;
          const xs = [stop.node, stop.joinId, stops[i + 1]!.node].map((id) => layout.places.get(id)!.x);
          expect(new Set(xs).size).toBe(1);
        });
      }
    });

    it('[V5] a series pill holds both its pins', () => {
      for (const { stops } of scene.chains) {
        stops.forEach((stop, i) => {
          if (stop.join !== 'series') return;
          const pill = layout.places.get(stop.joinId)!;
          for (const id of [stop.node, stops[i + 1]!.node]) {
            const pin = layout.places.get(id)!;
            expect(Math.abs(pin.x - pill.x) + pin.width / 2, id).toBeLessThanOrEqual(pill.width / 2);
          }
        });
      }
    });

    it('[V8] readings, suspects and picks move nothing that was drawn', () => {
      const bare = arrangeLine(asLine(trialInput({ diagnosis: null })), room, createCytoscape);
      if (mode === 'folded') return expect(bare.layout.mode).toBe('folded');
      expect(structureKey(bare.scene)).toBe(structureKey(scene));
      for (const [id, place] of bare.layout.places) expect(layout.places.get(id), id).toEqual(place);
    });
  });

  it('[V7] the chosen line runs left to right in the flow', () => {
    const { scene, layout } = arrangeLine(asLine(trialInput()), WIDE, createCytoscape);
    const xs = scene.chains[0]!.stops.map((stop) => layout.places.get(stop.node)!.x);
    for (const [i, x] of xs.entries()) if (i > 0) expect(x).toBeGreaterThanOrEqual(xs[i - 1]!);
  });

  it('[V7] a larger room gives larger letters, never a larger drawing than the room', () => {
    const zooms = [1, 1.5, 2].map((factor) => {
      const room = { width: WIDE.width * factor, height: WIDE.height * factor };
      const { layout, zoom } = arrangeLine(asLine(trialInput()), room, createCytoscape);
      expect(layout.width * zoom).toBeLessThanOrEqual(room.width + 1);
      return zoom;
    });
    expect(zooms[1]).toBeGreaterThan(zooms[0]!);
    expect(zooms[2]).toBeGreaterThan(zooms[1]!);
  });

  it('[V8] the same input gives the same places', () => {
    const board = trialInput().board!;
    const line = lineOf(board, 'UP');
    const once = arrangeLine(asLine(trialInput({ board, line })), WIDE, createCytoscape);
    const again = arrangeLine(asLine(trialInput({ board, line })), WIDE, createCytoscape);
    expect([...again.layout.places]).toEqual([...once.layout.places]);
  });
});
