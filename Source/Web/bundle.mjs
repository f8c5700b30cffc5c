// Puts page, scripts and WebAssembly into one file.
//   node bundle.mjs FOLDER     FOLDER has node_modules and wasm/Source/Web/snarewright-web.wasm; snarewright.html goes there
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

const here = dirname(fileURLToPath(import.meta.url)), out = resolve(process.argv[2]);
const { build } = createRequire(join(out, "package.json"))("esbuild");
const mostBytes = 3e6;

/** `import text from "source:worker.js"` gives the whole of that script as text. */
const sources = {
  name: "sources",
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^source:/ }, ({ path }) => ({ path: path.slice("source:".length), namespace: "source" }));
    onLoad({ filter: /.*/, namespace: "source" }, async ({ path }) => ({ contents: await bundled(path), loader: "text" }));
  },
};

async function bundled(path) {
  const { outputFiles: [{ text }] } = await build({
    entryPoints: [join(here, path)], nodePaths: [join(out, "node_modules")], bundle: true, minify: true, write: false, format: "iife", target: "es2022", plugins: [sources],
    legalComments: "none", logLevel: "warning",
  });
  return text.trim();
}

const script = await bundled("page/main.js");
const { outputFiles: [{ text: style }] } = await build({ entryPoints: [join(here, "page/page.css")], minify: true, write: false });
const module = gzipSync(readFileSync(join(out, "wasm/Source/Web/snarewright-web.wasm")), { level: 9 }).toString("base64");

// The worklet comes from a data: URL, the worker from a blob:. Nothing may be fetched from anywhere; media are a lesson's recordings.
const policy = [
  "default-src 'none'",
  `script-src 'sha256-${createHash("sha256").update(script).digest("base64")}' 'wasm-unsafe-eval' data:`,
  "worker-src blob:",
  "style-src 'unsafe-inline'",
  "img-src data: blob:",
  "media-src 'self' file: data: blob:",
  "connect-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

const marks = {
  policy: `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
  style: `<style>${style}</style>`,
  script: `<script type="application/octet-stream" id="module">${module}</script>\n<script>${script}</script>`,
};
let page = readFileSync(join(here, "page/page.html"), "utf8");
for (const [name, text] of Object.entries(marks)) {
  if (!page.includes(`<!-- ${name} -->`))
    throw new Error(`page.html has no mark <!-- ${name} -->`);
  page = page.replace(`<!-- ${name} -->`, () => text);
}
writeFileSync(join(out, "snarewright.html"), page);

const size = Buffer.byteLength(page);
console.log(`${join(out, "snarewright.html")}: ${(size / 1e6).toFixed(2)} MB, of it WebAssembly ${(module.length / 1e6).toFixed(2)} MB`);
if (size > mostBytes)
  throw new Error("The page has more than 3 MB.");
