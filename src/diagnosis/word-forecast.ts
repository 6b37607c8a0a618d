/**
 * How often a yes/no test or a look comes out each way, given what is really
 * there. Looks miss much: most open sections look fine. All tables here are
 * common practice, no source; they only need the right order of magnitude.
 */
import type { CompiledBoard } from '../board/compiled-board.ts';
import { ownerOf } from '../board/compiled-board.ts';
import type { Defect, Fault } from '../board/fault.ts';
import type { FunctionWord, LookWord } from '../board/reading.ts';
import { LOOK_WORDS } from '../board/reading.ts';

export type WordShares = Readonly<Partial<Record<FunctionWord | LookWord, number>>>;

const FUNCTION_SHARES: Readonly<Record<FunctionWord, WordShares>> = {
  works: { works: 0.97, dead: 0.02, stuck: 0.01 },
  dead: { works: 0.03, dead: 0.87, stuck: 0.1 },
  stuck: { works: 0.03, dead: 0.17, stuck: 0.8 },
};

/** Two lines on one copper: either may hold the other, so neither function can be trusted. */
const BRIDGED_SHARES: WordShares = { works: 0.1, dead: 0.55, stuck: 0.35 };
/** Below this a bridge ties two lines together, in ohms. Common practice, no source. */
const BRIDGE_HOLDS_OHMS = 2000;

/** A function or pull-down test whose electrical prediction is `predicted`; `joining` is a bridge to another line. */
export function forecastFunction(predicted: FunctionWord, joining: Fault | undefined): WordShares {
  if (joining !== undefined && (joining.ohms ?? 0) < BRIDGE_HOLDS_OHMS) return BRIDGED_SHARES;
  return FUNCTION_SHARES[predicted];
}

const SEEN_WHEN_SOUND: WordShares = spreadRest({ fine: 0.985 });
const SEEN: Readonly<Partial<Record<Defect, WordShares>>> = {
  open: spreadRest({ fine: 0.52, cracked: 0.42, corroded: 0.03 }),
  resistive: spreadRest({ fine: 0.6, cracked: 0.18, corroded: 0.18 }),
  short: spreadRest({ fine: 0.7, cracked: 0.24 }),
  leak: spreadRest({ fine: 0.7, corroded: 0.15, wet: 0.08, cracked: 0.05 }),
  missing: spreadRest({ missing: 0.95, fine: 0.03 }),
  bypassed: spreadRest({ reworked: 0.88, fine: 0.1 }),
};
const SEEN_AT_BRIDGE: WordShares = spreadRest({ bridged: 0.66, fine: 0.26, corroded: 0.04, wet: 0.02 });
const SEEN_AT_WEAK_BRIDGE: WordShares = spreadRest({ corroded: 0.4, wet: 0.2, bridged: 0.1, fine: 0.27 });

/** A look at a part, contact or point named `target`. */
export function forecastLook(board: CompiledBoard, target: string, faults: readonly Fault[]): WordShares {
  const fault = faults.find((entry) => covers(board, target, entry));
  if (fault === undefined) return SEEN_WHEN_SOUND;
  if (fault.defect === 'bridge') {
    return (fault.ohms ?? 0) < BRIDGE_HOLDS_OHMS ? SEEN_AT_BRIDGE : SEEN_AT_WEAK_BRIDGE;
  }
  return SEEN[fault.defect] ?? SEEN_WHEN_SOUND;
}

/** Whether looking at `target` shows the place of a fault. */
function covers(board: CompiledBoard, target: string, fault: Fault): boolean {
  if (fault.element === target) return true;
  if (fault.defect === 'bridge') {
    return fault.element.split('|').some((name) => name === target || ownerOf(name) === target);
  }
  const index = board.elementOf.get(fault.element);
  return index !== undefined && board.elements[index]?.part === target;
}

/** Fills the words a table leaves out with equal small shares, so that nothing seen is impossible. */
function spreadRest(shares: WordShares): WordShares {
  const rest = LOOK_WORDS.filter((word) => shares[word] === undefined);
  const given = Object.values(shares).reduce((sum, share) => sum + share, 0);
  return {
    ...shares,
    ...Object.fromEntries(rest.map((word) => [word, (1 - given) / rest.length])),
  };
}
