/**
 * Turns a checked board map into arrays: vertices, elements and one graph.
 * Compiled once per map; stack state, faults and rework only switch edges off
 * or edit single elements, so nothing is compiled again while a case runs.
 *
 * Vertex 0 is ground. A net of unknown copper order becomes a star round a hub
 * per deck, so that one of its points can go open alone (method.md, G2).
 */
import { createGraph } from '../graph/graph.ts';
import type { BoardMap, Channel, ControllerPin, Part, Place } from './board-map.ts';
import {
  type CompiledBoard,
  type CompiledLine,
  type Element,
  type ElementIndex,
  GROUND,
  HOP_OHMS,
  ownerOf,
  PIN_OHMS,
  TRACK_OHMS,
  type Vertex,
  type VertexIndex,
} from './compiled-board.ts';
import { invariant } from './result.ts';

/**
 * Compiles a map that `checkMap` accepts. O(map size).
 * @throws for references that `checkMap` would have refused (a bug)
 */
export function compileBoard(map: BoardMap): CompiledBoard {
  return new Compiler(map).run();
}

/** Holds the growing arrays while one map is compiled. */
class Compiler {
  private readonly map: BoardMap;
  private readonly vertices: Vertex[] = [];
  private readonly elements: Element[] = [];
  private readonly vertexOf = new Map<string, VertexIndex>();
  private readonly elementOf = new Map<string, ElementIndex>();
  private readonly partOf: Map<string, Part>;
  private readonly frameOf: Map<string, BoardMap['frames'][number]>;
  private readonly railOf: Map<string, BoardMap['rails'][number]>;
  private readonly contactAt = new Map<string, Place | undefined>();
  private readonly deckHubs = new Set<string>();
  private readonly pinOfPoint: Map<string, ControllerPin>;

  constructor(map: BoardMap) {
    this.map = map;
    this.partOf = new Map(map.parts.map((part) => [part.id, part]));
    this.frameOf = new Map(map.frames.map((frame) => [frame.id, frame]));
    this.railOf = new Map(map.rails.map((rail) => [rail.id, rail]));
    this.pinOfPoint = new Map(map.controllerPins.map((pin) => [pin.point, pin]));
  }

  run(): CompiledBoard {
    const { map } = this;
    this.addVertex({ id: 'ground', kind: 'ground' });
    for (const frame of map.frames) this.addContacts(frame);
    for (const net of map.nets) {
      if (net.points.some((point) => this.isContact(point))) this.deckHubs.add(net.id);
    }
    for (const rail of map.rails) this.hub(rail.id, rail.deck ?? null);
    for (const part of map.parts) for (const channel of part.channels) this.addChannel(part, channel);
    for (const pin of map.controllerPins) this.addControllerPin(pin);
    for (const track of map.tracks) this.addTrack(track.from, track.to, track.ohms);
    for (const net of map.nets) for (const point of net.points) this.addSpoke(net.id, point);
    const lines = map.lines.map((line) => this.addLine(line));
    const pairs = map.neighbours.map((pair) => ({
      id: `${pair.a}|${pair.b}`,
      a: this.point(pair.a),
      b: this.point(pair.b),
      gapMillimetres: pair.gapMillimetres ?? null,
    }));
    const vertexStops = new Uint8Array(this.vertices.length);
    this.vertices.forEach((vertex, index) => {
      if (vertex.kind === 'ground' || vertex.rail !== null) vertexStops[index] = 1;
    });
    return {
      map,
      graph: createGraph(
        this.vertices.length,
        Int32Array.from(this.elements, (element) => element.a),
        Int32Array.from(this.elements, (element) => element.b),
      ),
      vertices: this.vertices,
      elements: this.elements,
      lines,
      pairs,
      vertexOf: this.vertexOf,
      elementOf: this.elementOf,
      partOf: this.partOf,
      vertexStops,
    };
  }

  private addVertex(vertex: Partial<Vertex> & Pick<Vertex, 'id' | 'kind'>): VertexIndex {
    const index = this.vertices.length as VertexIndex;
    this.vertices.push({ deck: null, part: null, frame: null, at: null, rail: null, ...vertex });
    this.vertexOf.set(vertex.id, index);
    return index;
  }

  private addElement(element: Partial<Element> & Pick<Element, 'id' | 'kind' | 'a' | 'b'>): ElementIndex {
    let id = element.id;
    for (let copy = 2; this.elementOf.has(id); copy++) id = `${element.id}#${copy}`;
    const index = this.elements.length as ElementIndex;
    this.elements.push({
      deck: null,
      part: null,
      frame: null,
      ohms: null,
      channel: null,
      controllerPin: null,
      ...element,
      id,
    });
    this.elementOf.set(id, index);
    return index;
  }

  /** Both ends of every contact; the bare name means the end on the lower deck. */
  private addContacts(frame: BoardMap['frames'][number]): void {
    for (const contact of frame.contacts) {
      const id = `${frame.id}.${contact.number}`;
      const common = { kind: 'point', frame: frame.id, at: contact.at ?? null } as const;
      const a = this.addVertex({ id: `${id}@${frame.upper}`, deck: frame.upper, ...common });
      const b = this.addVertex({ id: `${id}@${frame.lower}`, deck: frame.lower, ...common });
      this.vertexOf.set(id, b);
      this.contactAt.set(id, contact.at);
      this.addElement({ id, kind: 'hop', a, b, frame: frame.id, ohms: HOP_OHMS });
    }
  }

  private isContact(point: string): boolean {
    return this.contactAt.has(point);
  }

  /** The vertex of a point, made on first use. */
  private point(id: string): VertexIndex {
    const known = this.vertexOf.get(id);
    if (known !== undefined) return known;
    const part = this.partOf.get(ownerOf(id));
    invariant(part !== undefined, `point ${id} belongs to no part or frame`);
    const pin = id.slice(part.id.length + 1);
    const at = part.pins.find((entry) => entry.pin === pin)?.at ?? part.at ?? null;
    return this.addVertex({ id, kind: 'point', deck: part.deck, part: part.id, at });
  }

  /** A net's or rail's hub, one per deck where contacts carry it across. */
  private hub(net: string, deck: string | null): VertexIndex {
    if (net === 'ground') return GROUND;
    const id = this.deckHubs.has(net) && deck !== null ? `${net}@${deck}` : net;
    const known = this.vertexOf.get(id);
    if (known !== undefined) return known;
    const rail = this.railOf.has(net) ? net : null;
    return this.addVertex({ id, kind: 'hub', deck: this.deckHubs.has(net) ? deck : null, rail });
  }

  private terminal(part: Part, name: string): VertexIndex {
    if (name === 'ground' || this.railOf.has(name)) return this.hub(name, part.deck);
    return this.point(name);
  }

  private addChannel(part: Part, channel: Channel): void {
    const a = this.point(channel.from);
    const b = this.terminal(part, channel.to);
    const shunt = channel.to === 'ground' || this.railOf.has(channel.to);
    this.addElement({
      id: `${channel.from}~${channel.to}`,
      kind: shunt ? 'shunt' : 'series',
      a,
      b,
      deck: part.deck,
      part: part.id,
      channel,
      ohms: channel.kind === 'resistance' ? channel.ohms : null,
    });
  }

  private addControllerPin(pin: ControllerPin): void {
    const ball = this.point(pin.point);
    const { deck, part } = this.vertices[ball] as Vertex;
    const die = this.addVertex({ id: `${pin.point}:die`, kind: 'die', deck, part });
    this.addElement({
      id: pin.point,
      kind: 'pin',
      a: ball,
      b: die,
      deck,
      part,
      ohms: PIN_OHMS,
      controllerPin: pin,
    });
    for (const rail of [pin.upper?.rail, pin.pull?.rail]) if (rail !== undefined) this.hub(rail, deck);
  }

  /** The end of `id` that lies on the same deck as `other`; points have one end only. */
  private endTowards(id: string, other: string): VertexIndex {
    if (!this.isContact(id)) return this.point(id);
    const decks = this.decksOf(other);
    const frame = this.frameOf.get(ownerOf(id));
    invariant(frame !== undefined, `contact ${id} has no frame`);
    const deck = decks.find((name) => name === frame.upper || name === frame.lower);
    invariant(deck !== undefined, `${id} and ${other} share no deck`);
    return this.point(`${id}@${deck}`);
  }

  private decksOf(id: string): readonly string[] {
    if (this.isContact(id)) {
      const frame = this.frameOf.get(ownerOf(id));
      return frame === undefined ? [] : [frame.lower, frame.upper];
    }
    const { deck } = this.vertices[this.point(id)] as Vertex;
    return deck === null ? [] : [deck];
  }

  private addTrack(from: string, to: string, ohms?: number): ElementIndex {
    const id = `${from}-${to}`;
    const known = this.elementOf.get(id) ?? this.elementOf.get(`${to}-${from}`);
    if (known !== undefined) return known;
    const a = this.endTowards(from, to);
    const b = this.endTowards(to, from);
    const { deck } = this.vertices[a] as Vertex;
    return this.addElement({ id, kind: 'track', a, b, deck, ohms: ohms ?? TRACK_OHMS });
  }

  private addSpoke(net: string, point: string): void {
    const frame = this.isContact(point) ? this.frameOf.get(ownerOf(point)) : undefined;
    const ends = frame === undefined ? [point] : [`${point}@${frame.upper}`, `${point}@${frame.lower}`];
    for (const end of ends) {
      const a = this.point(end);
      const { deck } = this.vertices[a] as Vertex;
      this.addElement({
        id: `${net}:${end}`,
        kind: 'track',
        a,
        b: this.hub(net, deck),
        deck,
        ohms: TRACK_OHMS,
      });
    }
  }

  private addLine(line: BoardMap['lines'][number]): CompiledLine {
    const way: ElementIndex[] = [];
    const first = line.way[0] as string;
    const outside = this.isContact(first) ? this.endTowards(first, line.way[1] as string) : this.point(first);
    const world = this.addVertex({ id: `${line.id}:world`, kind: 'world' });
    way.push(this.addElement({ id: `${line.id}:outside`, kind: 'outside', a: world, b: outside, ohms: 0 }));
    for (let i = 0; i + 1 < line.way.length; i++) {
      const from = line.way[i] as string;
      const to = line.way[i + 1] as string;
      if (i > 0 && this.isContact(from)) way.push(this.elementOf.get(from) as ElementIndex);
      const channel = this.elementOf.get(`${from}~${to}`) ?? this.elementOf.get(`${to}~${from}`);
      way.push(channel ?? this.addTrack(from, to));
    }
    const last = line.way[line.way.length - 1] as string;
    invariant(this.pinOfPoint.has(last), `line ${line.id} does not end at a controller pin`);
    const pin = this.elementOf.get(last) as ElementIndex;
    way.push(pin);
    const element = this.elements[pin] as Element;
    return { id: line.id, title: line.title, outside, world, ball: element.a, die: element.b, way };
  }
}
