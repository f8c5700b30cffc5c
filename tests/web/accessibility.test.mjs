// The page held against the rules of WCAG 2.1, levels A and AA, by axe-core, which Source/Web/build brings along.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { after, before, test } from 'node:test';

import { Chromium } from './chromium.mjs';
import { page } from './drums.mjs';

const rules = readFileSync(join(dirname(process.env.SNAREWRIGHT_WEB_PAGE), 'node_modules', 'axe-core', 'axe.min.js'), 'utf8');
let browser, tab;

before(async () => {
  browser = new Chromium();
  tab = await browser.open(page);
  await tab.until("document.body?.dataset.ready === 'true'");
  await tab.evaluate(`${rules}; 0`);
});

after(() => browser.close());

const all = { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa'] };
const ofColours = { type: 'rule', values: ['color-contrast'] };

/** What is wrong with the page once colours have stopped changing: rule, and the elements that break it. */
const broken = runOnly =>
  tab.evaluate(`Promise.all(document.getAnimations().map(({ finished }) => finished))
    .then(() => axe.run(document, { runOnly: ${JSON.stringify(runOnly)}, resultTypes: ['violations'] }))
    .then(({ violations }) => violations.map(({ id, help, nodes }) => id + ', ' + help + ': ' + nodes.map(({ target }) => target.join(' ')).join('; ')))`);

const wish = (number, text) =>
  tab.evaluate(`{
    const input = document.querySelector('.wishes .field:nth-child(${number}) input');
    input.value = '${text}';
    input.dispatchEvent(new Event('change'));
  }`);

for (const [theme, rulesOfTheme] of [['light', all], ['dark', ofColours]])
  test(`every page follows the rules, in ${theme} colours`, async () => {
    await tab.evaluate(`if (document.documentElement.dataset.theme !== '${theme}') document.getElementById('theme').click()`);
    await tab.evaluate("snarewrightPage.model.kept.length === 0 && snarewrightPage.model.keep(), snarewrightPage.model.edit({ place: 'club' })");
    for (const shown of ['play', 'set-up', 'map', 'at-the-drum']) {
      await tab.evaluate(`snarewrightPage.show('${shown}')`);
      if (shown === 'play') {
        await tab.evaluate("document.querySelector('.sounds').open = true");
        await tab.until('snarewrightPage.sound.shown !== null');
      }
      if (shown === 'map') {
        await tab.until('snarewrightPage.map.isComplete');
        await wish(3, 'D3:E3');
        await tab.until('snarewrightPage.map.wishes.found !== null');
      }
      assert.deepEqual(await broken(rulesOfTheme), [], shown);
    }
    await tab.evaluate("snarewrightPage.show('play')");
  });

test('the rules see what is wrong', async () => {
  await tab.evaluate("document.getElementById('main').insertAdjacentHTML('beforeend', '<input id=\"nameless\">')");
  assert.match((await broken(all)).join('\n'), /label.*nameless/);
  await tab.evaluate("document.getElementById('nameless').remove()");
});
