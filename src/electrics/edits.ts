/**
 * What do the stack state, faults and rework change on a compiled board? They
 * become conditions on single elements plus joints between two vertices, so
 * that the circuit builder and the sweep read one meaning from one place.
 *
 * Order of precedence: a wire over a part (bypassed) stands whatever lies under
 * it; a part that is lifted or taken out takes its own defects with it; then
 * open; then added resistance.
 *
 * The resistances that stand for open, short and their like are common practice,
 * no source, except where a fault states its own.
 */
import type { StackState } from '../board/board-map.ts';
import {
  type CompiledBoard,
  type Element,
  type ElementIndex,
  GROUND,
  type VertexIndex,
} from '../board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../board/fault.ts';
import { unreachable } from '../board/result.ts';
import { type Wiring, wiringOf } from './wiring.ts';

export const OPEN_OHMS = 1e9;
export const SHORT_OHMS = 0.1;
export const BYPASS_OHMS = 0.1;
/** Severities where a fault states none. */
export const RESISTIVE_OHMS = 100;
export const LEAK_OHMS = 1000;
export const BRIDGE_OHMS = 1;

/** How one element stands; an element without a condition is healthy. */
export interface Condition {
  /** Not there at all: its part is lifted, its frame split, or it is under a wire. */
  readonly gone: boolean;
  readonly open: boolean;
  /** A wire lies over it. */
  readonly bypassed: boolean;
  /** Extra resistance in series, ohms. */
  readonly addedOhms: number;
  /** Its function is lost while its clamps still read as ever. */
  readonly dead: boolean;
}

export const HEALTHY: Condition = { gone: false, open: false, bypassed: false, addedOhms: 0, dead: false };

/** A resistance that is no element: a leak, a bridge, a jumper. */
export interface Joint {
  readonly a: VertexIndex;
  readonly b: VertexIndex;
  readonly ohms: number;
  /** The element whose defect it is; `null` for bridges and jumpers. */
  readonly element: ElementIndex | null;
}

export interface Edits {
  readonly conditions: ReadonlyMap<ElementIndex, Condition>;
  readonly joints: readonly Joint[];
  /** Parts off the board: what was wrong with them left with them. */
  readonly partsOut: ReadonlySet<string>;
}

/** How an element stands under some edits. */
export function conditionOf(edits: Edits, element: ElementIndex): Condition {
  return edits.conditions.get(element) ?? HEALTHY;
}

/**
 * Reads the stack state and the rework into conditions and joints.
 * O(elements touched). Ids that the board does not know change nothing.
 */
export function compileEdits(board: CompiledBoard, state: StackState, rework: readonly ReworkEdit[]): Edits {
  const editor = new Editor(board);
  for (const frame of state.split) editor.change(editor.wiring.elementsOfFrame(frame), { gone: true });
  for (const part of state.lifted) editor.takeOut(part);
  for (const edit of rework) editor.rework(edit);
  return editor.edits();
}

/** Lays faults over edits; the given edits stay as they are. O(edits + elements touched). */
export function compileFaults(board: CompiledBoard, base: Edits, faults: readonly Fault[]): Edits {
  if (faults.length === 0) return base;
  const { conditions, joints } = overlayFaults(board, base, faults);
  return {
    conditions: new Map([...base.conditions, ...conditions]),
    joints: [...base.joints, ...joints],
    partsOut: base.partsOut,
  };
}

/** Only what faults change over some edits: new conditions and new joints. O(elements touched). */
export function overlayFaults(
  board: CompiledBoard,
  base: Edits,
  faults: readonly Fault[],
): Pick<Edits, 'conditions' | 'joints'> {
  const editor = new Editor(board, base);
  for (const fault of faults) editor.fault(fault);
  return editor.edits();
}

class Editor {
  readonly board: CompiledBoard;
  readonly wiring: Wiring;
  private readonly conditions = new Map<ElementIndex, Condition>();
  private readonly joints: Joint[] = [];
  private readonly out: Set<string>;
  private readonly under: Edits | null;

  /** @param under edits that this one's changes are laid over */
  constructor(board: CompiledBoard, under: Edits | null = null) {
    this.board = board;
    this.wiring = wiringOf(board);
    this.under = under;
    this.out = new Set(under?.partsOut);
  }

  edits(): Edits {
    return { conditions: this.conditions, joints: this.joints, partsOut: this.out };
  }

  rework(edit: ReworkEdit): void {
    switch (edit.kind) {
      case 'remove-part':
        this.takeOut(edit.part);
        return;
      case 'bypass-part':
        this.bypass(edit.part, true);
        return;
      case 'cut':
        this.change(this.elementsNamed(edit.element), { open: true });
        return;
      case 'jumper':
        this.joint(edit.from, edit.to, edit.ohms);
        return;
      default:
        unreachable(edit);
    }
  }

  change(elements: readonly ElementIndex[], change: Partial<Condition>): void {
    for (const element of elements) {
      this.conditions.set(element, { ...this.conditionNow(element), ...change });
    }
  }

  private conditionNow(element: ElementIndex): Condition {
    return this.conditions.get(element) ?? this.under?.conditions.get(element) ?? HEALTHY;
  }

  takeOut(part: string): void {
    this.out.add(part);
    this.change(this.wiring.elementsOfPart(part), { gone: true });
  }

  private bypass(part: string, partOff: boolean): void {
    if (partOff) this.out.add(part);
    for (const element of this.wiring.elementsOfPart(part)) {
      const { kind } = this.board.elements[element] as Element;
      if (kind === 'series') this.change([element], { bypassed: true });
      else if (kind === 'shunt') this.change([element], { gone: true });
    }
  }

  private joint(from: string, to: string, ohms: number): void {
    const a = this.board.vertexOf.get(from);
    const b = this.board.vertexOf.get(to);
    if (a !== undefined && b !== undefined && a !== b) this.joints.push({ a, b, ohms, element: null });
  }

  private elementsNamed(id: string): readonly ElementIndex[] {
    const element = this.board.elementOf.get(id);
    return element === undefined ? [] : [element];
  }

  fault(fault: Fault): void {
    if (fault.defect === 'bridge') {
      const pair = this.wiring.pairNamed(fault.element);
      if (pair !== undefined) this.joints.push({ ...pair, ohms: fault.ohms ?? BRIDGE_OHMS, element: null });
      return;
    }
    const index = this.board.elementOf.get(fault.element);
    const element = index === undefined ? undefined : this.board.elements[index];
    const part = this.board.partOf.has(fault.element) ? fault.element : (element?.part ?? null);
    if (part !== null && this.out.has(part)) return;
    switch (fault.defect) {
      case 'missing':
        if (part !== null) this.change(this.wiring.elementsOfPart(part), { open: true });
        else if (index !== undefined) this.change([index], { open: true });
        return;
      case 'bypassed':
        if (part !== null) this.bypass(part, false);
        else if (index !== undefined) this.change([index], { bypassed: true });
        return;
      default:
        if (index !== undefined && element !== undefined) this.elementFault(fault, index, element);
    }
  }

  private elementFault(fault: Fault, index: ElementIndex, element: Element): void {
    switch (fault.defect) {
      case 'open':
        this.change([index], { open: true });
        return;
      case 'resistive': {
        const before = this.conditionNow(index).addedOhms;
        this.change([index], { addedOhms: before + (fault.ohms ?? RESISTIVE_OHMS) });
        return;
      }
      case 'short':
      case 'leak': {
        const shunt = element.kind === 'shunt';
        const ohms = fault.defect === 'short' ? SHORT_OHMS : (fault.ohms ?? LEAK_OHMS);
        this.joints.push({
          a: shunt ? element.a : element.b,
          b: shunt ? element.b : GROUND,
          ohms,
          element: index,
        });
        return;
      }
      case 'dead':
        this.change([index], { dead: true });
        return;
      case 'bridge':
      case 'missing':
      case 'bypassed':
        return;
      default:
        unreachable(fault.defect);
    }
  }
}
