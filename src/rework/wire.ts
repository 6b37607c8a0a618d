/**
 * What does a piece of copper wire do to a current, and a current to it?
 * Resistance, drop and heat follow from resistivity and size; the current that
 * melts it from Preece's law for long times and Onderdonk's for short ones. The
 * steady rise in temperature is read off Preece's own balance (heat lost in
 * proportion to surface and rise), so that it ends at the melting point where
 * his law does; very thin wires lose more heat than that, so it errs warm.
 *
 * Left out: enamel, insulation classes, heat led off by the pads, skin effect.
 * Sources: ASTM B258 (AWG); IEC 60028 (copper); Preece 1884, Proceedings of the
 * Royal Society 36; Onderdonk in Stauffacher 1928, General Electric Review 31.
 */
import table from '../../data/wire.json' with { type: 'json' };
import { z } from '../board/zod.ts';

const positive = z.number().gt(0);

export const wireTableSchema = z.strictObject({
  about: z.string(),
  copper: z.strictObject({
    ohmMetres: positive,
    atCelsius: z.number(),
    perKelvin: positive,
    meltCelsius: positive,
    preeceAmpsPerMillimetre15: positive,
    kilogramsPerCubicMetre: positive,
    joulesPerKilogramKelvin: positive,
  }),
  enamelledMillimetres: z.array(positive).min(1),
  awgGauges: z.strictObject({ first: z.number().int(), last: z.number().int() }),
  signal: z.strictObject({ amps: positive, preferredMillimetres: positive, mostOhms: positive }),
  supply: z.strictObject({
    amps: positive,
    mostDropVolts: positive,
    fusingFactor: positive,
    mostRiseKelvin: positive,
    mostStrands: z.number().int().min(1),
  }),
});
export type WireTable = z.infer<typeof wireTableSchema>;

/** The table shipped with Hopline. */
export const WIRE_TABLE: WireTable = wireTableSchema.parse(table);

/** One wire on the shelf. */
export interface WireSize {
  /** "0.05 mm enamelled", "AWG 40". */
  readonly name: string;
  readonly diameterMillimetres: number;
}

/**
 * Diameter of an AWG wire, in mm: 0.127 * 92^((36 - n) / 39).
 * @param gauge AWG number; 0 is 1/0, -3 is 4/0
 * Source: ASTM B258 (gauge 36 is 0.005 in, 4/0 is 0.46 in, equal ratios between).
 */
export function awgMillimetres(gauge: number): number {
  return 0.127 * 92 ** ((36 - gauge) / 39);
}

/** The wires on the shelf: enamelled sizes thinnest first, then AWG thickest first. */
export const WIRE_SIZES: readonly WireSize[] = listSizes(WIRE_TABLE);

function listSizes({ enamelledMillimetres, awgGauges }: WireTable): WireSize[] {
  const gauges = Array.from({ length: awgGauges.last - awgGauges.first + 1 }, (_, i) => awgGauges.first + i);
  return [
    ...enamelledMillimetres.map((diameterMillimetres) => ({
      name: `${diameterMillimetres} mm enamelled`,
      diameterMillimetres,
    })),
    ...gauges.map((gauge) => ({ name: `AWG ${gauge}`, diameterMillimetres: awgMillimetres(gauge) })),
  ];
}

const { copper } = WIRE_TABLE;

function squareMetres(diameterMillimetres: number): number {
  return (Math.PI / 4) * (diameterMillimetres * 1e-3) ** 2;
}

/**
 * Resistance of a metre of round copper wire, in ohms: rho (1 + alpha (T - 20)) / A.
 * @param diameterMillimetres of the bare copper, above 0
 * Source: IEC 60028:1925 (International Annealed Copper Standard).
 */
export function ohmsPerMetre(diameterMillimetres: number, celsius = copper.atCelsius): number {
  const warmer = 1 + copper.perKelvin * (celsius - copper.atCelsius);
  return (copper.ohmMetres * warmer) / squareMetres(diameterMillimetres);
}

/**
 * Current that melts a copper wire in still air in the long run, in amps: 80 d^1.5.
 * @param diameterMillimetres d, in mm
 * Source: Preece 1884; Standard Handbook for Electrical Engineers (10,244 with d in inches).
 */
export function preeceAmps(diameterMillimetres: number): number {
  return copper.preeceAmpsPerMillimetre15 * diameterMillimetres ** 1.5;
}

/**
 * Current that melts a copper wire within a short time, all heat staying in it,
 * in amps: A sqrt(log10(1 + (Tm - Ta) / (234 + Ta)) / (33 t)), A in circular mils.
 * @param seconds above 0; meant for under about 10 s
 * Source: Onderdonk, in Stauffacher 1928, "Short-time current carrying capacity of copper wire".
 */
export function onderdonkAmps(diameterMillimetres: number, seconds: number, ambientCelsius = 25): number {
  const circularMils = (diameterMillimetres / 0.0254) ** 2;
  const heat = Math.log10(1 + (copper.meltCelsius - ambientCelsius) / (234 + ambientCelsius));
  return circularMils * Math.sqrt(heat / (33 * seconds));
}

/**
 * Steady rise above 20 C, in kelvin; Infinity where the wire would melt.
 * I^2 rho (1 + alpha R) 4 / (pi d^2) = h pi d R, with the h at which Preece's
 * current gives the melting point.
 * Source: Preece 1884 for the balance; solved for the rise by us.
 */
export function riseKelvin(diameterMillimetres: number, amps: number): number {
  const melt = copper.meltCelsius - copper.atCelsius;
  const share = (amps / preeceAmps(diameterMillimetres)) ** 2;
  const cold = (share * melt) / (1 + copper.perKelvin * melt);
  const runaway = copper.perKelvin * cold;
  return share >= 1 ? Number.POSITIVE_INFINITY : cold / (1 - runaway);
}

/** What a current does to a jumper, at 20 C. */
export interface WireLoad {
  readonly ohms: number;
  readonly dropVolts: number;
  readonly heatWatts: number;
  /** Steady rise; `null` where the wire would melt. */
  readonly riseKelvin: number | null;
  /** Long-run fusing current (Preece). */
  readonly fusingAmps: number;
  /** Fusing current for one second (Onderdonk). */
  readonly fusingOneSecondAmps: number;
}

/**
 * What a current does to some strands of wire side by side.
 * @param amps total current; shared evenly by the strands
 * Source: Ohm's and Joule's laws; for the rest see the functions called.
 */
export function loadWire(
  diameterMillimetres: number,
  lengthMillimetres: number,
  amps: number,
  strands = 1,
): WireLoad {
  const ohms = (ohmsPerMetre(diameterMillimetres) * lengthMillimetres * 1e-3) / strands;
  const rise = riseKelvin(diameterMillimetres, amps / strands);
  return {
    ohms,
    dropVolts: ohms * amps,
    heatWatts: ohms * amps ** 2,
    riseKelvin: Number.isFinite(rise) ? rise : null,
    fusingAmps: preeceAmps(diameterMillimetres) * strands,
    fusingOneSecondAmps: onderdonkAmps(diameterMillimetres, 1) * strands,
  };
}
