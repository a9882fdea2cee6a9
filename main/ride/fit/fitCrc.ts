const NIBBLES = [
  0x0000, 0xcc01, 0xd801, 0x1400, 0xf001, 0x3c00, 0x2800, 0xe401, 0xa001, 0x6c00, 0x7800, 0xb401, 0x5000, 0x9c01,
  0x8801, 0x4400,
];

const TABLE = Uint16Array.from({ length: 256 }, (_, byte) => {
  let crc = NIBBLES[byte & 15];
  crc = (crc >> 4) ^ NIBBLES[crc & 15] ^ NIBBLES[byte >> 4];
  return crc;
});

/** CRC-16 of bytes [from, to) as FIT files use it (public FIT protocol text; start 0, low nibble first; `123456789` gives 0xBB3D). */
export function fitCrc(bytes: Uint8Array, from: number, to: number): number {
  let crc = 0;
  for (let i = from; i < to; i++) crc = (crc >> 8) ^ TABLE[(crc ^ bytes[i]) & 0xff];
  return crc;
}
