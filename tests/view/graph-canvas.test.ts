import { describe, expect, it } from 'vitest';
import type { Diagnosis } from '../../src/engine.ts';
import { createCytoscape } from '../../src/view/graph/cytoscape-chunk.ts';
import { GraphCanvas } from '../../src/view/graph/graph-canvas.ts';
import { drawable, fittedView, PlaceKeeper } from '../../src/view/graph/keep-places.ts';
import type { SceneInput } from '../../src/view/graph/scene-types.ts';
import { trialDiagnosis, trialInput } from './graph-fixture.ts';

const ROOM = { width: 940, height: 550 };
const QUIET = { onView: () => {}, onPick: () => {}, onHover: () => {} };

/** A canvas without a page: the same code on a headless cytoscape. */
function headless(events = QUIET): GraphCanvas {
  const nowhere = undefined as unknown as HTMLElement;
  return new GraphCanvas(
    nowhere,
    (options) => createCytoscape({ ...options, headless: true, styleEnabled: true }),
    events,
  );
}

function show(canvas: GraphCanvas, keeper: PlaceKeeper, input: SceneInput): boolean {
  const { arranged, isNew } = keeper.arrange(drawable(input)!, ROOM, createCytoscape);
  canvas.show(arranged, 'light');
  return isNew;
}

const withReading = (): Diagnosis => {
  const diagnosis = trialDiagnosis();
  return {
    ...diagnosis,
    points: [...diagnosis.points, { vertex: 'R18.1', state: 'low', label: '0.301 V', reading: 'new' }],
  };
};

describe('graph canvas', () => {
  const input = trialInput();

  it('[V16] a reading repaints the one point it belongs to and moves nothing', () => {
    const canvas = headless();
    const keeper = new PlaceKeeper();
    expect(show(canvas, keeper, input)).toBe(true);
    expect(canvas.changed).toBeGreaterThan(100);
    expect(show(canvas, keeper, { ...input, diagnosis: withReading() })).toBe(false);
    expect(canvas.changed).toBe(1);
    canvas.destroy();
  });

  it('[V16] nothing new repaints nothing; a pick and a suspect repaint nothing on the canvas', () => {
    const canvas = headless();
    const keeper = new PlaceKeeper();
    show(canvas, keeper, input);
    for (const next of [{ ...input }, { ...input, selected: { vertex: 'F2.8' } }]) {
      expect(show(canvas, keeper, next)).toBe(false);
      expect(canvas.changed).toBe(0);
    }
    canvas.destroy();
  });

  it('[V16] splitting the frame repaints its contacts only', () => {
    const canvas = headless();
    const keeper = new PlaceKeeper();
    show(canvas, keeper, input);
    expect(show(canvas, keeper, { ...input, state: { split: ['S'], lifted: [], open: [] } })).toBe(false);
    // Three contacts with two uprights each, and the two arcs between them.
    expect(canvas.changed).toBe(3 + 6 + 2);
    canvas.destroy();
  });

  it('[V16] another line or another room sets out anew; back again gives the same number of elements', () => {
    const canvas = headless();
    const keeper = new PlaceKeeper();
    show(canvas, keeper, input);
    const other = { ...input, line: input.extraLines[0]!, extraLines: [] };
    expect(show(canvas, keeper, other)).toBe(true);
    expect(show(canvas, keeper, input)).toBe(true);
    const { isNew } = keeper.arrange(drawable(input)!, { width: 600, height: 550 }, createCytoscape);
    expect(isNew).toBe(true);
    canvas.destroy();
  });

  it('[V16] a fitted view keeps the drawing within the room, or starts at the outside pin', () => {
    const keeper = new PlaceKeeper();
    const wide = keeper.arrange(drawable(input)!, ROOM, createCytoscape).arranged;
    const view = fittedView(wide, ROOM);
    expect(view.x).toBeGreaterThanOrEqual(0);
    expect(view.y + wide.layout.height * view.zoom).toBeLessThanOrEqual(ROOM.height + 1);
    const low = { width: 390, height: 200 };
    const tall = keeper.arrange(drawable(input)!, low, createCytoscape).arranged;
    const start = tall.layout.places.get('e:MARK:outside')!;
    const seen = fittedView(tall, low);
    expect(start.y * seen.zoom + seen.y).toBeGreaterThan(0);
    expect(start.y * seen.zoom + seen.y).toBeLessThan(low.height);
  });

  it('[V16] there is nothing to draw without a board or, in the flow, without a line', () => {
    expect(drawable(null)).toBeNull();
    expect(drawable({ ...input, board: null })).toBeNull();
    expect(drawable({ ...input, line: null })).toBeNull();
    expect(drawable({ ...input, line: null, arrangement: 'around' })).not.toBeNull();
  });
});
