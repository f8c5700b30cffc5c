// How fast the page plays and opens, as rows of the table in tests/bench/README.md.
//   node benchmark.mjs [SECONDS OF SOUND, 5 by default]
import process from "node:process";

import { Chromium } from "./chromium.mjs";
import { drums, page, reference, saved, withoutWires } from "./drums.mjs";
import { secondsOffline } from "./offline.mjs";

const seconds = Number(process.argv[2] ?? 5), rate = 48000;
const row = (figure, value, unit, baseline = "", ratio = "") =>
  console.log(`| ${figure} | ${Number(value.toPrecision(4))} ${unit} | ${baseline} | ${ratio && ratio.toFixed(2)} |`);
const timed = async work => {
  const begun = performance.now();
  await work();
  return (performance.now() - begun) / 1000;
};

const browser = new Chromium();
try {
  const opening = performance.now();
  const tab = await browser.open(page);
  await tab.until("document.body?.dataset.ready === 'true'");
  await tab.evaluate(`new Promise(resolve => {
    snarewrightPage.instrument.addEventListener("level", ({ detail }) => detail.peak > 0 && resolve(), { once: true });
    snarewrightPage.instrument.strike({ kind: "tip", position: 0.25, angle: 0.6, speed: 3 });
  })`);
  row("page opened to the first sound", (performance.now() - opening) / 1000, "s");

  // A stroke of 3 m/s 16 times a second. What a context costs by itself is left out.
  const strokes = Array.from({ length: Math.floor(seconds * rate / 3072) }, (_, i) => ({ frame: 3072 * i, kind: "tip", speed: 3 }));
  const play = (document, list, length = seconds) => secondsOffline(tab, document, list, Math.round(length * rate));
  await play(drums.usual, strokes); // compiles
  for (const [name, document] of [["wires on", drums.usual], ["wires off", withoutWires(drums.usual)], ["wires on, in a club", { ...drums.usual, place: "club" }]]) {
    const speed = seconds / (await play(document, strokes) - await play(document, [], 0.01));
    const native = Number(reference(saved(document), "baseline").split(" ")[0]);
    row(`browser, drum with ${name}`, speed, "× real time", "native baseline loop", speed / native);
  }

  for (const [name, call] of [["tune", "tune"], ["predict", "predict"], ["shapes", "shapes"]]) {
    const ask = () => tab.call("(method, document) => snarewrightPage.instrument[method](document).then(() => 0)", call, drums.usual);
    await ask();
    row(`browser, ${name} once warm`, 1000 * await timed(ask), "ms");
  }
  // Every column of the map, as the page asks for them.
  const map = { step_cents: 100, lowest_interval: -5, highest_interval: 12 };
  const inBrowser = await timed(() => tab.call(`async (document, { step_cents: step, lowest_interval: lowest, highest_interval: highest }) => {
    for (let column = 0, columns = 1; column < columns; ++column)
      columns = (await snarewrightPage.instrument.mapColumn(document, column, step, { lowest, highest })).batter.notes_hz.length;
  }`, drums.usual, map));
  row("browser, map of a drum, 100 cents apart", inBrowser, "s", "native", Number(reference("map", saved({ document: drums.usual, ...map }))) / inBrowser);
} finally {
  await browser.close();
}
