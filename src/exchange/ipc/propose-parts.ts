/**
 * Groups of pads to parts of the map: an id, a kind with its reason, points
 * for the pads, channels. Vias and pads without a designator become parts of
 * one pad, because a point of the map always belongs to a part.
 */
import type { Part, PartKind, Place } from '../../board/board-map.ts';
import { findArrayRule } from './array-rules.ts';
import type { PadGroup } from './group-pads.ts';
import { type Channels, guessArray, guessTwoPin, isNotFitted, type PinEnd } from './guess-channels.ts';
import type { IpcPad } from './ipc-file.ts';
import type { NetPlan } from './name-nets.ts';
import { classLetters, classOf } from './part-classes.ts';
import type { PartFact, PartGuess, ProposeRequest } from './propose-types.ts';
import { createUniqueNames, type UniqueNames, withoutReserved } from './unique-names.ts';

/** Fewest pads of the chip that is taken for the controller. */
const MIN_CONTROLLER_PADS = 16;
/** Fewest lettered pads that make a chip a ball grid. */
const MIN_BALLS = 9;
const NO_CHANNELS: Channels = { shape: 'none', channels: [], valueMissing: false, folded: [] };

/** Collects parts while groups are added. */
export class PartProposer {
  readonly parts: Part[] = [];
  readonly guesses: PartGuess[] = [];
  /** Point of each pad, by index. */
  readonly points: (string | undefined)[] = [];
  /** Pads that are only the far end of a shunt. */
  readonly folded: number[] = [];
  private readonly request: ProposeRequest;
  private readonly plan: NetPlan;
  private readonly ids: UniqueNames;
  private readonly facts: ReadonlyMap<string, PartFact>;
  private readonly controller: string | null;

  constructor(request: ProposeRequest, plan: NetPlan) {
    this.request = request;
    this.plan = plan;
    this.ids = createUniqueNames(['ground', ...plan.railIds]);
    this.facts = collectFacts(request);
    this.controller = findController(request);
  }

  /** Adds the part of a group. */
  addGroup(group: PadGroup): void {
    const { designator, pads } = group;
    const fact = this.facts.get(designator);
    const id = this.ids.claim(withoutReserved(designator));
    const { kind, because } = this.kindOf(group, fact);
    const bare = kind === 'test-pad' || kind === 'via';
    // A test pad is often called like its net; it then keeps its pin's name.
    const onePad = bare && pads.length === 1 && !this.plan.netIds.has(id);
    const pins = createUniqueNames();
    for (const index of pads) {
      const pin = pins.claim(this.pad(index).pin ?? '_');
      this.points[index] = onePad ? id : `${id}.${pin}`;
    }
    const notFitted = isNotFitted(fact?.value);
    const channels = group.contradicts || notFitted ? NO_CHANNELS : this.channelsOf(group, kind, fact);
    const folded = new Set(channels.folded);
    for (const index of pads) if (folded.has(this.points[index] ?? '')) this.folded.push(index);
    const part = this.start(id, kind, pads, onePad);
    part.channels.push(...channels.channels);
    part.ballGrid = (kind === 'chip' || kind === 'controller') && this.isBallGrid(pads);
    if (fact?.value !== undefined && fact.value !== '') part.value = fact.value.slice(0, 120);
    this.parts.push(part);
    this.guesses.push({
      id,
      designator,
      kind,
      because,
      pads: pads.length,
      shape: notFitted ? 'not-fitted' : channels.shape,
      valueMissing: channels.valueMissing,
      pairingGuessed: channels.shape === 'array',
      side: this.sideOf(pads),
    });
  }

  /** Adds a via or a pad without a designator as a part of its own. */
  addFree(index: number): void {
    const pad = this.pad(index);
    const isVia = pad.via || pad.kind === 'blind' || pad.kind === 'hole';
    const kind: PartKind = isVia ? 'via' : 'test-pad';
    const id = this.ids.claim(isVia ? `VIA${index + 1}` : `PAD${index + 1}`);
    const onePad = !this.plan.netIds.has(id);
    this.points[index] = onePad ? id : `${id}.1`;
    this.parts.push(this.start(id, kind, [index], onePad));
  }

  private pad(index: number): IpcPad {
    return this.request.pads[index] as IpcPad;
  }

  private start(id: string, kind: PartKind, pads: readonly number[], onePad: boolean): Part {
    const placed = pads.flatMap((index) => {
      const { at } = this.pad(index);
      return at === null ? [] : [{ pin: (this.points[index] ?? '').slice(id.length + 1), at }];
    });
    const part: Part = {
      id,
      kind,
      deck: this.request.deck,
      side: 'outer',
      ballGrid: false,
      pins: onePad ? [] : placed,
      channels: [],
    };
    const at = middleOf(placed.map((pin) => pin.at));
    if (at !== null) part.at = at;
    return part;
  }

  private kindOf(
    { designator, pads }: PadGroup,
    fact: PartFact | undefined,
  ): Pick<PartGuess, 'kind' | 'because'> {
    if (fact?.kind !== undefined) return { kind: fact.kind, because: 'told' };
    if (designator === this.controller) return { kind: 'controller', because: 'largest chip' };
    const known = classOf(designator);
    const pins = new Set(pads.map((index) => this.pad(index).pin ?? `#${index}`)).size;
    if (known === null) return { kind: pins === 1 ? 'test-pad' : 'chip', because: 'nothing known' };
    if (known.pinCount === null || pins === known.pinCount) return { kind: known.kind, because: 'letters' };
    if (pins === 1) return { kind: known.kind, because: 'pin count' };
    // More pins than such a part has: an array of them, if a rule says so.
    const rule = findArrayRule(this.request.arrayRules, designator, this.signalPins(pads).length);
    if (rule === null) return { kind: 'chip', because: 'pin count' };
    const keeps = known.kind === 'suppressor' || known.kind === 'diode';
    return { kind: keeps ? 'suppressor' : 'filter-array', because: 'pin count' };
  }

  private signalPins(pads: readonly number[]): readonly PinEnd[] {
    return this.ends(pads).filter(({ role }) => role === 'signal');
  }

  /** One end per pin name; a pin with several pads has its first one. */
  private ends(pads: readonly number[]): PinEnd[] {
    const seen = new Set<string>();
    const ends: PinEnd[] = [];
    for (const index of pads) {
      const { pin, net } = this.pad(index);
      const point = this.points[index] ?? '';
      const key = pin ?? `#${index}`;
      if (seen.has(key)) continue;
      seen.add(key);
      const role = net === null ? 'signal' : this.plan.roleOf(net);
      ends.push({ pin: pin ?? key, point, net: net === null ? null : this.plan.idOf(net), role });
    }
    return ends;
  }

  private channelsOf({ designator, pads }: PadGroup, kind: PartKind, fact: PartFact | undefined): Channels {
    const ends = this.ends(pads);
    const [a, b, more] = ends;
    if (a === undefined || b === undefined) return NO_CHANNELS;
    if (more === undefined) return guessTwoPin(kind, classLetters(designator), fact?.value, a, b);
    const signals = ends.filter(({ role }) => role === 'signal').length;
    const rule = findArrayRule(this.request.arrayRules, designator, signals);
    return rule === null ? NO_CHANNELS : guessArray(rule, fact?.value, ends);
  }

  /** Pins named by a letter or two and a number, as the balls under a chip are. */
  private isBallGrid(pads: readonly number[]): boolean {
    if (pads.length < MIN_BALLS) return false;
    const balls = pads.filter((index) => /^[A-Z]{1,2}\d{1,2}$/i.test(this.pad(index).pin ?? '')).length;
    return balls >= 0.9 * pads.length;
  }

  private sideOf(pads: readonly number[]): IpcPad['side'] | null {
    const sides = new Set(pads.map((index) => this.pad(index).side));
    const [only = null] = sides;
    return sides.size === 1 ? only : null;
  }
}

function collectFacts({ facts, measured = [] }: ProposeRequest): Map<string, PartFact> {
  const known = new Map<string, PartFact>();
  for (const { name, kind, value } of measured) {
    if (name !== '' && kind !== 'inductor') known.set(name, { part: name, value: String(value) });
  }
  for (const fact of facts) known.set(fact.part, { ...known.get(fact.part), ...fact });
  return known;
}

/** The chip with the most pads; `null` where none is large, or where the user named a controller. */
function findController({ pads, facts }: ProposeRequest): string | null {
  if (facts.some(({ kind }) => kind === 'controller')) return null;
  const told = new Map(facts.flatMap(({ part, kind }) => (kind === undefined ? [] : [[part, kind]])));
  const sizes = new Map<string, number>();
  let best: string | null = null;
  for (const { part } of pads) {
    if (part === null || (told.get(part) ?? classOf(part)?.kind) !== 'chip') continue;
    const size = (sizes.get(part) ?? 0) + 1;
    sizes.set(part, size);
    if (size >= MIN_CONTROLLER_PADS && size > (best === null ? 0 : (sizes.get(best) ?? 0))) best = part;
  }
  return best;
}

function middleOf(places: readonly Place[]): Place | null {
  if (places.length === 0) return null;
  const middle = (of: (place: Place) => number): number => {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const place of places) {
      low = Math.min(low, of(place));
      high = Math.max(high, of(place));
    }
    return Math.round(((low + high) / 2) * 1e5) / 1e5;
  };
  return {
    xMillimetres: middle(({ xMillimetres }) => xMillimetres),
    yMillimetres: middle(({ yMillimetres }) => yMillimetres),
  };
}
