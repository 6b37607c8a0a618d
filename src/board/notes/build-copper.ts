/**
 * Statements about copper, rails and what controller pins hold inside:
 * `track`, `net`, `rail`, `clamp`, `pull`.
 */
import type { ControllerPin, Rail } from '../board-map.ts';
import { pairKey } from '../check/map-index.ts';
import { type Draft, junctionOf, notice, numberOf, type PlacedOf, place, report } from './draft.ts';
import type { Token } from './statement.ts';

/** `track J9.1 - TP4 - R3.1`: copper in known order; one track per neighbouring pair. */
export function buildTrack(draft: Draft, placed: PlacedOf<'track'>): void {
  const { points, ohms } = placed.statement;
  const value = ohms === null ? null : numberOf(draft, placed, ohms, 'ohm');
  for (let i = 0; i + 1 < points.length; i++) {
    const from = points[i] as Token;
    const to = points[i + 1] as Token;
    const whole = { ...from, end: to.end };
    const known = draft.trackIndex.get(pairKey(from.text, to.text));
    if (known !== undefined) {
      const same = draft.map.tracks[known]?.ohms === (value ?? undefined);
      const words = {
        code: 'said-twice',
        what: `The copper between ${from.text} and ${to.text} is known already.`,
      } as const;
      if (same) notice(draft, placed, whole, { ...words, mend: 'One of the two can go.' });
      else report(draft, placed, whole, { ...words, mend: 'Keep the one with the right resistance.' });
      continue;
    }
    const path = `tracks.${draft.map.tracks.length}`;
    draft.trackIndex.set(pairKey(from.text, to.text), draft.map.tracks.length);
    place(draft, path, placed, whole);
    place(draft, `${path}.from`, placed, from);
    place(draft, `${path}.to`, placed, to);
    if (ohms !== null) place(draft, `${path}.ohms`, placed, ohms);
    const ends = { from: from.text, to: to.text };
    draft.map.tracks.push(value === null ? ends : { ...ends, ohms: value });
  }
}

/** `net VDD_1V8 C1.1 C2.1`: a second statement for the same net adds to it. */
export function buildNet(draft: Draft, placed: PlacedOf<'net'>): void {
  const { id, points } = placed.statement;
  let index = draft.netIndex.get(id.text);
  if (index === undefined) {
    index = draft.map.nets.length;
    draft.netIndex.set(id.text, index);
    place(draft, `nets.${index}`, placed, id);
    draft.map.nets.push({ id: id.text, points: [] });
  }
  const net = draft.map.nets[index] as { id: string; points: string[] };
  for (const point of points) {
    place(draft, `nets.${index}.points.${net.points.length}`, placed, point);
    net.points.push(point.text);
  }
}

export function buildRail(draft: Draft, placed: PlacedOf<'rail'>): void {
  const { id, volts, options } = placed.statement;
  const path = `rails.${draft.map.rails.length}`;
  place(draft, path, placed, id);
  place(draft, `${path}.supplyVolts`, placed, volts);
  const rail: Rail = { id: id.text, supplyVolts: numberOf(draft, placed, volts, 'V') };
  const said = new Set<string>();
  for (const option of options) {
    if (said.has(option.kind)) {
      report(draft, placed, option.token, {
        code: 'said-twice',
        what: `This rail has its \`${option.kind}\` already.`,
        mend: 'Keep one of the two.',
      });
      continue;
    }
    said.add(option.kind);
    if (option.kind === 'on') {
      rail.deck = option.token.text;
      place(draft, `${path}.deck`, placed, option.token);
    } else if (option.kind === 'ohms') {
      rail.loadOhms = numberOf(draft, placed, option.token, 'ohm');
      place(draft, `${path}.loadOhms`, placed, option.token);
    } else if ('junction' in option) {
      const end = option.kind === 'load' ? 'load' : 'loadReverse';
      rail[end] = junctionOf(draft, placed, option.junction, `${path}.${end}`);
    }
  }
  draft.map.rails.push(rail);
}

/** `clamp U1.G4 0.412 upper 0.45 to VDD_1V8`: what the pin's own clamps drop. */
export function buildClamp(draft: Draft, placed: PlacedOf<'clamp'>): void {
  const { point, lower, upper } = placed.statement;
  const { pin, path } = controllerPin(draft, placed, point);
  if (draft.spots.has(`${path}.clamp`)) {
    report(draft, placed, point, {
      code: 'said-twice',
      what: `The clamps of ${point.text} are known already.`,
      mend: 'Keep one `clamp` statement for it.',
    });
    return;
  }
  place(draft, `${path}.clamp`, placed, point);
  if (lower !== null) pin.lower = junctionOf(draft, placed, lower, `${path}.lower`);
  if (upper !== null) {
    place(draft, `${path}.upper.rail`, placed, upper.rail);
    pin.upper = {
      rail: upper.rail.text,
      junction: junctionOf(draft, placed, upper.junction, `${path}.upper.junction`),
    };
  }
}

/** `pull U1.G4 to VDD_1V8 47k`: a pull-up inside the controller. */
export function buildPull(draft: Draft, placed: PlacedOf<'pull'>): void {
  const { point, rail, ohms } = placed.statement;
  const { pin, path } = controllerPin(draft, placed, point);
  if (pin.pull !== undefined) {
    report(draft, placed, point, {
      code: 'said-twice',
      what: `The pull-up of ${point.text} is known already.`,
      mend: 'Keep one `pull` statement for it.',
    });
    return;
  }
  place(draft, `${path}.pull.rail`, placed, rail);
  place(draft, `${path}.pull.ohms`, placed, ohms);
  pin.pull = { rail: rail.text, ohms: numberOf(draft, placed, ohms, 'ohm') };
}

function controllerPin(
  draft: Draft,
  placed: PlacedOf<'clamp' | 'pull'>,
  point: Token,
): { pin: ControllerPin; path: string } {
  const { controllerPins } = draft.map;
  let index = draft.pinIndex.get(point.text);
  if (index === undefined) {
    index = controllerPins.length;
    draft.pinIndex.set(point.text, index);
    controllerPins.push({ point: point.text });
    place(draft, `controllerPins.${index}`, placed, point);
  }
  return { pin: controllerPins[index] as ControllerPin, path: `controllerPins.${index}` };
}
