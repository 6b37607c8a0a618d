/**
 * Laws of every plan, on faults all over the demo board: whatever is cut and
 * wired, each net still hangs together and apart from the others, nothing
 * forbidden is cut or soldered to, what is insisted on is done. The check of
 * the nets is written here from the map alone, as slow as can be.
 */
import { describe, expect, test } from 'vitest';
import type { Fault, ReworkEdit } from '../../src/board/fault.ts';
import { NO_WISHES, type RouteWishes } from '../../src/rework/route-request.ts';
import { createRandom, seedOf } from '../electrics/random.ts';
import { demoBoard, plansFor } from './demo.ts';

const board = demoBoard();

/** Names of part pins by net: one flood fill per vertex over tracks, joints, wires and bridges. */
function netsOf(edits: readonly ReworkEdit[], faults: readonly Fault[]): Map<string, Set<string>> {
  const cut = new Set(edits.flatMap((edit) => (edit.kind === 'cut' ? [edit.element] : [])));
  for (const fault of faults) if (fault.defect !== 'bridge') cut.add(fault.element);
  const links: [number, number][] = board.elements
    .filter(({ id, kind }) => (kind === 'track' || kind === 'hop') && !cut.has(id))
    .map(({ a, b }) => [a, b]);
  for (const edit of edits) {
    if (edit.kind === 'jumper') links.push([board.vertexOf.get(edit.from)!, board.vertexOf.get(edit.to)!]);
  }
  for (const { element, defect } of faults) {
    if (defect !== 'bridge') continue;
    const [a, b] = element.split('|') as [string, string];
    links.push([board.vertexOf.get(a)!, board.vertexOf.get(b)!]);
  }
  const nets = new Map<string, Set<string>>();
  board.vertices.forEach((vertex, start) => {
    if (!isPin(start)) return;
    const met = new Set<number>([start]);
    for (let grown = true; grown; ) {
      grown = false;
      for (const [a, b] of links) {
        if (met.has(a) === met.has(b)) continue;
        met.add(a).add(b);
        grown = true;
      }
    }
    nets.set(vertex.id, new Set([...met].filter(isPin).map((index) => board.vertices[index]!.id)));
  });
  return nets;
}

/** Pins of parts, rails and ground: what must stay on its net. */
function isPin(index: number): boolean {
  const vertex = board.vertices[index]!;
  return (
    (vertex.kind === 'point' && vertex.part !== null) || vertex.rail !== null || vertex.kind === 'ground'
  );
}

const designed = netsOf([], []);

function randomFault(random: ReturnType<typeof createRandom>): Fault {
  if (random.share() < 0.75) return { element: random.pick(board.pairs).id, defect: 'bridge', ohms: 0.1 };
  const copper = board.elements.filter(({ kind }) => kind === 'track' || kind === 'hop');
  return { element: random.pick(copper).id, defect: 'open' };
}

describe('plans', () => {
  test('[W7] no plan cuts a pin off its net or joins two nets, and none does what is forbidden', () => {
    const seed = seedOf(5050);
    const random = createRandom(seed);
    const tracks = board.elements.filter(({ kind }) => kind === 'track').map(({ id }) => id);
    const pads = board.vertices.filter(({ part }) => part !== null).map(({ id }) => id);
    let withCuts = 0;
    let withWires = 0;
    for (let i = 0; i < 80; i++) {
      const fault = randomFault(random);
      const wishes: RouteWishes = {
        ...NO_WISHES,
        forbidCuts: tracks.filter(() => random.share() < 0.1),
        forbidPads: pads.filter(() => random.share() < 0.1),
      };
      for (const { plan, composed } of plansFor([fault], { wishes }).plans) {
        const context = `seed ${seed}, board ${i}, ${fault.element} ${fault.defect}: ${plan.title}`;
        expect(netsOf(composed.edits, composed.faults), context).toEqual(designed);
        for (const edit of composed.edits) {
          if (edit.kind === 'cut') expect(wishes.forbidCuts, context).not.toContain(edit.element);
          if (edit.kind === 'jumper') {
            expect(wishes.forbidPads, context).not.toContain(edit.from);
            expect(wishes.forbidPads, context).not.toContain(edit.to);
          }
        }
        if (plan.cuts.length > 0) withCuts++;
        if (plan.jumpers.length > 0) withWires++;
      }
    }
    expect(withCuts).toBeGreaterThan(10);
    expect(withWires).toBeGreaterThan(20);
  });

  test('[W7] plans for a faulty part leave every net alone that the part does not touch', () => {
    const seed = seedOf(5051);
    const random = createRandom(seed);
    const channels = board.elements.filter(({ channel }) => channel !== null);
    let withWires = 0;
    for (let i = 0; i < 40; i++) {
      const element = random.pick(channels);
      const defect = element.kind === 'series' ? 'open' : random.pick(['short', 'leak'] as const);
      const own = new Set(board.vertices.filter(({ part }) => part === element.part).map(({ id }) => id));
      const near = new Set([...own].flatMap((pin) => [...(designed.get(pin) ?? [])]));
      for (const { plan, composed } of plansFor([{ element: element.id, defect }]).plans) {
        const context = `seed ${seed}, ${element.id} ${defect}: ${plan.title}`;
        for (const [pin, net] of netsOf(composed.edits, [])) {
          if (!near.has(pin)) expect(net, context).toEqual(designed.get(pin));
          else for (const other of net) expect(near, context).toContain(other);
        }
        if (plan.jumpers.length > 0) withWires++;
      }
    }
    expect(withWires).toBeGreaterThan(10);
  });

  test('[W7] what the user insists on is in every plan that cuts or wires, and forbidding it brings another', () => {
    const bridge: Fault = { element: 'S.34|S.35', defect: 'bridge', ohms: 0.1 };
    const routes = (change: Partial<RouteWishes>) =>
      plansFor([bridge], { wishes: { ...NO_WISHES, ...change } }).plans.filter(
        ({ plan }) => plan.kind === 'sever',
      );
    const free = routes({});
    expect(free.length).toBeGreaterThanOrEqual(3);
    const firstCut = free[0]!.plan.cuts[0]!.element;
    const otherCut = free[1]!.plan.cuts[0]!.element;
    expect(otherCut).not.toBe(firstCut);
    for (const { plan } of routes({ forbidCuts: [firstCut] })) {
      expect(plan.cuts.map(({ element }) => element)).not.toContain(firstCut);
    }
    const insisted = routes({ insistCuts: [otherCut] });
    expect(insisted.length).toBeGreaterThan(0);
    for (const { plan } of insisted) expect(plan.cuts.map(({ element }) => element)).toContain(otherCut);
    const pad = 'R21.1';
    const atPad = routes({ insistPads: [pad] });
    expect(atPad.length).toBeGreaterThan(0);
    for (const { plan } of atPad) expect(plan.jumpers.flatMap(({ from, to }) => [from, to])).toContain(pad);
  });

  test('[W4] typed lengths change what a wire costs and which wire is chosen', () => {
    const open: Fault = { element: 'S.37', defect: 'open' };
    const wireOf = (lengthsMillimetres: RouteWishes['lengthsMillimetres']) =>
      plansFor([open], { wishes: { ...NO_WISHES, lengthsMillimetres } }).plans.find(
        ({ plan }) => plan.kind === 'bypass',
      )!.plan;
    const measured = wireOf({});
    expect(measured.jumpers[0]).toMatchObject({ from: 'FL2.5', to: 'R19.1', lengthFrom: 'coordinates' });
    // FL2.5 at 5.8, 17.6 and R19 at 19.6, 14.4: 14.2 mm apart, 15 % slack, 6 mm over the edge.
    expect(measured.jumpers[0]).toMatchObject({ straightMillimetres: 14.2, lengthMillimetres: 22.3 });
    const typed = wireOf({ 'R19.1|FL2.5': 60 });
    expect(typed.jumpers[0]).toMatchObject({ lengthMillimetres: 60, lengthFrom: 'typed' });
    expect(typed.minutes).toBeGreaterThan(measured.minutes);
    expect(typed.jumpers[0]!.wire.ohms / measured.jumpers[0]!.wire.ohms).toBeCloseTo(60 / 22.3, 9);
  });
});
