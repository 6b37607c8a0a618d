/**
 * What is known of one product model: the board map, as a zod schema and the
 * types read off it, so that the contract of files, notes and storage is
 * stated once. Nothing here computes; `compile.ts` turns a map into arrays.
 *
 * Ids are the names a technician writes: `J3.7` (pin 7 of part J3), `S.41`
 * (contact 41 of frame S), `S.41@power` (its end on the power deck).
 */
import { z } from './zod.ts';

/** Longest name we accept anywhere; longer is refused with words. */
export const MAX_NAME_LENGTH = 120;

const name = z.string().min(1).max(MAX_NAME_LENGTH);
const millimetres = z.number().min(-1e4).max(1e4);
const place = z.strictObject({ xMillimetres: millimetres, yMillimetres: millimetres });
const ohms = z.number().min(0).max(1e12);
const volts = z.number().min(-1000).max(1000);

/** A place on a deck, in millimetres, seen through the stack from above. */
export type Place = z.infer<typeof place>;

export const DECK_KINDS = ['board', 'flex'] as const;
export const DECK_SIDES = ['outer', 'inner'] as const;
export const FRAME_KINDS = ['soldered', 'plugged'] as const;
export const PART_KINDS = [
  'connector',
  'controller',
  'chip',
  'resistor',
  'bead',
  'inductor',
  'fuse',
  'switch',
  'link',
  'capacitor',
  'diode',
  'suppressor',
  'filter-array',
  'test-pad',
  'via',
] as const;
export const READING_KINDS = ['diode', 'ohms', 'between', 'volts', 'pull', 'function', 'look'] as const;
export const POLARITIES = ['red-on-ground', 'red-on-point'] as const;

export type PartKind = (typeof PART_KINDS)[number];
export type ReadingKind = (typeof READING_KINDS)[number];
/** Which probe is on ground. `red-on-ground` is the trade's usual diode reading. */
export type Polarity = (typeof POLARITIES)[number];

/** One board of the stack, top first in the list; or a flex tail. */
export const deckSchema = z.strictObject({
  id: name,
  title: z.string().max(MAX_NAME_LENGTH),
  kind: z.enum(DECK_KINDS),
});

/** A can that must come off before what is under it can be touched. */
export const shieldSchema = z.strictObject({ id: name, deck: name });

/**
 * Contacts that join two decks. `soldered`: a frame, taken apart by splitting,
 * its contact ends lie between the decks. `plugged`: a connector of a flex or
 * a board, taken apart by unplugging, its contacts can be touched.
 */
export const frameSchema = z.strictObject({
  id: name,
  kind: z.enum(FRAME_KINDS),
  upper: name,
  lower: name,
  contacts: z.array(z.strictObject({ number: name, at: place.exactOptional() })),
});

/** A junction by one point of its curve; `ideality` is SPICE's N. */
export const junctionSchema = z.strictObject({
  dropVolts: z.number().min(0.01).max(20),
  atAmps: z.number().min(1e-9).max(10),
  ideality: z.number().min(0.5).max(5),
});
export type JunctionSpec = z.infer<typeof junctionSchema>;

/**
 * One two-terminal behaviour of a part. `to` is a pin of the same part,
 * `ground`, or a rail's name: a channel to ground or to a rail is a shunt.
 * A junction conducts from `to` into `from` (red probe on ground reads it);
 * `both` makes it conduct both ways.
 */
export const channelSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('resistance'), from: name, to: name, ohms }),
  z.strictObject({ kind: z.literal('capacitor'), from: name, to: name, farads: z.number().min(0).max(100) }),
  z.strictObject({
    kind: z.literal('junction'),
    from: name,
    to: name,
    junction: junctionSchema,
    bothWays: z.boolean(),
  }),
]);
export type Channel = z.infer<typeof channelSchema>;

/** A component. `pins` carries what is special about single pins; unnamed pins exist by use. */
export const partSchema = z.strictObject({
  id: name,
  kind: z.enum(PART_KINDS),
  deck: name,
  side: z.enum(DECK_SIDES),
  at: place.exactOptional(),
  under: name.exactOptional(),
  /** Pins lie under the body and cannot be touched while the part is on. */
  ballGrid: z.boolean(),
  value: z.string().max(MAX_NAME_LENGTH).exactOptional(),
  pins: z.array(z.strictObject({ pin: name, at: place })),
  channels: z.array(channelSchema),
});
export type Part = z.infer<typeof partSchema>;

/** Copper between two points of one deck, in known order. */
export const trackSchema = z.strictObject({ from: name, to: name, ohms: ohms.exactOptional() });

/** Points of one net whose copper order is unknown: each has a track to the net's hub. */
export const netSchema = z.strictObject({ id: name, points: z.array(name).min(2) });

/** A supply rail: what it carries when powered and how it reads to ground when not. */
export const railSchema = z.strictObject({
  id: name,
  supplyVolts: volts,
  /** The deck its load sits on, for rails that cross a frame. */
  deck: name.exactOptional(),
  /** What the whole rail shows in diode mode, red on the rail and red on ground. */
  load: junctionSchema.exactOptional(),
  loadReverse: junctionSchema.exactOptional(),
  loadOhms: ohms.exactOptional(),
});

/** What a controller pin holds inside: clamps to ground and rail, a pull-up. */
export const controllerPinSchema = z.strictObject({
  point: name,
  lower: junctionSchema.exactOptional(),
  upper: z.strictObject({ rail: name, junction: junctionSchema }).exactOptional(),
  pull: z.strictObject({ rail: name, ohms }).exactOptional(),
});

/** The way from an outside pin (first) to its controller pin (last), with every point passed. */
export const lineSchema = z.strictObject({
  id: name,
  title: z.string().max(MAX_NAME_LENGTH),
  way: z.array(name).min(2),
});

/** Points close enough for solder or corrosion to bridge. */
export const neighbourSchema = z.strictObject({
  a: name,
  b: name,
  gapMillimetres: z.number().min(0).max(1000).exactOptional(),
});

/** Stack state: which frames are apart, which parts and shields are off. */
export const stackStateSchema = z.strictObject({
  split: z.array(name),
  lifted: z.array(name),
  open: z.array(name),
});
/** How the unit stands on the bench while a reading is taken. */
export type StackState = z.infer<typeof stackStateSchema>;

/** The unit as it came: everything joined, nothing lifted, shields on. */
export const JOINED: StackState = { split: [], lifted: [], open: [] };

/** Readings of known-good boards at one point; `null` stands for OL. */
export const goodReadingSchema = z.strictObject({
  point: name,
  kind: z.enum(['diode', 'ohms', 'volts']),
  polarity: z.enum(POLARITIES),
  state: stackStateSchema,
  values: z.array(z.number().min(-1000).max(1e12).nullable()).min(1),
});
export type GoodReading = z.infer<typeof goodReadingSchema>;

/** The whole board map. */
export const boardMapSchema = z.strictObject({
  title: z.string().max(MAX_NAME_LENGTH),
  decks: z.array(deckSchema),
  shields: z.array(shieldSchema),
  frames: z.array(frameSchema),
  parts: z.array(partSchema),
  tracks: z.array(trackSchema),
  nets: z.array(netSchema),
  rails: z.array(railSchema),
  controllerPins: z.array(controllerPinSchema),
  lines: z.array(lineSchema),
  neighbours: z.array(neighbourSchema),
  good: z.array(goodReadingSchema),
});
export type BoardMap = z.infer<typeof boardMapSchema>;
export type Deck = BoardMap['decks'][number];
export type Frame = BoardMap['frames'][number];
export type Rail = BoardMap['rails'][number];
export type Line = BoardMap['lines'][number];
export type ControllerPin = BoardMap['controllerPins'][number];
