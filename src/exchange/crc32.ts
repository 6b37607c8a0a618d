/**
 * CRC-32 as in zip and gzip: reflected polynomial 0xEDB88320, start and end
 * complemented. Notices a file that was cut or changed on the way; it is no
 * proof against intent. Chosen over SHA-256 because that is asynchronous and
 * missing on plain http.
 * Source: RFC 1952 (1996), section 8.
 */
const TABLE = createTable();

function createTable(): Uint32Array {
  const table = new Uint32Array(256);
  for (let byte = 0; byte < 256; byte += 1) {
    let remainder = byte;
    for (let bit = 0; bit < 8; bit += 1) {
      remainder = remainder & 1 ? (remainder >>> 1) ^ 0xedb88320 : remainder >>> 1;
    }
    table[byte] = remainder;
  }
  return table;
}

/** The CRC-32 of a text's UTF-8 bytes, as eight hexadecimal digits. */
export function crc32(text: string): string {
  let crc = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) {
    crc = (crc >>> 8) ^ (TABLE[(crc ^ byte) & 0xff] ?? 0);
  }
  return ((crc ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0');
}
