/** The checksum of a line: CRC-32 as in ISO/IEC 3309 and ITU-T V.42 (polynomial 0x04c11db7, reflected). */

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

/** Of a text's UTF-8, as eight hexadecimal digits. */
export function crcOf(text: string): string {
  let rest = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) rest = (rest >>> 8) ^ TABLE[(rest ^ byte) & 255]!;
  return ((rest ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0');
}
