import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrangeLine } from '../../src/view/graph/arrange.ts';
import { createCytoscape } from '../../src/view/graph/cytoscape-chunk.ts';
import { drawnPlan, marksOf } from '../../src/view/rework/plan-marks.ts';
import { lineOf, trialBoard, trialInput } from './graph-fixture.ts';

const board = trialBoard();
const input = trialInput();
const room = { width: 1000, height: 700 };
const { scene, layout } = arrangeLine(
  { ...input, board, line: lineOf(board, 'MARK') },
  room,
  createCytoscape,
);
const tracks = scene.edges.filter(({ kind, faded }) => kind === 'track' && !faded);
const points = scene.nodes.filter(({ kind, faded }) => kind === 'point' && !faded);

const numbersOf = (d: string): number[] => [...d.matchAll(/-?\d+(?:\.\d+)?/g)].map(([text]) => Number(text));
const wire = (from: string, to: string, lengthMillimetres: number) =>
  ({ from, to, lengthMillimetres }) as Parameters<typeof drawnPlan>[0]['jumpers'][number];
const cut = (element: string, near: string) =>
  ({ element, near }) as Parameters<typeof drawnPlan>[0]['cuts'][number];

describe('a plan over the drawing', () => {
  it('[P14] a cut is a gap in its own track, beside the point it is near', () => {
    expect(tracks.length).toBeGreaterThan(2);
    for (const track of tracks) {
      for (const [near, far] of [
        [track.from, track.to],
        [track.to, track.from],
      ] as const) {
        const drawn = drawnPlan({ cuts: [cut(track.element ?? '', near.slice(2))], jumpers: [] }, board);
        const [gap] = marksOf(drawn, scene, layout);
        const a = layout.places.get(near);
        const b = layout.places.get(far);
        if (gap?.kind !== 'line' || a === undefined || b === undefined) throw new Error('no gap');
        const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = numbersOf(gap.d);
        const [x, y] = [(x1 + x2) / 2, (y1 + y2) / 2];
        const along = Math.hypot(b.x - a.x, b.y - a.y);
        const across = Math.abs((b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x)) / along;
        expect(across).toBeLessThan(0.2);
        expect(Math.hypot(x - a.x, y - a.y)).toBeLessThanOrEqual(Math.hypot(x - b.x, y - b.y) + 0.2);
      }
    }
  });

  it('[P14] a wire begins and ends on its pads, rises clear of them, stays on the drawing, and says its length', () => {
    const vertexOf = (id: string): string => id.slice(2);
    fc.assert(
      fc.property(
        fc.nat(points.length - 1),
        fc.nat(points.length - 1),
        fc.integer({ min: 1, max: 400 }),
        (i, j, length) => {
          const [from, to] = [points[i], points[j]];
          fc.pre(from !== undefined && to !== undefined && i !== j);
          if (from === undefined || to === undefined) return;
          const plan = { cuts: [], jumpers: [wire(vertexOf(from.id), vertexOf(to.id), length)] };
          const shapes = marksOf(drawnPlan(plan, board), scene, layout);
          const arc = shapes.find((shape) => shape.kind === 'line' && shape.paint === 'accent');
          const text = shapes.find((shape) => shape.kind === 'text');
          if (arc?.kind !== 'line' || text?.kind !== 'text') throw new Error('no arc or no label');
          const numbers = numbersOf(arc.d);
          const ends = [numbers.slice(0, 2), numbers.slice(-2)];
          for (const place of [layout.places.get(from.id), layout.places.get(to.id)]) {
            if (place === undefined) throw new Error('no place');
            const reaches = ends.map(([x = 0, y = 0]) => Math.hypot(x - place.x, y - place.y));
            expect(Math.min(...reaches)).toBeLessThanOrEqual(place.width / 2 + 0.2);
          }
          expect(text.text).toContain(`${length} mm`);
          expect(text.x).toBeGreaterThanOrEqual(0);
          expect(text.x).toBeLessThanOrEqual(layout.width);
          expect(text.y).toBeGreaterThan(0);
        },
      ),
      { seed: 14, numRuns: 60 },
    );
  });

  it('[P14] what is not on the drawing is left out', () => {
    const plan = { cuts: [cut('NO-SUCH', 'NO')], jumpers: [wire('C101.1', 'C102.1', 4)] };
    expect(marksOf(drawnPlan(plan, board), scene, layout)).toEqual([]);
  });
});
