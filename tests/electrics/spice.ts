/**
 * The outside reference: writes a circuit as a SPICE deck and lets ngspice
 * (WebAssembly build, npm `eecircuit-engine`) find its operating point with
 * tolerances far below the ones we ask of ourselves.
 */
import { Simulation } from 'eecircuit-engine';
import type { Circuit } from '../../src/electrics/circuit.ts';
import { THERMAL_VOLTS } from '../../src/electrics/junction.ts';
import { NODE_SHUNT_SIEMENS } from '../../src/electrics/solver-work.ts';

export interface Spice {
  /** Node voltages, ground first; `null` where the engine gave none. */
  solve(circuit: Circuit): Promise<Float64Array | null>;
}

export async function startSpice(): Promise<Spice> {
  const simulation = new Simulation();
  await simulation.start();
  return {
    async solve(circuit) {
      for (const options of ATTEMPTS) {
        const volts = await attempt(simulation, circuit, options);
        if (volts !== null) return volts;
      }
      return null;
    },
  };
}

/** Tight first; a network whose rounding noise is above that gets a second chance. */
const ATTEMPTS = [
  'reltol=1e-9 abstol=1e-16 vntol=1e-11 itl1=100',
  'reltol=1e-6 abstol=1e-13 vntol=1e-9 itl1=500',
  'reltol=1e-5 abstol=1e-12 vntol=1e-8 itl1=500',
];

async function attempt(
  simulation: Simulation,
  circuit: Circuit,
  options: string,
): Promise<Float64Array | null> {
  simulation.setNetList(printDeck(circuit, options));
  const result = await simulation.runSim();
  const volts = new Float64Array(circuit.nodeCount);
  let found = 1;
  for (const { name, values } of result.data) {
    const node = /^v\((\d+)\)$/.exec(name)?.[1];
    if (node === undefined) continue;
    volts[Number(node)] = values[0] as number;
    found++;
  }
  return found === circuit.nodeCount && simulation.getError().length === 0 ? volts : null;
}

/** The circuit as a SPICE deck, on request without the solver's node shunts; batteries in series with junctions become sources on nodes `b…`. */
export function printDeck(circuit: Circuit, options = ATTEMPTS[0], shunts = true): string {
  const lines = ['hopline check'];
  circuit.resistorSiemens.forEach((siemens, i) => {
    lines.push(`R${i} ${circuit.resistorA[i]} ${circuit.resistorB[i]} ${1 / siemens}`);
  });
  circuit.junctionSaturationAmps.forEach((amps, j) => {
    const offset = circuit.junctionOffsetVolts[j]!;
    const cathode = offset === 0 ? `${circuit.junctionCathode[j]}` : `b${j}`;
    if (offset !== 0) lines.push(`VB${j} ${cathode} ${circuit.junctionCathode[j]} ${offset}`);
    lines.push(`D${j} ${circuit.junctionAnode[j]} ${cathode} M${j}`);
    lines.push(`.model M${j} D(IS=${amps} N=${circuit.junctionEmissionVolts[j]! / THERMAL_VOLTS})`);
  });
  circuit.sourceAmps.forEach((amps, i) => {
    lines.push(`I${i} ${circuit.sourceFrom[i]} ${circuit.sourceTo[i]} ${amps}`);
  });
  for (let node = 1; shunts && node < circuit.nodeCount; node++) {
    lines.push(`RS${node} ${node} 0 ${1 / NODE_SHUNT_SIEMENS}`);
  }
  lines.push(`.options gmin=1e-12 ${options}`);
  lines.push('.op', '.end');
  return lines.join('\n');
}
