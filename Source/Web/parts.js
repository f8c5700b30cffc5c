// The parts that bundle.mjs builds into the page.

import workerSource from "source:worker.js";
import workletSource from "source:worklet.js";

export { workerSource, workletSource };

/** The WebAssembly module from the page: gzip as base64 in an element that is no program. */
export async function compiledModule() {
  const packed = Uint8Array.from(atob(document.getElementById("module").textContent), letter => letter.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  try {
    return await WebAssembly.compile(await new Response(stream).arrayBuffer());
  } catch (error) {
    throw new Error("This browser cannot run the drum: it needs WebAssembly with SIMD and exceptions. Use a current browser. (" + error.message + ")");
  }
}
