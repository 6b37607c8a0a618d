/**
 * The solver's input: resistors, junctions and current sources between numbered
 * nodes, node 0 being ground, as flat arrays. A fixed voltage is a current
 * source across a small resistance, so that every unknown is a node voltage and
 * the matrix stays symmetric; a junction may carry a battery in series
 * (`junctionOffsetVolts`), which is how a meter's compliance limit is written
 * without a node of its own.
 */

/** Node of every ground. */
export const GROUND_NODE = 0;

/** Smallest resistance we compute with; a stated 0 ohm becomes this. Common practice, no source. */
export const LEAST_OHMS = 1e-4;

/** Conductance of a stated resistance, in siemens. */
export function siemensOf(ohms: number): number {
  return 1 / Math.max(ohms, LEAST_OHMS);
}

export interface Circuit {
  /** Nodes `0..nodeCount-1`, ground included. */
  readonly nodeCount: number;
  readonly resistorA: Int32Array;
  readonly resistorB: Int32Array;
  readonly resistorSiemens: Float64Array;
  readonly junctionAnode: Int32Array;
  readonly junctionCathode: Int32Array;
  readonly junctionSaturationAmps: Float64Array;
  /** n Vt per junction. */
  readonly junctionEmissionVolts: Float64Array;
  /** Battery in series: the junction itself sees V(anode) - V(cathode) - offset. */
  readonly junctionOffsetVolts: Float64Array;
  /** A source takes its current out of `sourceFrom` and puts it into `sourceTo`. */
  readonly sourceFrom: Int32Array;
  readonly sourceTo: Int32Array;
  readonly sourceAmps: Float64Array;
}

/** Gathers a circuit piece by piece; `finish` packs it. */
export class CircuitDraft {
  nodeCount = 1;
  private readonly resistorEnds: number[] = [];
  private readonly siemens: number[] = [];
  private readonly junctionEnds: number[] = [];
  private readonly junctionValues: number[] = [];
  private readonly sourceEnds: number[] = [];
  private readonly amps: number[] = [];

  /** Resistors drawn so far. */
  get resistorCount(): number {
    return this.siemens.length;
  }

  /** Junctions drawn so far. */
  get junctionCount(): number {
    return this.junctionEnds.length / 2;
  }

  /** A new node's number. */
  node(): number {
    return this.nodeCount++;
  }

  /** Joins two nodes; a loop is dropped, under `LEAST_OHMS` counts as that, infinite is no joint. */
  resistor(a: number, b: number, ohms: number): void {
    if (a === b || ohms === Number.POSITIVE_INFINITY) return;
    this.resistorEnds.push(a, b);
    this.siemens.push(siemensOf(ohms));
  }

  /** A junction that conducts from anode to cathode. */
  junction(
    anode: number,
    cathode: number,
    junction: { readonly saturationAmps: number; readonly emissionVolts: number },
    offsetVolts = 0,
  ): void {
    if (anode === cathode) return;
    this.junctionEnds.push(anode, cathode);
    this.junctionValues.push(junction.saturationAmps, junction.emissionVolts, offsetVolts);
  }

  /** A current out of one node into another. */
  source(from: number, to: number, amps: number): void {
    this.sourceEnds.push(from, to);
    this.amps.push(amps);
  }

  /** Holds a node at a voltage through a small resistance (Norton's form). */
  fixedVolts(node: number, volts: number, ohms: number): void {
    this.resistor(node, GROUND_NODE, ohms);
    this.source(GROUND_NODE, node, volts / ohms);
  }

  finish(): Circuit {
    const every = (values: readonly number[], step: number, first: number): number[] =>
      values.filter((_, index) => index % step === first);
    return {
      nodeCount: this.nodeCount,
      resistorA: Int32Array.from(every(this.resistorEnds, 2, 0)),
      resistorB: Int32Array.from(every(this.resistorEnds, 2, 1)),
      resistorSiemens: Float64Array.from(this.siemens),
      junctionAnode: Int32Array.from(every(this.junctionEnds, 2, 0)),
      junctionCathode: Int32Array.from(every(this.junctionEnds, 2, 1)),
      junctionSaturationAmps: Float64Array.from(every(this.junctionValues, 3, 0)),
      junctionEmissionVolts: Float64Array.from(every(this.junctionValues, 3, 1)),
      junctionOffsetVolts: Float64Array.from(every(this.junctionValues, 3, 2)),
      sourceFrom: Int32Array.from(every(this.sourceEnds, 2, 0)),
      sourceTo: Int32Array.from(every(this.sourceEnds, 2, 1)),
      sourceAmps: Float64Array.from(this.amps),
    };
  }
}
