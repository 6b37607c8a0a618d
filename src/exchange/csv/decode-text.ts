/**
 * Bytes of a text file to text. Files of the trade come in UTF-8, in UTF-16
 * with a mark, or in the old one-byte code of the maker's machine; a wrong
 * guess would damage names without a word, so UTF-8 is only taken where every
 * byte fits it, and the choice is handed out.
 */

export const ENCODINGS = ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'] as const;
export type Encoding = (typeof ENCODINGS)[number];

export interface DecodedText {
  readonly text: string;
  readonly encoding: Encoding;
}

/** Decodes a file; never fails, as windows-1252 fits any bytes. A mark at the start is left out. */
export function decodeText(bytes: Uint8Array): DecodedText {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return decode(bytes, 'utf-16le');
  if (first === 0xfe && second === 0xff) return decode(bytes, 'utf-16be');
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'utf-8' };
  } catch {
    return decode(bytes, 'windows-1252');
  }
}

function decode(bytes: Uint8Array, encoding: Encoding): DecodedText {
  return { text: new TextDecoder(encoding).decode(bytes), encoding };
}
