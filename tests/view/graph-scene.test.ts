import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileBoard, JOINED } from '../../src/engine.ts';
import { buildAround } from '../../src/view/graph/around.ts';
import type { LineInput } from '../../src/view/graph/arrange.ts';
import { haloPx } from '../../src/view/graph/paint.ts';
import { pickOf } from '../../src/view/graph/pick.ts';
import { buildScene, type SceneDetail, stepsOf } from '../../src/view/graph/scene.ts';
import { MOST_SHOWN, type SceneInput, type SceneNode } from '../../src/view/graph/scene-types.ts';
import { printQuantity, printShare } from '../../src/view/graph/words.ts';
import { lineOf, trialBoard, trialDiagnosis, trialInput, trialMap } from './graph-fixture.ts';
import { compileRandom, randomBoard } from './graph-random.ts';

const SEED = 20261125;
const FULL: SceneDetail = { extras: 'lines', sides: 'all' };
const STUBS: SceneDetail = { extras: 'stubs', sides: 'all' };

const asLine = (input: SceneInput): LineInput => ({ ...input, board: input.board!, line: input.line! });

const sceneOf = (changes: Partial<SceneInput> = {}, detail = FULL) =>
  buildScene(asLine(trialInput(changes)), detail);

const nodeOf = (id: string, changes: Partial<SceneInput> = {}, detail = FULL): SceneNode => {
  const node = sceneOf(changes, detail).nodes.find((entry) => entry.id === id);
  if (node === undefined) throw new Error(`no node ${id}`);
  return node;
};

describe('graph scene', () => {
  it('[V1] every element of the way is drawn exactly once, in order, with every point it passes', () => {
    fc.assert(
      fc.property(randomBoard, (random) => {
        const board = compileRandom(random);
        const line = board.lines[0]!;
        const scene = buildScene(
          {
            board,
            line,
            extraLines: [],
            diagnosis: null,
            state: JOINED,
            selected: null,
            arrangement: 'flow',
          },
          FULL,
        );
        const shown = [...scene.nodes, ...scene.edges];
        for (const { element } of stepsOf(board, line)) {
          expect(shown.filter((entry) => entry.element === element.id).map((entry) => entry.id)).toEqual([
            `e:${element.id}`,
          ]);
        }
        const passed = stepsOf(board, line)
          .map(({ from }) => board.vertices[from]!.id)
          .slice(1);
        expect(scene.chains[0]!.stops.map((stop) => stop.node)).toEqual(passed.map((id) => `v:${id}`));
        expect(new Set(shown.map((entry) => entry.id)).size).toBe(shown.length);
        const ids = new Set(scene.nodes.map((node) => node.id));
        for (const edge of scene.edges) expect(ids.has(edge.from) && ids.has(edge.to), edge.id).toBe(true);
      }),
      { seed: SEED, numRuns: 60 },
    );
  });

  it('[V1] shunts hang at the point they belong to, and a way round an element is drawn beside it', () => {
    const map = trialMap();
    map.parts
      .find((part) => part.id === 'F2')!
      .channels.push({ kind: 'resistance', from: 'F2.3', to: 'F2.8', ohms: 9 });
    const board = compileBoard(map);
    const scene = sceneOf({ board, line: lineOf(board, 'MARK'), extraLines: [] });
    const hanging = (node: string): readonly string[] =>
      scene.chains[0]!.stops.find((stop) => stop.node === node)!.sides.flatMap((side) => side.nodes);
    expect(hanging('v:X.7@power')).toEqual(['v:D4.1', 'e:D4.1~ground', 'end:D4.1~ground']);
    expect(hanging('v:F2.3')).toEqual(['e:F2.3~ground', 'end:F2.3~ground']);
    expect(hanging('v:FB3.2')).toContain('e:R31.1~V18');
    expect(scene.nodes.find((node) => node.id === 'end:R31.1~V18')).toMatchObject({
      kind: 'rail',
      title: 'V18',
    });
    expect(scene.edges.filter((edge) => edge.kind === 'beside').map((edge) => edge.element)).toEqual([
      'F2.3~F2.8#2',
    ]);
  });

  it('[V2] a big net is folded to a stub with a count, whatever its size, and the drawing stays under the limit', () => {
    for (const size of [1, 3, 4, 255, 256, 257, 3000]) {
      const map = trialMap();
      const points = Array.from({ length: size }, (_, i) => {
        const id = `C${1000 + i}`;
        map.parts.push({
          id,
          kind: 'capacitor',
          deck: 'radio',
          side: 'outer',
          ballGrid: false,
          pins: [],
          channels: [{ kind: 'capacitor', from: `${id}.1`, to: 'ground', farads: 1e-9 * (i + 1) }],
        });
        return `${id}.1`;
      });
      map.nets.push({ id: 'BIG', points: ['R18.2', ...points] });
      const board = compileBoard(map);
      const scene = sceneOf({ board, line: lineOf(board, 'MARK'), extraLines: [] });
      expect(scene.nodes.length + scene.edges.length).toBeLessThanOrEqual(MOST_SHOWN);
      const sides = scene.chains[0]!.stops.find((stop) => stop.node === 'v:R18.2')!.sides;
      expect(sides.length).toBe(Math.min(size, 3));
      const stub = scene.nodes.find((node) => node.id === 'stub:R18.2');
      expect(stub?.title).toBe(size > 3 ? `+${size - 2}` : undefined);
    }
  });

  it('[V2] faint lines give way before the limit, and what is left out is named', () => {
    const map = trialMap();
    const line = map.lines.find((entry) => entry.id === 'UP')!;
    for (let i = 0; i < 30; i++) map.lines.push({ ...line, id: `UP${i}`, title: `Up ${i}` });
    const board = compileBoard(map);
    const scene = sceneOf({ board, line: lineOf(board, 'MARK'), extraLines: board.lines });
    expect(scene.nodes.length + scene.edges.length).toBeLessThanOrEqual(MOST_SHOWN);
    expect(scene.chains.length - 1 + scene.omitted.length).toBe(board.lines.length - 1);
    for (const id of scene.omitted) expect(scene.summary).toContain(id);
  });

  it('[V3] the share of an element is the sum of all suspects that name it, its part or its pair', () => {
    expect(nodeOf('e:F2.3~F2.8').share).toBeCloseTo(0.55, 12);
    const diagnosis = trialDiagnosis();
    const first = diagnosis.suspects[0]!;
    const more = {
      ...diagnosis,
      suspects: [
        ...diagnosis.suspects,
        {
          ...first,
          id: 'f2 missing',
          share: 0.04,
          elements: [],
          faults: [{ element: 'F2', defect: 'missing' as const }],
        },
      ],
    };
    expect(nodeOf('e:F2.3~F2.8', { diagnosis: more }).share).toBeCloseTo(0.59, 12);
    expect(nodeOf('e:F2.3~ground', { diagnosis: more }).share).toBeCloseTo(0.04, 12);
    expect(sceneOf().edges.find((edge) => edge.id === 'e:S.41|S.42')!.share).toBeCloseTo(0.12, 12);
    expect(nodeOf('e:R18.1~R18.2').share).toBe(0);
  });

  it('[V3] the halo widens with the share, and no share means no halo', () => {
    expect(haloPx(0)).toBe(0);
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.999, noNaN: true }), (share) => {
        expect(haloPx(share + 0.001)).toBeGreaterThan(haloPx(share));
        expect(haloPx(share)).toBeGreaterThan(0);
      }),
      { seed: SEED },
    );
  });

  it('[V4] what is split or lifted is marked off, and nothing else', () => {
    const state = { split: ['S'], lifted: ['R18', 'U1'], open: ['can-1'] };
    const scene = sceneOf({ state, extraLines: [] }, STUBS);
    const gone = scene.nodes
      .filter((node) => node.gone)
      .map((node) => node.id)
      .sort();
    expect(gone).toEqual(['e:R18.1~R18.2', 'e:S.41', 'e:U1.G4', 'slab:U1']);
    expect(sceneOf({ extraLines: [] }, STUBS).nodes.filter((node) => node.gone)).toEqual([]);
    expect(scene.nodes.find((node) => node.id === 'e:S.41')!.name).toContain('split apart');
  });

  it('[V5] bands follow the stack; a flex lies next to the deck it is plugged into, frames between', () => {
    expect(sceneOf().bands.map((band) => band.title)).toEqual([
      'Radio deck',
      'Frame S',
      'Power deck',
      'Plug X',
      'Key flex',
    ]);
    const map = trialMap();
    map.decks.unshift(map.decks.pop()!);
    const board = compileBoard(map);
    const bands = sceneOf({ board, line: lineOf(board, 'MARK'), extraLines: [] }).bands;
    expect(bands.map((band) => band.title)).toEqual([
      'Radio deck',
      'Frame S',
      'Power deck',
      'Plug X',
      'Key flex',
    ]);
  });

  it('[V5] only decks the drawing touches have a band', () => {
    const board = compileRandom({ decks: 4, lines: [[{ series: 1, shunts: 0, pad: false, up: false }]] });
    const scene = buildScene(
      {
        board,
        line: board.lines[0]!,
        extraLines: [],
        diagnosis: null,
        state: JOINED,
        selected: null,
        arrangement: 'flow',
      },
      FULL,
    );
    expect(scene.bands.map((band) => band.id)).toEqual(['deck:d0']);
  });

  it('[V17] points carry state, value and a full name', () => {
    expect(nodeOf('v:F2.8')).toMatchObject({
      state: 'open',
      value: 'OL',
      title: 'F2.8',
      name: 'F2.8, point on Power deck, OL, open, expected 0.455 ± 0.006 V',
    });
    expect(nodeOf('v:R18.1')).toMatchObject({ state: 'not-measured', value: '' });
    expect(nodeOf('v:R18.2').name).toContain('same as another point (R17.2)');
    expect(nodeOf('e:S.41').name).toBe('S.41, frame contact, suspect 2 of 4, 22 %');
    expect(nodeOf('e:U1.G4').detail).toEqual(['clamp 0.412 V', 'pull 47 kΩ']);
    expect(nodeOf('e:U1.G4').name).toContain('clamp to V18 0.412 V, pull 47 kΩ to V18');
  });

  it('[V17] a pick names the point or element and its line; on a faint line that line', () => {
    expect(pickOf(nodeOf('v:F2.8'))).toEqual({ vertex: 'F2.8', line: 'MARK' });
    expect(pickOf(nodeOf('e:S.41'))).toEqual({ element: 'S.41', line: 'MARK' });
    expect(pickOf(nodeOf('v:F2.9'))).toEqual({ vertex: 'F2.9', line: 'SCAN' });
    expect(pickOf(nodeOf('e:S.42', {}, STUBS))).toEqual({ element: 'S.42', line: 'SCAN' });
    expect(pickOf(nodeOf('slab:U1'))).toBeNull();
    expect(pickOf(undefined)).toBeNull();
  });

  it('[V17] exactly what is selected is marked', () => {
    const selected = (selection: SceneInput['selected']): readonly string[] => {
      const scene = sceneOf({ selected: selection });
      return [...scene.nodes, ...scene.edges].filter((shown) => shown.selected).map((shown) => shown.id);
    };
    expect(selected({ vertex: 'F2.8' })).toEqual(['v:F2.8']);
    expect(selected({ element: 'F2.8-R5.1' })).toEqual(['e:F2.8-R5.1']);
    expect(selected({ element: 'S.41|S.42' })).toEqual(['e:S.41|S.42']);
    expect(selected(null)).toEqual([]);
  });

  it('[V1] neighbour pairs of the chosen line are arcs; without their line a stub stands for it', () => {
    const arcs = (detail: SceneDetail, extraLines?: SceneInput['extraLines']) =>
      sceneOf(extraLines === undefined ? {} : { extraLines }, detail)
        .edges.filter((edge) => edge.kind === 'bridge')
        .map((edge) => [edge.element, edge.from, edge.to]);
    const all = [
      ['S.41|S.42', 'e:S.41', 'e:S.42'],
      ['S.41|S.53', 'e:S.41', 'e:S.53'],
      ['X.7|X.8', 'e:X.7', 'e:X.8'],
    ];
    expect(arcs(FULL)).toEqual(all);
    expect(arcs(STUBS)).toEqual(all);
    // Nobody asked for other lines: only the suspected pair is drawn.
    expect(arcs(FULL, [])).toEqual([['S.41|S.42', 'e:S.41', 'e:S.42']]);
    expect(nodeOf('e:S.42', {}, STUBS)).toMatchObject({ kind: 'stub', detail: ['SCAN'], band: 'frame:S' });
  });

  it('[V17] the summary tells line, readings, leading suspect and what is off', () => {
    const { summary } = sceneOf({ state: { split: ['S'], lifted: [], open: [] } });
    expect(summary).toContain('Line MARK key, from pin K1.2 to controller pin U1.G4, 14 points on');
    expect(summary).toContain(
      '7 points measured: 2 as expected, 1 low, 1 high, 1 open, 1 grounded and 1 same as another point.',
    );
    expect(summary).toContain('Leading: Filter section F2.3~F2.8 open, 55 %.');
    expect(summary).toContain('Off in this stack state: S.41');
    expect(sceneOf({ diagnosis: null }).summary).toContain('Nothing is measured yet.');
  });

  it('[V2] around a rail: the centre first, big hubs folded, reach respected', () => {
    const board = trialBoard();
    const around = (vertex: string, elements: number) =>
      buildAround({
        ...trialInput({ board, line: null, arrangement: 'around', around: { vertex, elements } }),
        board,
      });
    const hub = around('C101.1', 3);
    expect(hub.nodes[0]!.vertex).toBe('C101.1');
    expect(hub.nodes.find((node) => node.vertex === 'MAIN')).toMatchObject({
      kind: 'stub',
      detail: ['net, 40 points'],
    });
    expect(hub.nodes.filter((node) => node.kind === 'point')).toHaveLength(1);
    const near = around('F2.3', 1)
      .nodes.filter((node) => node.kind === 'point')
      .map((node) => node.vertex)
      .sort();
    expect(near).toEqual(['F2.3', 'F2.8', 'X.7@power']);
    for (const elements of [1, 5, 50]) {
      const scene = around('MAIN', elements);
      expect(scene.nodes.length + scene.edges.length).toBeLessThanOrEqual(MOST_SHOWN);
    }
  });

  it.each([
    [0, 'Ω', '0 Ω'],
    [0.3, 'Ω', '0.3 Ω'],
    [0.02, 'Ω', '20 mΩ'],
    [22, 'Ω', '22 Ω'],
    [999.9, 'Ω', '1 kΩ'],
    [47_000, 'Ω', '47 kΩ'],
    [4.7e6, 'Ω', '4.7 MΩ'],
    [1e-7, 'F', '100 nF'],
    [2.2e-12, 'F', '2.2 pF'],
  ])('[V17] %d %s is written %s', (value, unit, text) => {
    expect(printQuantity(value, unit)).toBe(text);
  });

  it('[V17] a share under one percent is not written as 0 %', () => {
    expect(printShare(0.004)).toBe('under 1 %');
    expect(printShare(0.554)).toBe('55 %');
  });
});
