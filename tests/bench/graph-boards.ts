/**
 * Invented stacked boards of any size for the graph layer: lines that start at
 * an outside pin, run through star nets, series parts and frame contacts (some
 * doubled) and end at a ball; shunt parts to ground and rails; cross-links
 * between lines; and two copper planes of known order, joined by many contacts.
 * Seeded, so that a figure can be measured again.
 */
import { createGraph, type Graph } from '../../src/graph/graph.ts';

export interface GeneratedBoard {
  readonly graph: Graph;
  /** 1 at ground (vertex 0) and the rails. */
  readonly vertexStops: Uint8Array;
  /** Per edge, a weight between 0.5 and 20. */
  readonly weights: Float64Array;
  /** Per edge, the part it is a channel of, or -1. */
  readonly parts: Int32Array;
  readonly partCount: number;
  /** Ends of each line: outside pin and ball. */
  readonly lines: readonly (readonly [source: number, sink: number])[];
  /** Vertices of both planes. */
  readonly planes: Int32Array;
}

/** Repeatable numbers from 0 up to 1 (mulberry32). */
export function createRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/**
 * A board of about `vertexTarget` vertices (never fewer than one line).
 * @param planeShare part of the vertices that lie in the two planes, 0 to 0.9
 */
export function generateBoard(seed: number, vertexTarget: number, planeShare = 0.1): GeneratedBoard {
  return new BoardGrower(seed, vertexTarget, planeShare).run();
}

class BoardGrower {
  private readonly random: () => number;
  private readonly vertexTarget: number;
  private readonly planeSide: number;
  private readonly railCount: number;
  private vertexCount = 1;
  private partCount = 0;
  private readonly tail: number[] = [];
  private readonly head: number[] = [];
  private readonly parts: number[] = [];
  private readonly hubs: number[] = [];
  private readonly lines: [number, number][] = [];
  private openPart = -1;
  private openChannels = 0;

  constructor(seed: number, vertexTarget: number, planeShare: number) {
    this.random = createRandom(seed);
    this.vertexTarget = vertexTarget;
    this.planeSide = Math.floor(Math.sqrt((vertexTarget * planeShare) / 2));
    this.railCount = 1 + Math.floor(vertexTarget / 5000);
  }

  run(): GeneratedBoard {
    const stopCount = 1 + this.railCount;
    this.vertexCount = stopCount;
    const firstOfPlanes = this.vertexCount;
    if (this.planeSide > 1) this.addPlanes();
    const planes = Int32Array.from({ length: this.vertexCount - firstOfPlanes }, (_, i) => firstOfPlanes + i);
    do {
      this.addLine();
    } while (this.vertexCount < this.vertexTarget);
    const vertexStops = new Uint8Array(this.vertexCount).fill(1, 0, stopCount);
    return {
      graph: createGraph(this.vertexCount, Int32Array.from(this.tail), Int32Array.from(this.head)),
      vertexStops,
      weights: Float64Array.from(this.tail, () => 0.5 + 19.5 * this.random()),
      parts: Int32Array.from(this.parts),
      partCount: this.partCount,
      lines: this.lines,
      planes,
    };
  }

  private vertex(): number {
    return this.vertexCount++;
  }

  private edge(a: number, b: number, part = -1): void {
    this.tail.push(a);
    this.head.push(b);
    this.parts.push(part);
  }

  private chance(share: number): boolean {
    return this.random() < share;
  }

  private below(limit: number): number {
    return Math.floor(this.random() * limit);
  }

  /** Two square grids, with a contact between them at about one place in nine. */
  private addPlanes(): void {
    const side = this.planeSide;
    const first = this.vertexCount;
    this.vertexCount += 2 * side * side;
    for (let deck = 0; deck < 2; deck++) {
      for (let i = 0; i < side * side; i++) {
        const v = first + deck * side * side + i;
        if (i % side > 0) this.edge(v - 1, v);
        if (i >= side) this.edge(v - side, v);
      }
    }
    for (let i = 0; i < side * side; i++)
      if (this.chance(1 / 9)) this.edge(first + i, first + side * side + i);
  }

  /** A net: a hub with some pads, some of them with a part to ground or a rail. */
  private hub(): number {
    const hub = this.vertex();
    this.hubs.push(hub);
    for (let pads = this.below(4); pads > 0; pads--) {
      const pad = this.vertex();
      this.edge(pad, hub);
      if (this.chance(0.5))
        this.edge(pad, this.chance(0.7) ? 0 : 1 + this.below(this.railCount), this.partCount++);
    }
    return hub;
  }

  /** Two new points joined by one element, each on a track to its net. */
  private bridgeNets(from: number, to: number, part: number): void {
    const a = this.vertex();
    const b = this.vertex();
    this.edge(from, a);
    this.edge(a, b, part);
    this.edge(b, to);
  }

  /** Channels of one part serve up to four lines or stages. */
  private channel(): number {
    if (this.openChannels === 0) {
      this.openPart = this.partCount++;
      this.openChannels = 1 + this.below(4);
    }
    this.openChannels--;
    return this.openPart;
  }

  private addLine(): void {
    const source = this.vertex();
    let net = this.hub();
    this.edge(source, net);
    const step = (isContact: boolean, doubled: number): void => {
      const next = this.hub();
      for (let times = this.chance(doubled) ? 2 : 1; times > 0; times--) {
        this.bridgeNets(net, next, isContact ? -1 : this.channel());
      }
      net = next;
    };
    for (let stages = 1 + this.below(3); stages > 0; stages--) step(false, 0.15);
    step(true, 0.3);
    for (let stages = this.below(3); stages > 0; stages--) step(false, 0.15);
    for (let links = this.below(3); links > 0; links--) {
      const recent = this.hubs.slice(-400);
      this.bridgeNets(net, recent[this.below(recent.length)] as number, this.channel());
    }
    const sink = this.vertex();
    this.edge(net, sink);
    this.lines.push([source, sink]);
  }
}
