import { describe, expect, it } from 'vitest';
import type { LineInput } from '../../src/view/graph/arrange.ts';
import { buildScene } from '../../src/view/graph/scene.ts';
import type { SceneInput } from '../../src/view/graph/scene-types.ts';
import { type Walk, type WalkKey, walkOf, walkOrder, walkStep } from '../../src/view/graph/walk.ts';
import { trialInput } from './graph-fixture.ts';

const asLine = (input: SceneInput): LineInput => ({ ...input, board: input.board!, line: input.line! });
const sceneOf = (changes: Partial<SceneInput> = {}) =>
  buildScene(asLine(trialInput(changes)), { extras: 'lines', sides: 'all' });

function press(walk: Walk, from: string | null, key: WalkKey, times = 1): string | null {
  let at = from;
  for (let i = 0; i < times; i++) at = walkStep(walk, at, key);
  return at;
}

describe('graph walk', () => {
  const scene = sceneOf();
  const walk = walkOf(scene);

  it('[V10] right leads from the outside through every point to the controller pin, left back again', () => {
    const way: string[] = [];
    let at: string | null = 'e:MARK:outside';
    while (at !== null && way[way.length - 1] !== at) {
      way.push(at);
      at = walkStep(walk, at, 'ArrowRight');
    }
    expect(way[0]).toBe('e:MARK:outside');
    expect(way[way.length - 1]).toBe('e:U1.G4');
    expect(way.filter((id) => id.startsWith('v:'))).toEqual(scene.chains[0]!.stops.map((stop) => stop.node));
    for (const id of ['e:X.7', 'e:F2.3~F2.8', 'e:R5.1~R5.2', 'e:S.41', 'e:R18.1~R18.2', 'e:FB3.1~FB3.2'])
      expect(way).toContain(id);
    const back: string[] = ['e:U1.G4'];
    while (back[back.length - 1] !== 'e:MARK:outside')
      back.push(walkStep(walk, back[back.length - 1]!, 'ArrowLeft')!);
    expect(back.reverse()).toEqual(way);
  });

  it('[V10] Home and End lead to the ends of the line one is on', () => {
    expect(press(walk, 'v:F2.8', 'Home')).toBe('e:MARK:outside');
    expect(press(walk, 'v:F2.8', 'End')).toBe('e:U1.G4');
    expect(press(walk, 'v:F2.9', 'End')).toBe('e:U1.G3');
    expect(press(walk, null, 'ArrowRight')).toBe('e:MARK:outside');
  });

  it('[V10] down goes to what hangs below and on to its end; up comes back', () => {
    expect(press(walk, 'v:X.7@power', 'ArrowDown')).toBe('v:D4.1');
    expect(press(walk, 'v:X.7@power', 'ArrowDown', 2)).toBe('e:D4.1~ground');
    expect(press(walk, 'v:X.7@power', 'ArrowDown', 5)).toBe('e:D4.1~ground');
    expect(press(walk, 'e:D4.1~ground', 'ArrowUp', 2)).toBe('v:X.7@power');
    expect(press(walk, 'v:D4.1', 'ArrowLeft')).toBe('v:X.7@power');
  });

  it('[V10] down where nothing hangs goes to the next line at a like place, up comes back to it', () => {
    const there = press(walk, 'v:R5.1', 'ArrowDown');
    expect(there).toBe('v:R4.1');
    expect(press(walk, there, 'ArrowUp')).toBe('v:R5.1');
    expect(press(walk, 'v:R6.1', 'ArrowDown')).toBe('v:R6.1');
  });

  it('[V10] a suspected bridge can be walked to from the chosen line', () => {
    expect(press(walk, 'e:S.41', 'ArrowDown')).toBe('e:S.41|S.42');
    expect(press(walk, 'e:S.41|S.42', 'ArrowUp')).toBe('e:S.41');
  });

  it('[V10] plain copper is passed over, suspected or selected copper is not', () => {
    expect(walk.lines[0]).not.toContain('e:F2.8-R5.1');
    const chosen = walkOf(sceneOf({ selected: { element: 'F2.8-R5.1' } }));
    expect(press(chosen, 'v:F2.8', 'ArrowRight')).toBe('e:F2.8-R5.1');
  });

  it('[V10] everything in the walk has a name, and nothing is in it twice', () => {
    const order = walkOrder(walk);
    expect(new Set(order).size).toBe(order.length);
    const names = new Map([...scene.nodes, ...scene.edges].map((shown) => [shown.id, shown.name]));
    for (const id of order) expect(names.get(id), id).toBeTruthy();
  });

  it('[V10] the folded drawing is walked in the same order', () => {
    const folded = walkOf(buildScene(asLine(trialInput()), { extras: 'stubs', sides: 'all' }));
    expect(folded.lines[0]).toEqual(walk.lines[0]);
  });
});
