/**
 * Lines with tabs, as columns. A tab mostly stands for blanks up to the next
 * column that is a multiple of eight; where the access code then does not come
 * to its column, the tabs were written as separators, and the words between
 * them are laid out into the columns they belong to.
 *
 * Common practice, no source: the format itself has no tabs.
 */

const ACCESS = 38;

/** Replaces the tabs of a line. O(length). */
export function untab(line: string): string {
  const expanded = expandTabs(line);
  const code = line.slice(0, 3);
  const isTestRecord = /^[03][0-6]7$/.test(code);
  if (!isTestRecord || isAccess(expanded.slice(ACCESS))) return expanded;
  return layOut(line) ?? expanded;
}

function expandTabs(line: string): string {
  let text = '';
  let from = 0;
  for (let tab = line.indexOf('\t'); tab >= 0; tab = line.indexOf('\t', from)) {
    text += line.slice(from, tab);
    text += ' '.repeat(8 - (text.length % 8));
    from = tab + 1;
  }
  return text + line.slice(from);
}

function isAccess(text: string): boolean {
  return /^A\d\d? ?X/.test(text);
}

/** Net, designator, pin, hole by their order; `null` where the access code is not a word. */
function layOut(line: string): string | null {
  const words = line.slice(3).split(/[\t ]+/);
  const access = words.findIndex((word) => isAccess(word) || /^A\d\d?$/.test(word));
  if (access < 0) return null;
  const [net = '', ...named] = words.slice(0, access);
  const hole = /^M?D\d+[PU]?$/.test(named[named.length - 1] ?? '') ? (named.pop() ?? '') : '';
  const joined = named.join('');
  const dash = joined.lastIndexOf('-');
  const part = dash < 0 ? (named[0] ?? '') : joined.slice(0, dash);
  const pin = dash < 0 ? (named[1] ?? '') : joined.slice(dash + 1);
  const midpoint = hole.startsWith('M') ? 'M' : ' ';
  const bare = hole.startsWith('M') ? hole.slice(1) : hole;
  const head = `${line.slice(0, 3)}${net.padEnd(14)}   ${part.padEnd(6)}-${pin.padEnd(4)}${midpoint}`;
  const tail = words
    .slice(access)
    .join(' ')
    .replace(/^(A\d\d?) X/, '$1X');
  return `${head}${bare.padEnd(6)}${tail}`;
}
