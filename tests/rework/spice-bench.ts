/**
 * A bench whose meter is a SPICE engine: the circuit of the board in a given
 * condition, solved by ngspice instead of by our own solver, and shown as the
 * meter would show it. Function tests are done as on the bench, power on, the
 * line free and then tied to ground, with the logic levels of the model.
 */
import { type CompiledBoard, GROUND, type VertexIndex } from '../../src/board/compiled-board.ts';
import type { Fault, ReworkEdit } from '../../src/board/fault.ts';
import type { Meter, Outcome, Probe } from '../../src/board/reading.ts';
import { buildCircuit } from '../../src/electrics/board-circuit.ts';
import { GROUND_NODE, LEAST_OHMS } from '../../src/electrics/circuit.ts';
import { drawDiodeRange, drawOhmsRange } from '../../src/electrics/meter.ts';
import { probeEnds, showReading } from '../../src/electrics/predict.ts';
import { HELD_DOWN_OHMS, HIGH_SHARE, LOW_SHARE, WORKING_WAY_OHMS } from '../../src/electrics/response.ts';
import { type Spice, startSpice } from '../electrics/spice.ts';

export interface SpiceBench {
  measure(probe: Probe, edits: readonly ReworkEdit[], faults: readonly Fault[]): Promise<Outcome>;
}

export async function startSpiceBench(board: CompiledBoard, meter: Meter): Promise<SpiceBench> {
  const spice = await startSpice();
  const kept = new Map<string, Outcome>();
  return {
    async measure(probe, edits, faults) {
      const key = JSON.stringify([probe, edits, faults]);
      const known = kept.get(key);
      if (known !== undefined) return known;
      const outcome =
        probe.kind === 'function'
          ? await tryFunction(spice, board, probe, edits, faults)
          : await readMeter(spice, board, meter, probe, edits, faults);
      kept.set(key, outcome);
      return outcome;
    },
  };
}

/**
 * Solves; where SPICE finds no answer, once more with a leak at every node that
 * no meter sees, since nodes behind lone junctions leave it without a hold.
 */
async function solve(spice: Spice, { draft }: ReturnType<typeof buildCircuit>): Promise<Float64Array> {
  const volts = await spice.solve(draft.finish());
  if (volts !== null) return volts;
  for (let node = 1; node < draft.nodeCount; node++) draft.resistor(node, GROUND_NODE, LEAK_OHMS);
  const held = await spice.solve(draft.finish());
  if (held === null) throw new Error('SPICE found no operating point');
  return held;
}
const LEAK_OHMS = 1e9;

async function readMeter(
  spice: Spice,
  board: CompiledBoard,
  meter: Meter,
  probe: Probe,
  edits: readonly ReworkEdit[],
  faults: readonly Fault[],
): Promise<Outcome> {
  const { red, black } = probeEnds(board, probe);
  const circuit = buildCircuit(board, probe.state, faults, edits, [red, black]);
  const [a, b] = [circuit.nodeOf(red), circuit.nodeOf(black)];
  if (probe.kind === 'diode') drawDiodeRange(circuit.draft, a, b, meter);
  else drawOhmsRange(circuit.draft, a, b, meter);
  const volts = await solve(spice, circuit);
  return showReading(probe, volts[a]! - volts[b]!, meter, true).outcome;
}

async function tryFunction(
  spice: Spice,
  board: CompiledBoard,
  probe: Probe,
  edits: readonly ReworkEdit[],
  faults: readonly Fault[],
): Promise<Outcome> {
  const line = board.lines.find((entry) => entry.id === probe.at)!;
  const pull = board.elements[line.way[line.way.length - 1]!]!.controllerPin?.pull;
  const word = (text: 'works' | 'dead' | 'stuck'): Outcome => ({ kind: 'word', word: text });
  if (pull === undefined) {
    const ohms = async (from: VertexIndex, to: VertexIndex): Promise<number> => {
      const circuit = buildCircuit(board, probe.state, faults, edits, [from, to]);
      const [a, b] = [circuit.nodeOf(from), circuit.nodeOf(to)];
      circuit.draft.source(b, a, 0.02 / 1000);
      circuit.draft.resistor(a, b, 1000);
      const volts = await solve(spice, circuit);
      const across = volts[a]! - volts[b]!;
      return across / ((0.02 - across) / 1000);
    };
    const isFree = (await ohms(line.die, GROUND)) >= HELD_DOWN_OHMS;
    return word(isFree && (await ohms(line.world, line.die)) < WORKING_WAY_OHMS ? 'works' : 'dead');
  }
  const supply = board.map.rails.find((rail) => rail.id === pull.rail)!.supplyVolts;
  const dieVolts = async (tied: boolean): Promise<number> => {
    const circuit = buildCircuit(board, probe.state, faults, edits, [line.die, line.world], 'on');
    if (tied) circuit.draft.resistor(circuit.nodeOf(line.world), GROUND_NODE, LEAST_OHMS);
    return (await solve(spice, circuit))[circuit.nodeOf(line.die)]!;
  };
  if ((await dieVolts(false)) <= HIGH_SHARE * supply) return word('stuck');
  return word((await dieVolts(true)) < LOW_SHARE * supply ? 'works' : 'dead');
}
