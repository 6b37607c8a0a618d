/**
 * Random board maps that are of one piece, for fast-check: built forwards, so
 * that every reference exists, with names chosen to break readers.
 */
import fc from 'fast-check';
import {
  type BoardMap,
  type Channel,
  type ControllerPin,
  type Frame,
  type JunctionSpec,
  PART_KINDS,
  type Part,
  type Place,
} from '../../src/board/board-map.ts';
import { automaticChannels } from '../../src/board/notes/automatic-channel.ts';

/** Names that have broken somebody's reader; invented or well known. */
export const HOSTILE_NAMES = [
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  '<img src=x onerror=alert(1)>',
  '</script>',
  'side key',
  'a"b',
  'back\\slash',
  'Ünïcödé',
  'gap',
  'on',
  'near',
  'within',
  'good',
  '\u202Eabc',
  '=cmd|x!A1'.replace('|', '/'),
  '1e3',
  'OL',
  'x\ny',
  '\u0000',
  'a -b',
  "it's",
  '/N$1',
  '-',
  '4k7',
];

type Gen = fc.GeneratorValue;

/** Maps that `checkMap` accepts. */
export const arbitraryMap: fc.Arbitrary<BoardMap> = fc.gen().map((g) => new MapMaker(g).make());

class MapMaker {
  private readonly g: Gen;
  private readonly taken = new Set<string>(['ground']);
  private readonly map: BoardMap = {
    title: '',
    decks: [],
    shields: [],
    frames: [],
    parts: [],
    tracks: [],
    nets: [],
    rails: [],
    controllerPins: [],
    lines: [],
    neighbours: [],
    good: [],
  };
  /** Points of parts per deck. */
  private readonly pool = new Map<string, string[]>();
  private readonly used = new Set<string>();

  constructor(g: Gen) {
    this.g = g;
  }

  make(): BoardMap {
    const { map } = this;
    map.title = this.title();
    for (const _ of this.times(2, 4)) {
      const id = this.name('deck').replaceAll('@', '');
      this.pool.set(id, []);
      map.decks.push({ id, title: this.flag() ? id : this.title(), kind: this.pick(['board', 'flex']) });
    }
    for (const _ of this.times(0, 2)) map.shields.push({ id: this.name('can-1'), deck: this.deck() });
    for (const _ of this.times(0, 3)) map.frames.push(this.frame());
    for (const _ of this.times(0, 2)) this.rail();
    for (const _ of this.times(1, 8)) this.part();
    this.controllerPins();
    this.tracks();
    this.nets();
    for (const _ of this.times(0, 3)) this.line();
    this.neighbours();
    this.good();
    return map;
  }

  private int(min: number, max: number): number {
    return this.g(fc.integer, { min, max });
  }
  private flag(): boolean {
    return this.g(fc.boolean);
  }
  private pick<T>(list: readonly T[]): T {
    return list[this.int(0, list.length - 1)] as T;
  }
  private times(min: number, max: number): number[] {
    return Array.from({ length: this.int(min, max) }, (_, i) => i);
  }
  private some<T>(list: readonly T[], min: number, max: number): T[] {
    const most = Math.min(max, list.length);
    return this.g(fc.shuffledSubarray<T>, list as T[], { minLength: Math.min(min, most), maxLength: most });
  }
  private deck(): string {
    return this.pick(this.map.decks).id;
  }
  private title(): string {
    return this.flag() ? 'Side key' : this.g(fc.string, { maxLength: 20, unit: 'binary' });
  }

  /** A fresh name; owners of points cannot hold the signs ids are built with. */
  private name(plain: string): string {
    let name = this.flag() ? plain : this.pick(HOSTILE_NAMES);
    for (let copy = 1; this.taken.has(name); copy++) name = `${plain}${copy}`;
    this.taken.add(name);
    return name;
  }

  private pin(): string {
    return this.flag() ? this.pick(['1', '2', 'G4', 'A.1', 'B-2', 'c d']) : this.pick(HOSTILE_NAMES);
  }

  private real(min: number, max: number): number {
    return this.g(fc.double, { min, max, noNaN: true });
  }
  private place(): Place {
    if (this.flag()) return { xMillimetres: this.int(-50, 50) / 10, yMillimetres: this.int(0, 500) / 10 };
    return { xMillimetres: this.real(-1e4, 1e4), yMillimetres: this.real(-1e4, 1e4) };
  }
  private ohms(): number {
    return this.flag() ? this.pick([0, 0.02, 47, 4700, 1e6, 1e9]) : this.real(0, 1e12);
  }
  private junction(): JunctionSpec {
    return {
      dropVolts: this.flag() ? 0.412 : this.real(0.01, 20),
      atAmps: this.flag() ? 1e-3 : this.real(1e-9, 10),
      ideality: this.flag() ? 1.5 : this.real(0.5, 5),
    };
  }

  private frame(): Frame {
    const [upper, lower] = this.some(this.map.decks, 2, 2);
    const contacts: Frame['contacts'] = [];
    const seen = new Set<string>();
    const add = (number: string, at?: Place): void => {
      if (seen.has(number) || number.includes('@')) return;
      seen.add(number);
      contacts.push(at === undefined ? { number } : { number, at });
    };
    if (this.flag()) {
      const from = { xMillimetres: this.int(-50, 50) / 10, yMillimetres: this.real(-1e4, 1e4) };
      const step = this.pick([0.5, -1.2, 0]);
      const letters = this.pick(['', 'A', '0']);
      const start = this.int(1, 98);
      for (const i of this.times(0, 6)) {
        const x = Math.round((from.xMillimetres + i * step) * 1e6) / 1e6;
        add(`${letters}${start + i}`, this.flag() ? { ...from, xMillimetres: x } : undefined);
      }
    }
    for (const _ of this.times(0, 4)) add(this.pin(), this.flag() ? this.place() : undefined);
    const kind = this.pick(['soldered', 'plugged'] as const);
    return { id: this.name('S'), kind, upper: String(upper?.id), lower: String(lower?.id), contacts };
  }

  private rail(): void {
    const rail: BoardMap['rails'][number] = {
      id: this.name('VDD_1V8'),
      supplyVolts: this.flag() ? 1.8 : this.real(-1000, 1000),
      deck: this.deck(),
    };
    if (this.flag()) rail.load = this.junction();
    if (this.flag()) rail.loadReverse = this.junction();
    if (this.flag()) rail.loadOhms = this.ohms();
    this.map.rails.push(rail);
  }

  private railOn(deck: string): string | null {
    const rails = this.map.rails.filter((rail) => rail.deck === deck);
    return rails.length === 0 ? null : this.pick(rails).id;
  }

  private part(): void {
    const kind = this.pick(PART_KINDS);
    const part: Part = {
      id: this.name(this.pick(['R18', 'U1', 'can-3', 'F2'])),
      kind,
      deck: this.deck(),
      side: this.pick(['outer', 'inner']),
      ballGrid: this.flag(),
      pins: [],
      channels: [],
    };
    if (this.flag())
      part.value = this.pick(['100', '4k7', '100nF', '2A', '47ohm', '47ohms', '10Ω', 'a b', '', '5.6V/300W']);
    if (this.flag()) part.at = this.place();
    if (this.map.shields.length > 0 && this.flag()) part.under = this.pick(this.map.shields).id;
    const points = this.pool.get(part.deck) as string[];
    if (kind === 'test-pad' || kind === 'via') points.push(part.id);
    else {
      const pins = [...new Set(['1', '2', this.pin()])];
      points.push(...pins.map((pin) => `${part.id}.${pin}`));
      for (const pin of pins) if (this.flag()) part.pins.push({ pin, at: this.place() });
      part.channels = this.channels(part, pins);
    }
    this.map.parts.push(part);
  }

  private channels(part: Part, pins: readonly string[]): Channel[] {
    const automatic = automaticChannels(part);
    if (automatic !== null && this.flag()) {
      for (const { from, to } of automatic) for (const point of [from, to]) this.used.add(point);
      return automatic;
    }
    const channels: Channel[] = [];
    const ends = [`${part.id}.${pins[1]}`, 'ground', this.railOn(part.deck)];
    const from = `${part.id}.${pins[0]}`;
    for (const to of ends) {
      if (to === null || this.flag()) continue;
      this.used.add(from);
      if (to.startsWith(`${part.id}.`)) this.used.add(to);
      const kind = this.pick(['resistance', 'capacitor', 'junction'] as const);
      if (kind === 'resistance') channels.push({ kind, from, to, ohms: this.ohms() });
      else if (kind === 'capacitor')
        channels.push({ kind, from, to, farads: this.flag() ? 1e-7 : this.real(0, 100) });
      else channels.push({ kind, from, to, junction: this.junction(), bothWays: this.flag() });
    }
    return channels;
  }

  private controllerPins(): void {
    const points = [...this.pool].flatMap(([deck, list]) => list.map((point) => ({ deck, point })));
    for (const { deck, point } of this.some(points, 0, 3)) {
      const pin: ControllerPin = { point };
      const rail = this.railOn(deck);
      if (this.flag()) pin.lower = this.junction();
      if (rail !== null && this.flag()) pin.upper = { rail, junction: this.junction() };
      if (rail !== null && this.flag()) pin.pull = { rail, ohms: this.ohms() };
      this.used.add(point);
      this.map.controllerPins.push(pin);
    }
  }

  private tracks(): void {
    for (const [deck, points] of this.pool) {
      const contacts = this.map.frames.flatMap((frame) =>
        frame.contacts.flatMap(({ number }) =>
          frame.upper === deck || frame.lower === deck
            ? [`${frame.id}.${number}`, `${frame.id}.${number}@${deck}`]
            : [],
        ),
      );
      const chain = this.some(points, 0, 3);
      for (let i = 0; i + 1 < chain.length; i++) this.track(chain[i] as string, chain[i + 1] as string);
      if (contacts.length > 0 && points.length > 0 && this.flag())
        this.track(this.pick(points), this.pick(contacts));
    }
  }

  private track(from: string, to: string): void {
    for (const point of [from, to]) this.used.add(point);
    this.map.tracks.push(this.flag() ? { from, to } : { from, to, ohms: this.ohms() });
  }

  private nets(): void {
    for (const [deck, points] of this.pool) {
      if (points.length < 2 || this.flag()) continue;
      const own = this.some(points, 2, 5);
      for (const point of own) this.used.add(point);
      const rail = this.railOn(deck);
      const known = this.map.nets.some((net) => net.id === rail);
      const id = rail !== null && !known && this.flag() ? rail : this.name('NET');
      this.map.nets.push({ id, points: own });
    }
    const everywhere = [...this.pool.values()].flat();
    if (everywhere.length >= 2 && this.flag()) {
      const points = this.some(everywhere, 2, 4);
      for (const point of points) this.used.add(point);
      this.map.nets.push({ id: 'ground', points });
    }
  }

  /** Walks from a point or contact over copper, channels and contacts to a controller pin, if one is met. */
  private line(): void {
    const ends = this.map.controllerPins.map((pin) => pin.point);
    const way: string[] = [];
    let deck = this.deck();
    for (let step = 0; step < 6; step++) {
      const fresh = (this.pool.get(deck) ?? []).filter((point) => !way.includes(point));
      const over = this.map.frames.filter((frame) => frame.upper === deck || frame.lower === deck);
      const free = over.flatMap((frame) =>
        frame.contacts
          .map(({ number }) => ({ frame, id: `${frame.id}.${number}` }))
          .filter(({ id }) => !way.includes(id)),
      );
      const last = way[way.length - 1];
      const afterContact =
        last !== undefined && this.map.frames.some((frame) => last.startsWith(`${frame.id}.`));
      if (free.length > 0 && !afterContact && this.flag()) {
        const { frame, id } = this.pick(free);
        way.push(id);
        deck = frame.upper === deck ? frame.lower : frame.upper;
        continue;
      }
      const end = fresh.find((point) => ends.includes(point));
      if (end !== undefined && way.length > 0 && this.flag()) {
        for (const point of [...way, end]) this.used.add(point);
        const id = this.name('MARK');
        this.map.lines.push({ id, title: this.flag() ? id : this.title(), way: [...way, end] });
        return;
      }
      if (fresh.length === 0) return;
      const from = this.pick(fresh);
      const part = this.map.parts.find((entry) => from.startsWith(`${entry.id}.`));
      const series = part?.channels.find((channel) => channel.from === from && fresh.includes(channel.to));
      way.push(...(series === undefined ? [from] : [from, series.to]));
    }
  }

  private neighbours(): void {
    const points = [...this.pool.values()].flat();
    const pairs = this.times(0, 5).map(() => [this.int(0, 20), this.int(0, 20)] as const);
    const seen = new Set<string>();
    for (const [i, j] of pairs) {
      const a = points[i % Math.max(1, points.length)];
      const b = points[j % Math.max(1, points.length)];
      if (a === undefined || b === undefined || a === b || seen.has([a, b].sort().join('\n'))) continue;
      seen.add([a, b].sort().join('\n'));
      for (const point of [a, b]) this.used.add(point);
      this.map.neighbours.push(this.flag() ? { a, b } : { a, b, gapMillimetres: this.real(0, 1000) });
    }
  }

  private good(): void {
    const points = [...this.used];
    if (points.length === 0) return;
    for (const _ of this.times(0, 3)) {
      const kind = this.pick(['diode', 'ohms', 'volts'] as const);
      const ids = (list: readonly { readonly id: string }[]): string[] =>
        this.some(list, 0, 2).map(({ id }) => id);
      this.map.good.push({
        point: this.pick(points),
        kind,
        polarity: this.pick(['red-on-ground', 'red-on-point']),
        state: { split: ids(this.map.frames), lifted: ids(this.map.parts), open: ids(this.map.shields) },
        values: Array.from({ length: this.int(1, 4) }, () => (this.flag() ? null : this.real(0, 2))),
      });
    }
  }
}
