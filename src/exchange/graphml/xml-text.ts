/**
 * Any text in an XML file and back. Markup signs become entities; characters
 * that XML 1.0 cannot hold at all (NUL and other controls, lone surrogates,
 * U+FFFE and U+FFFF) are written as `\u{…}` with the backslash itself doubled, so that
 * every name survives.
 *
 * Source: XML 1.0 (fifth edition), production 2 (Char), section 2.11 (line
 * ends), section 4.6 (predefined entities).
 */

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ['<', '&lt;'],
  ['>', '&gt;'],
  ['&', '&amp;'],
  ['"', '&quot;'],
  ["'", '&apos;'],
  // Parsers turn these into other white space unless they are written as numbers.
  ['\t', '&#9;'],
  ['\n', '&#10;'],
  ['\r', '&#13;'],
]);

/** Whether XML 1.0 can hold a character. */
export function isXmlCharacter(code: number): boolean {
  if (code === 0x9 || code === 0xa || code === 0xd) return true;
  if (code < 0x20 || code === 0xfffe || code === 0xffff) return false;
  return code < 0xd800 || (code > 0xdfff && code <= 0x10ffff);
}

/** Escapes a text for content and attributes alike. O(length). */
export function escapeXml(text: string): string {
  let result = '';
  for (const sign of text) {
    const code = sign.codePointAt(0) ?? 0;
    if (sign === '\\') result += '\\\\';
    else if (!isXmlCharacter(code)) result += `\\u{${code.toString(16)}}`;
    else result += ENTITIES.get(sign) ?? sign;
  }
  return result;
}

/** Takes `\\` and `\u{…}` back; other backslashes stay, as foreign files may have them. O(length). */
export function unescapeBackslashes(text: string): string {
  if (!text.includes('\\')) return text;
  return text.replace(/\\(?:\\|u\{([0-9a-f]{1,6})\})/g, (whole, code: string | undefined) => {
    if (code === undefined) return '\\';
    const value = Number.parseInt(code, 16);
    return value > 0x10ffff ? whole : String.fromCodePoint(value);
  });
}

const NAMED: ReadonlyMap<string, string> = new Map([
  ['lt', '<'],
  ['gt', '>'],
  ['amp', '&'],
  ['quot', '"'],
  ['apos', "'"],
]);
/** The longest entity that is looked for: `&#x10ffff;`. */
const LONGEST_ENTITY = 12;

/** Replaces entities; `null` for one that is not predefined or no character. O(length). */
export function decodeEntities(text: string): string | null {
  let result = '';
  let from = 0;
  for (let at = text.indexOf('&'); at >= 0; at = text.indexOf('&', from)) {
    const end = text.slice(at, at + LONGEST_ENTITY).indexOf(';');
    const sign = end < 0 ? null : decodeEntity(text.slice(at + 1, at + end));
    if (sign === null) return null;
    result += text.slice(from, at) + sign;
    from = at + end + 1;
  }
  return result + text.slice(from);
}

function decodeEntity(name: string): string | null {
  const number = /^#(?:x([0-9a-f]{1,6})|(\d{1,7}))$/i.exec(name);
  if (number === null) return NAMED.get(name) ?? null;
  const code = number[1] === undefined ? Number(number[2]) : Number.parseInt(number[1], 16);
  return isXmlCharacter(code) ? String.fromCodePoint(code) : null;
}
