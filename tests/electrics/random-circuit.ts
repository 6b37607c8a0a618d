/**
 * Random networks as boards make them: mostly trees with some meshes, copper
 * next to megohms, opens, shorts, bridges, junctions either way round, and a
 * meter's diode range in one polarity.
 */
import { ORDINARY_METER } from '../../src/board/reading.ts';
import { type Circuit, CircuitDraft } from '../../src/electrics/circuit.ts';
import { OPEN_OHMS, SHORT_OHMS } from '../../src/electrics/edits.ts';
import { junctionOf } from '../../src/electrics/junction.ts';
import { drawDiodeRange, drawOhmsRange } from '../../src/electrics/meter.ts';
import type { Random } from './random.ts';

/** A connected network of about `elements` elements, with the probed node's number. */
export function randomCircuit(random: Random, elements: number): { circuit: Circuit; probed: number } {
  const draft = new CircuitDraft();
  const nodes = 2 + random.below(Math.max(1, Math.ceil(elements * 0.7)));
  for (let i = 0; i < nodes; i++) draft.node();
  const anyNode = (): number => 1 + random.below(nodes);
  const ohms = (): number => {
    const kind = random.share();
    if (kind < 0.06) return OPEN_OHMS;
    if (kind < 0.1) return SHORT_OHMS;
    if (kind < 0.45) return 0.02 * random.between(0.8, 1.2);
    return random.logBetween(0.3, 1e6);
  };
  const junction = (a: number, b: number): void => {
    const spec = {
      dropVolts: random.between(0.25, 0.8),
      atAmps: 1e-3,
      ideality: random.between(1, 2),
    };
    if (random.share() < 0.5) draft.junction(a, b, junctionOf(spec));
    else draft.junction(b, a, junctionOf(spec));
  };
  for (let node = 2; node <= nodes; node++) {
    const towards = Math.max(1, node - 1 - random.below(random.share() < 0.7 ? 1 : 8));
    if (random.share() < 0.08) {
      // What lies behind a lone junction leaks a little; without it SPICE often finds no answer.
      junction(node, towards);
      draft.resistor(node, 0, random.logBetween(1e8, 1e10));
    } else draft.resistor(node, towards, ohms());
  }
  draft.resistor(anyNode(), 0, random.logBetween(10, 1e7));
  for (let i = nodes; i < elements; i++) {
    const kind = random.share();
    if (kind < 0.4) junction(anyNode(), 0);
    else if (kind < 0.55) junction(anyNode(), anyNode());
    else if (kind < 0.75) draft.resistor(anyNode(), 0, random.logBetween(100, 1e9));
    else draft.resistor(anyNode(), anyNode(), ohms());
  }
  const probed = anyNode();
  const [red, black] = random.share() < 0.5 ? [probed, 0] : [0, probed];
  if (random.share() < 0.8) drawDiodeRange(draft, red, black, ORDINARY_METER);
  else drawOhmsRange(draft, red, black, ORDINARY_METER);
  return { circuit: draft.finish(), probed };
}
