/**
 * How is one element drawn as resistors and junctions, in each condition it can
 * be in? The one place that says so, used by the plain predictor, which draws a
 * whole circuit, and by the sweep, which draws single elements anew under a
 * fault. Capacitors are open: everything here is at rest (DC).
 *
 * What stands for what is common practice, no source.
 */
import type { CompiledBoard, Element, ElementIndex, VertexIndex } from '../board/compiled-board.ts';
import { GROUND_NODE } from './circuit.ts';
import { BYPASS_OHMS, type Condition, OPEN_OHMS } from './edits.ts';
import { type Junction, junctionOf } from './junction.ts';
import { wiringOf } from './wiring.ts';

/** Behind every powered rail, in ohms: stiff, yet a short to it stays finite. Common practice, no source. */
export const RAIL_SOURCE_OHMS = 1e-3;

/** How the board is supplied while it is read; `without-rails` leaves loads and supplies out. */
export type Supply = 'off' | 'on' | 'without-rails';

/** What drawing needs: a `CircuitDraft`, or a recorder. */
export interface Pen {
  /** A new node within an element. */
  node(): number;
  resistor(a: number, b: number, ohms: number): void;
  junction(anode: number, cathode: number, junction: Junction): void;
}

/** Draws one element. @param nodeOf node of a vertex, -1 where it is left out */
export function drawElement(
  pen: Pen,
  board: CompiledBoard,
  index: ElementIndex,
  condition: Condition,
  nodeOf: (vertex: VertexIndex) => number,
): void {
  const element = board.elements[index] as Element;
  const a = nodeOf(element.a);
  const b = nodeOf(element.b);
  if (condition.bypassed) pen.resistor(a, b, BYPASS_OHMS);
  else if (condition.gone) return;
  else if (condition.open) drawOpen(pen, element, a, b);
  else if (element.ohms !== null) pen.resistor(a, b, element.ohms + condition.addedOhms);
  else if (element.channel?.kind === 'junction') {
    const junction = wiringOf(board).junctionOfElement(index) as Junction;
    let inner = a;
    if (condition.addedOhms > 0) {
      inner = pen.node();
      pen.resistor(a, inner, condition.addedOhms);
    }
    pen.junction(b, inner, junction);
    if (element.channel.bothWays) pen.junction(inner, b, junction);
  }
  if (element.kind === 'pin') drawDie(pen, board, element, b, nodeOf);
}

/** An open capacitor is as open as a sound one. */
function drawOpen(pen: Pen, element: Element, a: number, b: number): void {
  if (element.channel?.kind !== 'capacitor') pen.resistor(a, b, OPEN_OHMS);
}

/** Clamps and pull of a die: they stay on the rail when the ball is open. */
function drawDie(
  pen: Pen,
  board: CompiledBoard,
  element: Element,
  die: number,
  nodeOf: (vertex: VertexIndex) => number,
): void {
  const pin = element.controllerPin;
  if (pin === null) return;
  const hubNode = (rail: string): number => {
    const hub = wiringOf(board).hubOf(rail, element.deck);
    return hub === undefined ? -1 : nodeOf(hub);
  };
  if (pin.lower !== undefined) pen.junction(GROUND_NODE, die, junctionOf(pin.lower));
  if (pin.upper !== undefined) {
    const hub = hubNode(pin.upper.rail);
    if (hub >= 0) pen.junction(die, hub, junctionOf(pin.upper.junction));
  }
  if (pin.pull !== undefined) {
    const hub = hubNode(pin.pull.rail);
    if (hub >= 0) pen.resistor(die, hub, pin.pull.ohms);
  }
}

/**
 * What a rail's own load shows at its hub, or its supply when powered: the load
 * is given by what a meter sees of it unpowered and says nothing of its current
 * at work.
 */
export function drawLoad(
  pen: Pen & { fixedVolts(node: number, volts: number, ohms: number): void },
  board: CompiledBoard,
  vertex: VertexIndex,
  node: number,
  supply: Supply,
): void {
  const load = wiringOf(board).loadAt(vertex);
  if (load === undefined || supply === 'without-rails') return;
  const { rail } = load;
  if (supply === 'on') {
    pen.fixedVolts(node, rail.supplyVolts, RAIL_SOURCE_OHMS);
    return;
  }
  if (rail.load !== undefined) pen.junction(GROUND_NODE, node, junctionOf(rail.load));
  if (rail.loadReverse !== undefined) pen.junction(node, GROUND_NODE, junctionOf(rail.loadReverse));
  if (rail.loadOhms !== undefined) pen.resistor(node, GROUND_NODE, rail.loadOhms);
}
