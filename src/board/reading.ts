/**
 * Readings as data: one measured value with kind, point, polarity, meter,
 * stack state and time. The raw text is kept beside what it was read as, so
 * that a better reader or a better meter fit can be applied later.
 */
import { MAX_NAME_LENGTH, POLARITIES, READING_KINDS, stackStateSchema } from './board-map.ts';
import { z } from './zod.ts';

const id = z
  .string()
  .min(1)
  .max(MAX_NAME_LENGTH * 2 + 1);

/** Words a yes/no test can give. `stuck`: the function fires by itself. */
export const FUNCTION_WORDS = ['works', 'dead', 'stuck'] as const;
/** Words an inspection can give. */
export const LOOK_WORDS = ['fine', 'cracked', 'missing', 'wet', 'corroded', 'bridged', 'reworked'] as const;
export type FunctionWord = (typeof FUNCTION_WORDS)[number];
export type LookWord = (typeof LOOK_WORDS)[number];

/** What was seen: a number in the kind's unit (volts or ohms), OL, or a word. */
export const outcomeSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('value'), value: z.number().min(-1000).max(1e12) }),
  z.strictObject({ kind: z.literal('over') }),
  z.strictObject({ kind: z.literal('word'), word: z.enum([...FUNCTION_WORDS, ...LOOK_WORDS]) }),
]);
export type Outcome = z.infer<typeof outcomeSchema>;

/** What is measured where, in which state: the question a reading answers. */
export const probeSchema = z.strictObject({
  kind: z.enum(READING_KINDS),
  /** A point for electrical kinds and `pull`, a line for `function`, a part, frame contact or point for `look`. */
  at: id,
  /** Second point, for `between` only. */
  and: id.exactOptional(),
  polarity: z.enum(POLARITIES),
  state: stackStateSchema,
});
export type Probe = z.infer<typeof probeSchema>;

/** Where a reading came from: typed by hand, a meter on a cable, spoken. */
export const READING_SOURCES = ['typed', 'meter', 'spoken'] as const;

export const readingSchema = z.strictObject({
  id,
  probe: probeSchema,
  outcome: outcomeSchema,
  /** What was typed or sent, untouched. */
  raw: z.string().max(400),
  meter: id,
  source: z.enum(READING_SOURCES),
});
export type Reading = z.infer<typeof readingSchema>;

/** A meter's ranges and accuracy. Accuracy is +-(share of reading + counts). */
export const meterSchema = z.strictObject({
  id,
  title: z.string().max(MAX_NAME_LENGTH),
  testAmps: z.number().min(1e-6).max(0.1),
  openCircuitVolts: z.number().min(0.5).max(30),
  overRangeVolts: z.number().min(0.3).max(30),
  inputOhms: z.number().min(1e4).max(1e12),
  accuracyShare: z.number().min(0).max(0.2),
  accuracyVolts: z.number().min(0).max(0.1),
  /** Resistance range as a source: its open voltage behind its own resistance. */
  ohmsOpenVolts: z.number().min(0.01).max(10),
  ohmsSourceOhms: z.number().min(1).max(1e9),
  overRangeOhms: z.number().min(1e3).max(1e12),
  accuracyOhms: z.number().min(0).max(100),
});
export type Meter = z.infer<typeof meterSchema>;

/**
 * An ordinary handheld meter: 1 mA, 3 V open, OL above 2 V, 10 Mohm,
 * +-(0.5 % + 2 counts of 1 mV). Common practice, no source.
 */
export const ORDINARY_METER: Meter = {
  id: 'ordinary',
  title: 'Ordinary handheld, 1 mA',
  testAmps: 1e-3,
  openCircuitVolts: 3,
  overRangeVolts: 2,
  inputOhms: 1e7,
  accuracyShare: 0.005,
  accuracyVolts: 0.002,
  ohmsOpenVolts: 0.4,
  ohmsSourceOhms: 1000,
  overRangeOhms: 4e7,
  accuracyOhms: 0.3,
};
