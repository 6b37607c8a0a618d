/**
 * Random stacked boards for the quality benchmark: two decks and a soldered
 * frame, sometimes a key flex on a plug, shields, filter sections, resistors,
 * beads, suppressors, pull-ups to a rail, neighbours along the frame, the plug
 * and the chip. All invented; the seed gives the board.
 */
import type { BoardMap, Part } from '../../../src/board/board-map.ts';
import type { Random } from '../../electrics/random.ts';

const at1mA = (dropVolts: number): { dropVolts: number; atAmps: number; ideality: number } => ({
  dropVolts,
  atAmps: 1e-3,
  ideality: 1.5,
});

interface Draft {
  readonly parts: Part[];
  readonly lines: BoardMap['lines'];
  readonly controllerPins: BoardMap['controllerPins'];
  readonly tracks: BoardMap['tracks'];
  readonly neighbours: BoardMap['neighbours'];
}

/** A board of about `lineCount` x 9 elements. */
export function randomBoardMap(random: Random, lineCount: number): BoardMap {
  const draft: Draft = { parts: [], lines: [], controllerPins: [], tracks: [], neighbours: [] };
  draft.parts.push({
    ...plain(),
    id: 'U1',
    kind: 'controller',
    deck: 'top',
    under: 'can-t',
    ballGrid: true,
    channels: [],
  });
  const flex = random.share() < 0.5;
  const contacts: string[] = [];
  for (let index = 1; index <= lineCount; index++) addLine(draft, random, index, flex);
  for (let index = 1; index < lineCount; index++) {
    draft.neighbours.push({ a: `S.${index}`, b: `S.${index + 1}`, gapMillimetres: 1.2 });
    if (flex) draft.neighbours.push({ a: `J.${index}`, b: `J.${index + 1}`, gapMillimetres: 0.5 });
    if (random.share() < 0.5)
      draft.neighbours.push({ a: `U1.${index}`, b: `U1.${index + 1}`, gapMillimetres: 0.5 });
  }
  for (let index = 1; index <= lineCount; index++) contacts.push(String(index));
  const frame = (
    id: string,
    kind: 'soldered' | 'plugged',
    upper: string,
    lower: string,
  ): BoardMap['frames'][number] => ({
    id,
    kind,
    upper,
    lower,
    contacts: contacts.map((number) => ({ number })),
  });
  return {
    title: 'random board',
    decks: [
      ...(flex ? [{ id: 'flex', title: 'Flex', kind: 'flex' as const }] : []),
      { id: 'top', title: 'Top deck', kind: 'board' },
      { id: 'low', title: 'Low deck', kind: 'board' },
    ],
    shields: [
      { id: 'can-t', deck: 'top' },
      { id: 'can-l', deck: 'low' },
    ],
    frames: [frame('S', 'soldered', 'top', 'low'), ...(flex ? [frame('J', 'plugged', 'flex', 'low')] : [])],
    parts: draft.parts,
    tracks: draft.tracks,
    nets: [],
    rails: [{ id: 'VDD', supplyVolts: 1.8, load: at1mA(0.39) }],
    controllerPins: draft.controllerPins,
    lines: draft.lines,
    neighbours: draft.neighbours,
    good: [],
  };
}

/** What every part has in common. */
function plain(): Pick<Part, 'side' | 'ballGrid' | 'pins'> {
  return { side: 'outer', ballGrid: false, pins: [] };
}

function addLine(draft: Draft, random: Random, index: number, flex: boolean): void {
  const covered = random.share() < 0.35 ? { under: 'can-l' } : {};
  const way: string[] = [];
  const series = (
    id: string,
    deck: string,
    under: { under?: string },
    kind: 'resistor' | 'bead',
    ohms: number,
  ): void => {
    const channels: Part['channels'] = [{ kind: 'resistance', from: `${id}.1`, to: `${id}.2`, ohms }];
    draft.parts.push({ ...plain(), ...under, id, kind, deck, channels });
    way.push(`${id}.1`, `${id}.2`);
  };
  if (flex) {
    draft.parts.push({ ...plain(), id: `K${index}`, kind: 'test-pad', deck: 'flex', channels: [] });
    way.push(`K${index}.1`, `J.${index}`);
  } else {
    draft.parts.push({ ...plain(), id: `P${index}`, kind: 'connector', deck: 'low', channels: [] });
    way.push(`P${index}.1`);
  }
  if (random.share() < 0.3) {
    const id = `D${index}`;
    const channels: Part['channels'] = [
      {
        kind: 'junction',
        from: `${id}.1`,
        to: 'ground',
        junction: at1mA(random.between(0.6, 0.75)),
        bothWays: false,
      },
    ];
    draft.parts.push({ ...plain(), id, kind: 'suppressor', deck: 'low', channels });
    draft.tracks.push({ from: way[way.length - 1] as string, to: `${id}.1` });
  }
  const style = random.share();
  if (style < 0.5) {
    const id = `FL${index}`;
    draft.parts.push({
      ...plain(),
      ...covered,
      id,
      kind: 'filter-array',
      deck: 'low',
      channels: [
        { kind: 'resistance', from: `${id}.1`, to: `${id}.2`, ohms: random.pick([33, 47, 100]) },
        {
          kind: 'junction',
          from: `${id}.2`,
          to: 'ground',
          junction: at1mA(random.between(0.39, 0.62)),
          bothWays: false,
        },
      ],
    });
    way.push(`${id}.1`, `${id}.2`);
  } else if (style < 0.75) series(`L${index}`, 'low', covered, 'bead', 0.3);
  else series(`RA${index}`, 'low', covered, 'resistor', random.pick([22, 100, 220]));
  way.push(`S.${index}`);
  if (random.share() < 0.7) {
    const under = random.share() < 0.6 ? { under: 'can-t' } : {};
    series(`RB${index}`, 'top', under, 'resistor', random.pick([10, 22, 47]));
  }
  way.push(`U1.${index}`);
  draft.controllerPins.push({
    point: `U1.${index}`,
    lower: at1mA(random.between(0.4, 0.46)),
    ...(random.share() < 0.6 ? { pull: { rail: 'VDD', ohms: 47000 } } : {}),
  });
  draft.lines.push({ id: `L${index}`, title: '', way });
}
