/**
 * Text that a spreadsheet must not take for a formula. A cell that begins with
 * one of a few signs is run as a formula when the file is opened; quoting does
 * not help, a leading apostrophe does. A spreadsheet set to another separator
 * also starts a new cell behind every `;`, tab or comma in the text, so the
 * sign is disarmed there too. Taken back exactly by `unguardText`, so that
 * what is exported can be imported.
 *
 * Source: OWASP ASVS 5.0, 1.2.10 (`= + - @`, tab, NUL); OWASP, "CSV Injection"
 * (also carriage return, line feed and the full-width signs).
 */

/** Signs that make a cell a formula. */
export const FORMULA_SIGNS: ReadonlySet<string> = new Set([
  '=',
  '+',
  '-',
  '@',
  '\t',
  '\r',
  '\n',
  '\0',
  '＝',
  '＋',
  '－',
  '＠',
]);
/** Signs behind which some spreadsheet starts a cell. */
export const CELL_STARTS: ReadonlySet<string> = new Set([',', ';', '\t', '\r', '\n', '|']);
/** Signs that a spreadsheet may skip before it looks for a formula. */
const SKIPPED: ReadonlySet<string> = new Set([' ', '"']);
const APOSTROPHE = "'";

/** Puts an apostrophe before every sign that could start a formula. O(length). */
export function guardText(text: string): string {
  return walk(text, (apostrophes) => apostrophes + 1);
}

/** Takes the apostrophes of `guardText` away again; other text comes back unchanged. O(length). */
export function unguardText(text: string): string {
  return walk(text, (apostrophes) => Math.max(0, apostrophes - 1));
}

/**
 * Where a cell may start, a run of apostrophes before a formula sign gets
 * another length. Both directions see the same signs, so one undoes the other.
 */
function walk(text: string, change: (apostrophes: number) => number): string {
  let result = '';
  let atStart = true;
  let apostrophes = 0;
  for (const sign of text) {
    if (atStart && sign === APOSTROPHE) {
      apostrophes++;
      continue;
    }
    const count = atStart && FORMULA_SIGNS.has(sign) ? change(apostrophes) : apostrophes;
    result += APOSTROPHE.repeat(count) + sign;
    // Apostrophes end the run of blanks and quotes that may be skipped.
    atStart = CELL_STARTS.has(sign) || (atStart && apostrophes === 0 && SKIPPED.has(sign));
    apostrophes = 0;
  }
  return result + APOSTROPHE.repeat(apostrophes);
}
