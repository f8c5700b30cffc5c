import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { test } from 'node:test';
import { inflateSync } from 'node:zlib';
import { decodeLink, encodeLink, isLink, LinkError } from '../../../Source/Web/page/link.js';

const presets = new URL('../../../Presets/', import.meta.url);
const drums = readdirSync(presets)
  .filter(name => name.endsWith('.json'))
  .map(name => JSON.parse(readFileSync(new URL(name, presets))));

test('every preset survives the way through a link', async () => {
  for (const drum of drums) {
    const link = await encodeLink(drum);
    assert.ok(isLink(link));
    assert.match(link, /^[A-Za-z0-9._-]+$/, 'nothing that mail or chat would change');
    assert.ok(link.length < 900, `${drum.name}: ${link.length} characters`);
    assert.deepEqual(await decodeLink(link), drum);
  }
});

test('the payload is what another implementation reads: zlib', async () => {
  const drum = { format: 'snarewright-drum', name: 'Größe 14 × 5', version: 1 };
  const [, , payload] = (await encodeLink(drum)).split('.');
  assert.deepEqual(JSON.parse(inflateSync(Buffer.from(payload, 'base64url'))), drum);
});

test('the checksum is CRC-32: its check value for "123456789" is cbf43926', async () => {
  // The document is written as JSON, so a number of nine digits is the text of the published check value.
  assert.equal((await encodeLink(123456789)).split('.')[1], 'cbf43926');
});

test('a link with any one character changed or its end missing is refused', async () => {
  const link = await encodeLink(drums[0]),
    start = link.indexOf('.', 2) + 1;
  for (let at = 2; at < link.length; at += 7) {
    if (link[at] === '.') continue;
    const changed = link.slice(0, at) + (link[at] === 'A' ? 'B' : 'A') + link.slice(at + 1);
    // The last character of base64 may hold bits that mean nothing; then the drum is the same.
    const result = await decodeLink(changed).catch(error => error);
    if (at < link.length - 1) assert.ok(result instanceof LinkError && /damaged/.test(result.message), `position ${at}`);
    else if (!(result instanceof LinkError)) assert.deepEqual(result, drums[0]);
  }
  for (const cut of [start, start + 5, link.length - 5]) await assert.rejects(decodeLink(link.slice(0, cut)), /damaged/);
  for (const bad of ['1', '1..', '1.00000000.', 'x.y.z', `${link}.more`]) await assert.rejects(decodeLink(bad), LinkError);
});

test('a link of another version says so, with both versions', async () => {
  await assert.rejects(decodeLink('7.abcdef01.AAAA'), /link version 7; this page reads version 1/);
});

test('a link that unpacks to far too much is refused', async () => {
  await assert.rejects(decodeLink(await encodeLink({ name: 'x'.repeat(300_000) })), /damaged/);
});
