/**
 * Header and comments: units, title, and the aliases that stand for net names
 * too long for their columns. Some exporters put aliases into comments and
 * then use the bare token (`C  NNAMEm0000 LONG_NAME`, records with `m0000`).
 *
 * Source: AN40, "Header information" and "Other parameters"; the comment form
 * as met in files, common practice, no source.
 */
import type { IpcUnit, ListedCode, UsedKind } from './ipc-file.ts';
import { MAX_FILE_NAME_CHARACTERS } from './limits.ts';

export interface Alias {
  readonly line: number;
  readonly target: string;
  /** Found in a comment, so that the bare token may be meant. */
  readonly bare: boolean;
}

/** What the header has told so far. */
export interface Header {
  job: string;
  title: string;
  version: string;
  /** Outermost layer, where our own printer has noted it. */
  layers: number;
  /** Words of the UNITS parameter, and the unit they settle; both `null` until met. */
  unitsWords: string | null;
  unit: IpcUnit | null;
  /** Which image the records belong to. */
  image: 'primary' | 'panel' | 'stepped';
  /** By key without NNAME. */
  readonly aliases: Map<string, Alias>;
}

export function createHeader(): Header {
  return {
    job: '',
    title: '',
    version: '',
    layers: 1,
    unitsWords: null,
    unit: null,
    image: 'primary',
    aliases: new Map(),
  };
}

/** `used` as what, or `listed` why. */
export type Verdict = { readonly used: UsedKind } | { readonly listed: ListedCode };

const ALIAS = 'NNAME';

/** Reads a P record into the header. */
export function readParameter(header: Header, line: string, lineNumber: number): Verdict {
  const text = line.slice(1).trim();
  if (text.startsWith(ALIAS)) return readAlias(header, text, lineNumber, false);
  const blank = text.indexOf(' ');
  const word = blank < 0 ? text : text.slice(0, blank);
  const value = blank < 0 ? '' : text.slice(blank).trim();
  const short = value.slice(0, MAX_FILE_NAME_CHARACTERS);
  if (word === 'UNITS') return readUnits(header, value);
  if (word === 'JOB') header.job ||= short;
  else if (word === 'TITLE') header.title ||= short;
  else if (word === 'VER') header.version ||= short;
  else if (word === 'LAYERS') header.layers = /^\d{1,3}$/.test(value) ? Number(value) : 1;
  else if (word === 'IMAGE') header.image = imageOf(value);
  return { used: 'parameter' };
}

function imageOf(value: string): Header['image'] {
  if (value.startsWith('PANEL')) return 'panel';
  const digits = Number.parseInt(value, 10);
  return digits > 1 ? 'stepped' : 'primary';
}

/**
 * SI and CUST 1 count in 0.001 mm; CUST 0 and CUST 2 in 0.0001 inch (they
 * differ in how angles are written). CUST without a digit stands for CUST 0 in
 * the format, but is written for both, so the unit is left open.
 */
function readUnits(header: Header, value: string): Verdict {
  const words = value
    .split(' ')
    .filter((word) => word !== '')
    .join(' ');
  if (header.unitsWords !== null) {
    return header.unitsWords === words ? { used: 'parameter' } : { listed: 'units-again' };
  }
  header.unitsWords = words.slice(0, MAX_FILE_NAME_CHARACTERS);
  if (words === 'SI' || words === 'CUST 1' || words === 'CUST1') header.unit = 'millimetre';
  else if (/^CUST ?[02]$/.test(words)) header.unit = 'inch';
  return { used: 'parameter' };
}

/** `NNAME1 LONG NAME`: a key right behind the word or after blanks, then the name to the end. */
function readAlias(header: Header, text: string, lineNumber: number, bare: boolean): Verdict {
  const rest = text.slice(ALIAS.length).trimStart();
  const blank = rest.indexOf(' ');
  if (blank < 0) return { listed: 'alias-broken' };
  const key = rest.slice(0, blank);
  const target = rest.slice(blank).trim();
  if (target.length > MAX_FILE_NAME_CHARACTERS || key.length > MAX_FILE_NAME_CHARACTERS) {
    return { listed: 'name-too-long' };
  }
  const known = header.aliases.get(key);
  if (known !== undefined && known.target !== target) return { listed: 'alias-again' };
  header.aliases.set(key, known ?? { line: lineNumber, target, bare });
  return { used: bare ? 'comment' : 'parameter' };
}

/** Reads a C record: an alias, or text that is left alone. */
export function readComment(header: Header, line: string, lineNumber: number): Verdict {
  const text = line.slice(1).trim();
  if (!text.startsWith(ALIAS)) return { used: 'comment' };
  const verdict = readAlias(header, text, lineNumber, true);
  // A comment about NNAME that is no alias is still a comment.
  return 'listed' in verdict && verdict.listed === 'alias-broken' ? { used: 'comment' } : verdict;
}

/**
 * The name a net field stands for, and the key of its alias (`null` where it is none). `NNAMEkey` is an alias; the bare key is one
 * only where a comment defined it and it starts with a small letter, because a
 * net may well be called `1` or `A`.
 */
export function resolveAlias(
  header: Header,
  net: string,
): { readonly name: string; readonly key: string | null } {
  if (net.startsWith(ALIAS)) {
    const key = net.slice(ALIAS.length);
    const known = header.aliases.get(key);
    return known === undefined ? { name: net, key: null } : { name: known.target, key };
  }
  const first = net.charCodeAt(0);
  const known = first >= 0x61 && first <= 0x7a ? header.aliases.get(net) : undefined;
  return known?.bare === true ? { name: known.target, key: net } : { name: net, key: null };
}
