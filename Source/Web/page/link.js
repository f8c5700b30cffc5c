// A drum as the part of an address behind "#": version, checksum, and the drum file, compressed.
//   1.<CRC-32 of the JSON, hexadecimal>.<JSON, zlib (RFC 1950), base64url (RFC 4648)>

export const linkVersion = 1;
const longestText = 200_000; // characters of JSON: far more than a drum needs, little enough to unpack

export class LinkError extends Error {}

const otherVersion = version =>
  new LinkError(
    `This link was made by another version (link version ${version}; this page reads version ${linkVersion}). ` +
      'Ask for the drum file instead, or open the link with the version that made it. Your drum has not changed.'
  );
const damaged = () =>
  new LinkError(
    'This link is damaged: part of it is missing or changed. Copy the whole link again, or ask for the drum file. Your drum has not changed.'
  );

function crc32(bytes) {
  let crc = ~0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; ++bit) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (~crc >>> 0).toString(16).padStart(8, '0');
}

const toBase64Url = bytes =>
  btoa(Array.from(bytes, byte => String.fromCharCode(byte)).join(''))
    .replaceAll('+', '-')
    .replaceAll('/', '_')
    .replace(/=+$/, '');
const fromBase64Url = text => Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), c => c.charCodeAt(0));

/** All bytes that come through `transform`, at most `limit`. */
async function through(transform, bytes, limit = Infinity) {
  const pieces = [];
  let length = 0;
  const reader = new Blob([bytes]).stream().pipeThrough(transform).getReader();
  for (let next = await reader.read(); !next.done; next = await reader.read()) {
    pieces.push(next.value);
    length += next.value.length;
    if (length > limit) {
      await reader.cancel();
      throw damaged();
    }
  }
  return new Uint8Array(await new Blob(pieces).arrayBuffer());
}

/** "1.5f3a….…" for a document. */
export async function encodeLink(document) {
  const bytes = new TextEncoder().encode(JSON.stringify(document));
  const packed = await through(new CompressionStream('deflate'), bytes);
  return `${linkVersion}.${crc32(bytes)}.${toBase64Url(packed)}`;
}

/** Whether the part behind "#" means to be a drum. */
export const isLink = text => /^\d+\./.test(text);

/** The document of a link; throws LinkError with a sentence for the user. */
export async function decodeLink(text) {
  const parts = text.trim().split('.');
  if (/^\d+$/.test(parts[0]) && Number(parts[0]) !== linkVersion) throw otherVersion(parts[0]);
  if (parts.length !== 3 || Number(parts[0]) !== linkVersion) throw damaged();
  try {
    const bytes = await through(new DecompressionStream('deflate'), fromBase64Url(parts[2]), longestText);
    if (crc32(bytes) !== parts[1]) throw damaged();
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    throw damaged();
  }
}
