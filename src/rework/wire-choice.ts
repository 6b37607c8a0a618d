/**
 * Which wire for this jumper? A signal takes a thin wire that lies flat and
 * strips clean; a supply takes the thinnest wire that keeps drop, warmth and
 * distance from melting within the table's limits, in several strands if need
 * be. A line counts as a supply when it is a rail, or when its way passes a
 * fuse or a power inductor; the user can say better by giving its current.
 * The limits are common practice, no source (`data/wire.json`).
 */
import type { CompiledBoard } from '../board/compiled-board.ts';
import { loadWire, WIRE_SIZES, WIRE_TABLE, type WireLoad, type WireSize } from './wire.ts';

/** What a jumper will carry. */
export interface LineLoad {
  readonly kind: 'signal' | 'supply';
  readonly amps: number;
  /** "1 A, assumed for a supply", "0.3 A, as given". */
  readonly because: string;
}

/** A wire for a jumper, with what its current does to it. */
export interface WireChoice extends WireLoad {
  readonly size: WireSize;
  readonly strands: number;
  readonly carries: LineLoad;
  readonly warnings: readonly string[];
}

/** Kinds of part whose place in a line's way marks it as a supply. */
const SUPPLY_PARTS: ReadonlySet<string> = new Set(['fuse', 'inductor']);

/**
 * What a line carries: the current given for it, else the table's for its kind.
 * @param line line or rail id; `null` for copper of neither
 * @param givenAmps amps by line or rail id
 */
export function loadOfLine(
  board: CompiledBoard,
  line: string | null,
  givenAmps: Readonly<Record<string, number>> = {},
): LineLoad {
  const kind = line !== null && isSupply(board, line) ? 'supply' : 'signal';
  const given = line === null ? undefined : givenAmps[line];
  if (given !== undefined) return { kind, amps: given, because: `${printAmps(given)}, as given` };
  const { amps } = WIRE_TABLE[kind];
  return { kind, amps, because: `${printAmps(amps)}, assumed for a ${kind}` };
}

function isSupply(board: CompiledBoard, line: string): boolean {
  if (board.map.rails.some((rail) => rail.id === line)) return true;
  const compiled = board.lines.find((entry) => entry.id === line);
  return (compiled?.way ?? []).some((index) => {
    const part = board.elements[index]?.part ?? null;
    return part !== null && SUPPLY_PARTS.has(board.partOf.get(part)?.kind ?? '');
  });
}

/** The wire we propose for a load over a length in mm, always with its figures. */
export function chooseWire(carries: LineLoad, lengthMillimetres: number): WireChoice {
  const enamelled = WIRE_SIZES.filter((size) => size.name.endsWith('enamelled'));
  const least = carries.kind === 'signal' ? WIRE_TABLE.signal.preferredMillimetres : 0;
  for (let strands = 1; strands <= WIRE_TABLE.supply.mostStrands; strands++) {
    for (const size of enamelled) {
      if (size.diameterMillimetres < least) continue;
      const choice = judgeWire(size, carries, lengthMillimetres, strands);
      if (choice.warnings.length === 0) return choice;
    }
  }
  const thickest = enamelled[enamelled.length - 1] as WireSize;
  return judgeWire(thickest, carries, lengthMillimetres, WIRE_TABLE.supply.mostStrands);
}

/** A wire the user holds, with its figures and what is wrong with it for this load. */
export function judgeWire(
  size: WireSize,
  carries: LineLoad,
  lengthMillimetres: number,
  strands = 1,
): WireChoice {
  const load = loadWire(size.diameterMillimetres, lengthMillimetres, carries.amps, strands);
  const { signal, supply } = WIRE_TABLE;
  const name = strands === 1 ? size.name : `${strands} strands of ${size.name}`;
  const warnings: string[] = [];
  const isWarm = (load.riseKelvin ?? Number.POSITIVE_INFINITY) > supply.mostRiseKelvin;
  const isNearMelting = load.fusingAmps < supply.fusingFactor * carries.amps;
  const drops = carries.kind === 'supply' && load.dropVolts > supply.mostDropVolts;
  if (carries.kind === 'supply' && (isWarm || isNearMelting || drops)) {
    const warms = load.riseKelvin === null ? '' : `, warms by ${Math.round(load.riseKelvin)} K`;
    warnings.push(
      `This is a signal wire on a supply: ${name} at ${printAmps(carries.amps)} drops ` +
        `${Math.round(load.dropVolts * 1000)} mV${warms} and melts at ${printAmps(load.fusingAmps)}. ` +
        'Take a thicker wire or more strands.',
    );
  } else if (isWarm || isNearMelting) {
    warnings.push(
      `${name} is too thin for ${printAmps(carries.amps)}: it melts at ${printAmps(load.fusingAmps)}.`,
    );
  }
  if (carries.kind === 'signal' && load.ohms > signal.mostOhms) {
    warnings.push(`${name} adds ${load.ohms.toPrecision(2)} Ω to the line.`);
  }
  return { ...load, size, strands, carries, warnings };
}

function printAmps(amps: number): string {
  return amps < 1 ? `${Number((amps * 1000).toPrecision(2))} mA` : `${Number(amps.toPrecision(2))} A`;
}
