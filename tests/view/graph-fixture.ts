/**
 * A hand-built piece of the invented Plover HR-2 for trials of the screen: a
 * key flex, the power deck and the radio deck, three key lines side by side
 * through plug X and frame S, and a rail with forty capacitors. Every name and
 * value is invented.
 */
import { boardMapSchema } from '../../src/board/board-map.ts';
import {
  type BoardMap,
  type CompiledBoard,
  type CompiledLine,
  compileBoard,
  type Diagnosis,
  type Fault,
  type FindingState,
  JOINED,
  type Suspect,
} from '../../src/engine.ts';
import type { SceneInput } from '../../src/view/graph/scene-types.ts';

const clamp = { dropVolts: 0.412, atAmps: 0.001, ideality: 1.5 };

type MapPart = BoardMap['parts'][number];

const series = (id: string, kind: MapPart['kind'], deck: string, ohms: number, value: string): MapPart => ({
  id,
  kind,
  deck,
  side: 'outer',
  ballGrid: false,
  value,
  pins: [],
  channels: [{ kind: 'resistance', from: `${id}.1`, to: `${id}.2`, ohms }],
});

const bare = (id: string, kind: MapPart['kind'], deck: string, ballGrid = false): MapPart => ({
  id,
  kind,
  deck,
  side: 'outer',
  ballGrid,
  pins: [],
  channels: [],
});

const KEYS = [
  { key: 'SCAN', tail: '1', x: '6', f: ['2', '9'], r: 'R4', s: '42', pull: 'R17', bead: 'FB2', ball: 'G3' },
  { key: 'MARK', tail: '2', x: '7', f: ['3', '8'], r: 'R5', s: '41', pull: 'R18', bead: 'FB3', ball: 'G4' },
  { key: 'UP', tail: '3', x: '8', f: ['4', '7'], r: 'R6', s: '53', pull: 'R19', bead: 'FB4', ball: 'H4' },
] as const;

/** The map, as a technician's notes would compile it. */
export function trialMap(): BoardMap {
  const map: BoardMap = {
    title: 'Plover HR-2',
    decks: [
      { id: 'radio', title: 'Radio deck', kind: 'board' },
      { id: 'power', title: 'Power deck', kind: 'board' },
      { id: 'keys', title: 'Key flex', kind: 'flex' },
    ],
    shields: [{ id: 'can-1', deck: 'radio' }],
    frames: [
      {
        id: 'S',
        kind: 'soldered',
        upper: 'radio',
        lower: 'power',
        contacts: ['41', '42', '53'].map((number) => ({ number })),
      },
      {
        id: 'X',
        kind: 'plugged',
        upper: 'power',
        lower: 'keys',
        contacts: ['6', '7', '8'].map((number) => ({ number })),
      },
    ],
    parts: [
      bare('K1', 'connector', 'keys'),
      {
        ...bare('F2', 'filter-array', 'power'),
        channels: KEYS.flatMap(({ f }) => [
          { kind: 'resistance' as const, from: `F2.${f[0]}`, to: `F2.${f[1]}`, ohms: 47 },
          {
            kind: 'junction' as const,
            from: `F2.${f[0]}`,
            to: 'ground',
            junction: { ...clamp, dropVolts: 0.71 },
            bothWays: false,
          },
        ]),
      },
      {
        ...bare('D4', 'suppressor', 'power'),
        channels: [
          {
            kind: 'junction',
            from: 'D4.1',
            to: 'ground',
            junction: { ...clamp, dropVolts: 0.74 },
            bothWays: true,
          },
        ],
      },
      {
        ...bare('C12', 'capacitor', 'radio'),
        value: '100n',
        channels: [{ kind: 'capacitor', from: 'C12.1', to: 'ground', farads: 1e-7 }],
      },
      {
        ...bare('R31', 'resistor', 'radio'),
        value: '47k',
        channels: [{ kind: 'resistance', from: 'R31.1', to: 'V18', ohms: 47_000 }],
      },
      bare('TP5', 'test-pad', 'power'),
      ...KEYS.flatMap(({ r, pull, bead }) => [
        series(r, 'resistor', 'power', 22, '22'),
        series(pull, 'resistor', 'radio', 100, '100'),
        series(bead, 'bead', 'radio', 0.3, '600R bead'),
      ]),
      bare('U1', 'controller', 'radio', true),
      bare('U3', 'chip', 'power'),
      ...Array.from(
        { length: 40 },
        (_, i): MapPart => ({
          ...bare(`C${101 + i}`, 'capacitor', i % 2 === 0 ? 'power' : 'radio'),
          channels: [{ kind: 'capacitor', from: `C${101 + i}.1`, to: 'ground', farads: 1e-6 }],
        }),
      ),
    ],
    tracks: [
      { from: 'X.7', to: 'D4.1' },
      { from: 'R5.2', to: 'TP5.1' },
    ],
    nets: [
      { id: 'N7', points: ['FB3.2', 'C12.1', 'R31.1'] },
      { id: 'MAIN', points: Array.from({ length: 40 }, (_, i) => `C${101 + i}.1`) },
    ],
    rails: [
      { id: 'V18', supplyVolts: 1.8, deck: 'radio' },
      { id: 'VMAIN', supplyVolts: 3.9, deck: 'power' },
    ],
    controllerPins: KEYS.map(({ ball }) => ({
      point: `U1.${ball}`,
      lower: clamp,
      upper: { rail: 'V18', junction: clamp },
      pull: { rail: 'V18', ohms: 47_000 },
    })),
    lines: KEYS.map(({ key, tail, x, f, r, s, pull, bead, ball }) => ({
      id: key,
      title: `${key} key`,
      way: [
        `K1.${tail}`,
        `X.${x}`,
        `F2.${f[0]}`,
        `F2.${f[1]}`,
        `${r}.1`,
        `${r}.2`,
        `S.${s}`,
        `${pull}.1`,
        `${pull}.2`,
        `${bead}.1`,
        `${bead}.2`,
        `U1.${ball}`,
      ],
    })),
    neighbours: [
      { a: 'S.41', b: 'S.42', gapMillimetres: 0.4 },
      { a: 'S.41', b: 'S.53', gapMillimetres: 0.4 },
      { a: 'X.7', b: 'X.8', gapMillimetres: 0.3 },
    ],
    good: [],
  };
  return boardMapSchema.parse(map);
}

export function trialBoard(): CompiledBoard {
  return compileBoard(trialMap());
}

export function lineOf(board: CompiledBoard, id: string): CompiledLine {
  const line = board.lines.find((entry) => entry.id === id);
  if (line === undefined) throw new Error(`no line ${id}`);
  return line;
}

const JUNCTION_PROBE = { kind: 'diode', polarity: 'red-on-ground', state: JOINED } as const;

function suspect(title: string, share: number, elements: string[], fault: Fault, region: string): Suspect {
  return {
    id: title,
    title,
    faults: [fault],
    elements,
    points: [],
    lines: ['MARK'],
    share,
    region,
    evidence: [],
    readsAlike: '',
    ruledOutBy: [],
    kind: 'fault',
  };
}

const SEEN: readonly (readonly [string, FindingState, number | null])[] = [
  ['K1.2', 'high', 0.612],
  ['X.7@power', 'low', 0.388],
  ['F2.3', 'as-expected', 0.455],
  ['F2.8', 'open', null],
  ['R5.1', 'grounded', 0.004],
  ['R18.2', 'same-as-another', 0.431],
  ['U1.G4', 'as-expected', 0.412],
];

/** A diagnosis made up to show every state at once; not what the engine would say. */
export function trialDiagnosis(): Diagnosis {
  const expected = { kind: 'value', value: 0.455 } as const;
  return {
    findings: SEEN.map(([vertex, state, value], i) => ({
      reading: `r${i}`,
      probe: { ...JUNCTION_PROBE, at: vertex },
      seen: value === null ? { kind: 'over' as const } : { kind: 'value' as const, value },
      expected: {
        outcome: expected,
        spread: 0.006,
        source: 'reference' as const,
        because: 'median of 3 good boards',
      },
      state,
      vertex,
      sameAs: state === 'same-as-another' ? 'R17.2' : null,
      sentence: `${value === null ? 'OL' : `${value} V`}, expected 0.455 ± 0.006 V (median of 3 good boards)`,
    })),
    points: SEEN.map(([vertex, state, value], i) => ({
      vertex,
      state,
      label: value === null ? 'OL' : `${value.toFixed(3)} V`,
      reading: `r${i}`,
    })),
    suspects: [
      suspect(
        'Filter section F2.3~F2.8 open',
        0.55,
        ['F2.3~F2.8'],
        { element: 'F2.3~F2.8', defect: 'open' },
        'deck:power',
      ),
      suspect('Frame contact S.41 open', 0.22, ['S.41'], { element: 'S.41', defect: 'open' }, 'frame:S'),
      suspect(
        'Bridge S.41 to S.42',
        0.12,
        ['S.41|S.42'],
        { element: 'S.41|S.42', defect: 'bridge', ohms: 1 },
        'frame:S',
      ),
      suspect(
        'Suppressor D4 leaks',
        0.06,
        ['D4.1~ground'],
        { element: 'D4.1~ground', defect: 'leak', ohms: 500 },
        'deck:power',
      ),
    ],
    where: [],
    testsHere: [],
    testsOneStep: [],
    stop: null,
    lines: ['MARK'],
    limits: [],
    unplaced: [],
    doubts: [],
    entropyBits: 1.6,
  };
}

/** The usual trial scene: MARK with its two neighbours, readings in. */
export function trialInput(changes: Partial<SceneInput> = {}): SceneInput {
  const board = trialBoard();
  return {
    board,
    line: lineOf(board, 'MARK'),
    extraLines: [lineOf(board, 'SCAN'), lineOf(board, 'UP')],
    diagnosis: trialDiagnosis(),
    state: JOINED,
    selected: null,
    arrangement: 'flow',
    ...changes,
  };
}
