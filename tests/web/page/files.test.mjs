import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fileNameOf, parseDrumFile } from '../../../Source/Web/page/drum-files.js';
import { speedOfGesture } from '../../../Source/Web/page/heads.js';

test('what is no drum file of this version is refused with a sentence that names what was found', () => {
  assert.throws(() => parseDrumFile('{"format":'), /not JSON/);
  assert.throws(() => parseDrumFile('[1, 2]'), /"format" is missing/);
  assert.throws(() => parseDrumFile('null'), /"format" is missing/);
  assert.throws(() => parseDrumFile('{"format":"snarewright-lesson","version":1}'), /"snarewright-lesson"; needed: "snarewright-drum"/);
  assert.throws(() => parseDrumFile('{"format":"snarewright-drum","version":3}'), /file version 3; this page reads version 1/);
  for (const version of [1, 2])
    assert.deepEqual(parseDrumFile(`{"format":"snarewright-drum","version":${version},"lugs":8}`), { format: 'snarewright-drum', version, lugs: 8 });
});

test('file names hold nothing that a folder would not take', () => {
  assert.equal(fileNameOf('Maple 14 x 5.5'), 'maple-14-x-5.5');
  assert.equal(fileNameOf('../../Größe?'), '..-..-gr-e');
  assert.equal(fileNameOf(''), 'drum');
});

test('a flick gives the speed of the stroke, between ghost note and hardest', () => {
  assert.ok(speedOfGesture(0) < 1 && speedOfGesture(0) >= 0.25);
  assert.ok(speedOfGesture(0.5) > speedOfGesture(0.2));
  assert.equal(speedOfGesture(100), 10);
});
