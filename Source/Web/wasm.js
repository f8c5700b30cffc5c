// Starts the WebAssembly module, in the solver's thread or in the audio thread.

/** @param {WebAssembly.Module} module. Returns what it exports. */
export function start(module) {
  const imports = {};
  for (const { module: from, name, kind } of WebAssembly.Module.imports(module)) {
    if (kind !== "function")
      throw new Error(`The module wants ${from}.${name}, which is no function.`);
    (imports[from] ??= {})[name] = systemCalls[name] ?? (() => noSystem);
  }
  const { exports } = new WebAssembly.Instance(module, imports);
  exports._initialize();
  return exports;
}

/** There are no files and no environment here: ENOSYS. */
const noSystem = 52;

const systemCalls = {
  proc_exit(code) { throw new Error("The module has stopped with code " + code + "."); },
  emscripten_notify_memory_growth() {},
};
