/**
 * From the pads of one deck to a proposed board map. A netlist knows which
 * pads are joined, and nothing else: kinds come from designators, values from
 * a parts list, channels from kinds and nets, supplies from names and sizes,
 * and every net is a star because the order of its copper is not known. Each
 * guess is handed out with its reason. The map that comes out always compiles.
 *
 * Source of the star: method, section "Graph"; the rest is common practice, no
 * source, where the parts of this folder name none.
 */
import type { BoardMap } from '../../board/board-map.ts';
import { good, type Problem, type Result } from '../../board/result.ts';
import { findSupplies } from './find-supplies.ts';
import { groupPads } from './group-pads.ts';
import type { IpcPad } from './ipc-file.ts';
import { type NetPlan, nameNets } from './name-nets.ts';
import { proposeNeighbours } from './propose-neighbours.ts';
import { noticesOfProposal } from './propose-notices.ts';
import { PartProposer } from './propose-parts.ts';
import type { LeftOutPad, Proposal, ProposeRequest, SupplyGuess } from './propose-types.ts';

/** A request with nothing told by the user. */
export function plainRequest(pads: readonly IpcPad[], deck: string, title: string): ProposeRequest {
  return { pads, deck, title, facts: [], supplies: [], arrayRules: [], vias: 'bare', nearMillimetres: 0 };
}

/** Proposes a map. O(pads), and O(neighbours) where they are asked for. */
export function proposeMap(request: ProposeRequest): Result<Proposal> {
  const supplies = findSupplies(request.pads, request.supplies);
  const leftOut = leaveOut(request, supplies);
  const plan = nameNets(request.pads, supplies);
  const groups = groupPads(request.pads, (index) => !leftOut.has(index));
  const proposer = new PartProposer(request, plan);
  for (const group of groups) proposer.addGroup(group);
  const sizes = netSizes(request.pads, plan, leftOut);
  request.pads.forEach((pad, index) => {
    if (pad.part !== null || leftOut.has(index)) return;
    // A via that joins nothing we know of tells nothing.
    if ((sizes.get(plan.idOf(pad.net ?? '') ?? '') ?? 0) < 2) leftOut.set(index, 'alone-on-net');
    else proposer.addFree(index);
  });
  for (const index of proposer.folded) leftOut.set(index, 'shunt-end');
  const { points, parts, guesses } = proposer;
  const nets = buildNets(request.pads, plan, points, leftOut);
  const map: BoardMap = {
    title: request.title,
    decks: [{ id: request.deck, title: request.title, kind: 'board' }],
    shields: [],
    frames: [],
    parts,
    tracks: [],
    nets,
    rails: supplies
      .filter(({ role }) => role === 'rail')
      .map(({ net, supplyVolts }) => ({ id: plan.idOf(net) ?? net, supplyVolts: supplyVolts ?? 0 })),
    controllerPins: [],
    lines: [],
    neighbours: [],
    good: [],
  };
  const near = proposeNeighbours(request, points, plan);
  const proposal: Proposal = {
    map: { ...map, neighbours: [...near.pairs] },
    supplies,
    parts: guesses,
    pointOfPad: request.pads.map((_, index) => (leftOut.has(index) ? null : (points[index] ?? null))),
    netOfPad: request.pads.map(({ net }) => (net === null ? null : plan.idOf(net))),
    leftOut: [...leftOut].map(([pad, code]) => ({ pad, code })).sort((a, b) => a.pad - b.pad),
    renamedNets: plan.renamed,
  };
  const notices: readonly Problem[] = noticesOfProposal(proposal, near.tooMany);
  return good(proposal, notices);
}

/** Pads that are no points whatever their part turns out to be. */
function leaveOut(
  { pads, vias }: ProposeRequest,
  supplies: readonly SupplyGuess[],
): Map<number, LeftOutPad['code']> {
  const grounds = new Set(supplies.filter(({ role }) => role === 'ground').map(({ net }) => net));
  const codes = new Map<number, LeftOutPad['code']>();
  pads.forEach((pad, index) => {
    const code = reasonToLeaveOut(pad, vias, grounds);
    if (code !== null) codes.set(index, code);
  });
  return codes;
}

function reasonToLeaveOut(
  pad: IpcPad,
  vias: ProposeRequest['vias'],
  grounds: ReadonlySet<string>,
): LeftOutPad['code'] | null {
  if (pad.kind === 'tooling' && pad.net === null) return 'tooling-hole';
  if (pad.part === null && pad.net === null) return 'no-net';
  if (pad.side === 'inside') return 'inside-layer';
  const isVia = pad.via || (pad.kind === 'blind' && pad.part === null);
  if (!isVia) return null;
  if (vias === 'none') return 'via-not-wanted';
  if (vias === 'all') return null;
  if (pad.masked === 'both') return 'via-masked';
  return pad.net !== null && grounds.has(pad.net) ? 'ground-via' : null;
}

/** How many pads each net joins. */
function netSizes(
  pads: readonly IpcPad[],
  plan: NetPlan,
  leftOut: ReadonlyMap<number, LeftOutPad['code']>,
): Map<string, number> {
  const sizes = new Map<string, number>();
  pads.forEach(({ net }, index) => {
    const id = net === null || leftOut.has(index) ? null : plan.idOf(net);
    if (id !== null) sizes.set(id, (sizes.get(id) ?? 0) + 1);
  });
  return sizes;
}

/** Each net with its points, in the order of the file; nets of one point are none. */
function buildNets(
  pads: readonly IpcPad[],
  plan: NetPlan,
  points: readonly (string | undefined)[],
  leftOut: ReadonlyMap<number, LeftOutPad['code']>,
): BoardMap['nets'] {
  const pointsOf = new Map<string, string[]>();
  pads.forEach(({ net }, index) => {
    const id = net === null ? null : plan.idOf(net);
    const point = points[index];
    if (id === null || point === undefined || leftOut.has(index)) return;
    const list = pointsOf.get(id);
    if (list === undefined) pointsOf.set(id, [point]);
    else list.push(point);
  });
  const nets: BoardMap['nets'] = [];
  for (const [id, list] of pointsOf) {
    // A pad alone is joined to nothing, unless it is on ground.
    if (list.length >= 2) nets.push({ id, points: list });
  }
  return nets;
}
