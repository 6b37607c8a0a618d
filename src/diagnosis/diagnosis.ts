/**
 * What a diagnosis says, as plain JSON: the contract between the engine, the
 * headless command and the screen. All numbers carry their unit in the name;
 * probabilities are shares from 0 to 1. Texts are plain English sentences or
 * names from the map, never markup.
 */
import type { Fault } from '../board/fault.ts';
import type { Outcome, Probe } from '../board/reading.ts';

/** How a reading stands against its expectation (vocabulary: finding). */
export const FINDING_STATES = [
  'as-expected',
  'low',
  'high',
  'open',
  'grounded',
  'same-as-another',
  'not-measured',
  /** A yes/no test or a look that came out badly. */
  'fails',
] as const;
export type FindingState = (typeof FINDING_STATES)[number];

export const EXPECTATION_SOURCES = ['reference', 'sister', 'model'] as const;
export type ExpectationSource = (typeof EXPECTATION_SOURCES)[number];

/** What a healthy board should read here; `outcome` may be OL or a word. */
export interface Expectation {
  readonly outcome: Outcome;
  /** One standard deviation, in the kind's unit (volts or ohms); 0 for words. */
  readonly spread: number;
  readonly source: ExpectationSource;
  /** How the figure came about, for the why-link: "median of 3 good boards". */
  readonly because: string;
}

/** One reading held against its expectation. */
export interface Finding {
  readonly reading: string;
  readonly probe: Probe;
  readonly seen: Outcome;
  readonly expected: Expectation;
  readonly state: FindingState;
  /** Vertex id whose colour this reading sets; null for readings of no single point. */
  readonly vertex: string | null;
  /** The other point, for `same-as-another`. */
  readonly sameAs: string | null;
  /** "0.452 V, expected 0.455 ± 0.006 V (median of 3 good boards)". */
  readonly sentence: string;
}

/** One reading's word for or against one suspect. */
export interface EvidenceItem {
  readonly reading: string;
  readonly seen: string;
  readonly predicted: string;
  /** log10 of (likelihood under this suspect / likelihood under a healthy board). */
  readonly weight: number;
  readonly verdict: 'fits' | 'neutral' | 'contradicts';
}

/** A fault, or faults that no available test can tell apart, with its share. */
export interface Suspect {
  readonly id: string;
  /** "Filter section F2.3~F2.8 open". */
  readonly title: string;
  readonly faults: readonly Fault[];
  /** Elements involved, by id; empty for "no fault" and "the map is wrong". */
  readonly elements: readonly string[];
  /** Points involved (both ends of a bridge), by vertex id. */
  readonly points: readonly string[];
  readonly lines: readonly string[];
  readonly share: number;
  /** Key of the region it lies in; see `WhereShare`. */
  readonly region: string;
  readonly evidence: readonly EvidenceItem[];
  /** "These read alike: …; to tell them apart: …", or empty. */
  readonly readsAlike: string;
  readonly kind: 'fault' | 'no-fault' | 'map-wrong';
  /** Smallest sets of readings (ids) that rule it out against the first suspect; empty where none do. */
  readonly ruledOutBy: readonly (readonly string[])[];
}

/** A reading worth taking again: it fits nothing, or the verdict hangs on it alone. */
export interface Doubt {
  readonly reading: string;
  readonly kind: 'odd' | 'pivotal';
  readonly sentence: string;
}

/** One piece of the where-it-lies bar, in the order of the stack along the line. */
export interface WhereShare {
  /** `outside`, `deck:ID`, `frame:ID`, `controller`, `no-fault`, `map`. */
  readonly region: string;
  readonly title: string;
  readonly share: number;
}

/** What one outcome of a test would mean. */
export interface OutcomeMeaning {
  /** "about 0.45 V", "OL", "works". */
  readonly outcome: string;
  readonly share: number;
  /** "leaves S.41 and R18". */
  readonly means: string;
}

/** A test worth doing, with what it costs and what it would tell. */
export interface TestAdvice {
  readonly probe: Probe;
  /** "Diode mode at F2.8". */
  readonly title: string;
  /** Text the reading strip would take for this test, without the value: "F2.8 ". */
  readonly entry: string;
  readonly why: string;
  readonly gainBits: number;
  readonly minutes: number;
  /** Gain per minute, the order of the list. */
  readonly bitsPerMinute: number;
  readonly accessSteps: readonly string[];
  readonly risk: string;
  readonly outcomes: readonly OutcomeMeaning[];
}

/** How one point is drawn. */
export interface PointState {
  readonly vertex: string;
  readonly state: FindingState;
  /** "0.452 V". */
  readonly label: string;
  readonly reading: string;
}

/** The whole answer for one case as it stands. */
export interface Diagnosis {
  readonly findings: readonly Finding[];
  readonly points: readonly PointState[];
  readonly suspects: readonly Suspect[];
  readonly where: readonly WhereShare[];
  /** Best tests that need no access step, best first. */
  readonly testsHere: readonly TestAdvice[];
  /** Best tests one access step away, best first. */
  readonly testsOneStep: readonly TestAdvice[];
  /** Set when no further test pays, with the reason. */
  readonly stop: string | null;
  /** Lines in question, from readings and symptom, first one first. */
  readonly lines: readonly string[];
  /** What this diagnosis cannot see, as sentences. */
  readonly limits: readonly string[];
  readonly entropyBits: number;
  readonly doubts: readonly Doubt[];
  /** Readings on points the map does not know any more; they are kept but not used. */
  readonly unplaced: readonly { readonly reading: string; readonly why: string }[];
}
