/**
 * What a person should know about a netlist file that was read: units that had
 * to be guessed, a missing end, names that were cut, pins that share a name,
 * signs in names that may mislead the eye. One notice per kind, with a count
 * and the first few examples; lists of records are handed out beside it.
 */
import type { Problem } from '../../board/result.ts';
import { DOUBT_CODES, type IpcFile, LISTED_CODES } from './ipc-file.ts';
import { wordDoubt, wordListed } from './ipc-words.ts';
import type { NetNames } from './net-names.ts';

export const IPC_NOTICES = [
  'units-inferred',
  'end-missing',
  'alias-unknown',
  'alias-shared',
  'pin-shared',
  'net-cut',
  'designator-cut',
  'odd-characters',
] as const;
type IpcNotice = (typeof IPC_NOTICES)[number];

/** Width of the net and designator fields; names that fill them may have been cut. */
export const NET_COLUMNS = 14;
export const DESIGNATOR_COLUMNS = 6;
const EXAMPLES = 3;

/** Builds the notices, most weighty first. O(pads). */
export function noticesOfFile(file: IpcFile, names: NetNames): Problem[] {
  const notices: Problem[] = [];
  const add = (code: IpcNotice, what: string, mend: string, line?: number): void => {
    notices.push({ code, where: line === undefined ? {} : { line }, what, mend });
  };
  const { units } = file;
  if (units.inferredFrom !== null) {
    const said =
      units.words === null ? 'The header does not state its units' : `The header says \`${units.words}\``;
    const what = `${said}; ${units.unit === 'inch' ? 'inches' : 'millimetres'} were taken, because ${units.inferredFrom}.`;
    add(
      'units-inferred',
      what,
      'If the board comes out 2.54 times too large or small, choose the other unit.',
    );
  }
  if (file.counts.used.end === 0) {
    add(
      'end-missing',
      'Expected a 999 record at the end, found none.',
      'The file may be cut short: compare the last lines with the source.',
    );
  }
  if (names.unknownAliases.length > 0) {
    const what = `${count(names.unknownAliases.length, 'alias is', 'aliases are')} used but not defined: ${few(names.unknownAliases)}.`;
    add('alias-unknown', what, 'These nets keep the alias as their name.');
  }
  if (names.keptApart.length > 0) {
    const what = `Several aliases stand for one name: ${few(names.keptApart)}.`;
    add(
      'alias-shared',
      what,
      'They are kept apart, each with its alias behind the name; join them if they are one net.',
    );
  }
  addSharedPins(file, add);
  addCutNames(file, add);
  addOddCharacters(file, add);
  addRecordCounts(file, notices);
  return notices;
}

type Add = (code: IpcNotice, what: string, mend: string, line?: number) => void;

function addSharedPins(file: IpcFile, add: Add): void {
  const apart = file.sharedPins.filter(({ oneNet }) => !oneNet);
  if (apart.length === 0) return;
  const pins = apart.map(({ part, pin }) => `${part}.${pin}`);
  const what = `${count(apart.length, 'pin name stands', 'pin names stand')} for pads on different nets: ${few(pins)}.`;
  const mend =
    'The names were cut short, most likely. All pads are kept apart and numbered; rename them if you know which is which.';
  add('pin-shared', what, mend, file.pads[apart[0]?.pads[0] ?? -1]?.line);
}

function addCutNames(file: IpcFile, add: Add): void {
  const nets = new Map<string, number>();
  const parts = new Map<string, number>();
  for (const { net, part, line } of file.pads) {
    if (net?.length === NET_COLUMNS && !nets.has(net)) nets.set(net, line);
    if (part?.length === DESIGNATOR_COLUMNS && !parts.has(part)) parts.set(part, line);
  }
  if (nets.size > 0) {
    const what = `${count(nets.size, 'net name fills', 'net names fill')} all ${NET_COLUMNS} columns and may have been cut: ${few(nets.keys())}.`;
    add(
      'net-cut',
      what,
      'Two nets cut to one name look like one; check these before trusting a line through them.',
      first(nets),
    );
  }
  if (parts.size > 0) {
    const what = `${count(parts.size, 'designator fills', 'designators fill')} all ${DESIGNATOR_COLUMNS} columns and may have been cut: ${few(parts.keys())}.`;
    add('designator-cut', what, 'Two parts cut to one name look like one; check these.', first(parts));
  }
}

function first(map: ReadonlyMap<string, number>): number | undefined {
  for (const line of map.values()) return line;
  return undefined;
}

/** Control characters, and signs that turn the direction of writing. */
export function hasOddCharacters(name: string): boolean {
  for (let at = 0; at < name.length; at++) {
    const code = name.charCodeAt(at);
    const control = code < 0x20 || (code >= 0x7f && code < 0xa0) || code === 0xfffd;
    const turning = (code >= 0x200b && code <= 0x200f) || (code >= 0x202a && code <= 0x202e);
    const isolating = code >= 0x2066 && code <= 0x2069;
    if (control || turning || isolating) return true;
  }
  return false;
}

function addOddCharacters(file: IpcFile, add: Add): void {
  const names = new Map<string, number>();
  for (const { net, part, pin, line } of file.pads) {
    for (const name of [net, part, pin]) {
      if (name !== null && !names.has(name) && hasOddCharacters(name)) names.set(name, line);
    }
  }
  if (names.size === 0) return;
  const what = `${count(names.size, 'name holds', 'names hold')} characters that do not show or that turn the text round.`;
  add('odd-characters', what, 'They are kept as they are; rename them if they get in the way.', first(names));
}

/** One notice for each reason for which records were not used, or used with a doubt. */
function addRecordCounts(file: IpcFile, notices: Problem[]): void {
  for (const code of LISTED_CODES) {
    const records = file.listed.filter((record) => record.code === code);
    if (records[0] === undefined) continue;
    const { what, mend } = wordListed(code);
    notices.push({
      code,
      where: { line: records[0].line },
      what: `${count(records.length, 'record was', 'records were')} not used: ${what}`,
      mend,
    });
  }
  for (const code of DOUBT_CODES) {
    const records = file.doubts.filter((record) => record.code === code);
    if (records[0] === undefined) continue;
    const { line, column, length } = records[0];
    const { what, mend } = wordDoubt(code);
    notices.push({
      code,
      where: { line, column, length },
      what: `${count(records.length, 'record', 'records')} with a doubt: ${what}`,
      mend,
    });
  }
}

function count(number: number, one: string, many: string): string {
  return `${number} ${number === 1 ? one : many}`;
}

/** The first names, in backquotes, and how many more there are. */
function few(names: Iterable<string>): string {
  const shown: string[] = [];
  let more = 0;
  for (const name of names) {
    if (shown.length < EXAMPLES) shown.push(`\`${name}\``);
    else more++;
  }
  return more === 0 ? shown.join(', ') : `${shown.join(', ')} and ${more} more`;
}
