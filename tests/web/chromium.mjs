// Drives headless Chromium by its DevTools protocol over a pipe, without any package.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import process from "node:process";

export class Chromium {
  #waiting = new Map();
  #listeners = [];
  #last = 0;
  #rest = "";

  /** @param holdsSound  until a touch, as browsers of people do */
  constructor({ holdsSound = false } = {}) {
    this.profile = mkdtempSync(join(tmpdir(), "snarewright-web-"));
    // Nothing may be reached, whatever a page asks for.
    const flags = ["--headless=new", "--remote-debugging-pipe", `--user-data-dir=${this.profile}`, "--host-resolver-rules=MAP * ~NOTFOUND",
      "--disable-gpu", "--no-first-run", "--mute-audio", `--autoplay-policy=${holdsSound ? "document-user-activation" : "no-user-gesture"}-required`, "about:blank"];
    if (process.getuid?.() === 0)
      flags.unshift("--no-sandbox"); // Chromium's sandbox refuses to run as root
    this.process = spawn(process.env.CHROMIUM ?? "chromium", flags, { stdio: ["ignore", "ignore", "ignore", "pipe", "pipe"] });
    this.ended = new Promise(resolve => this.process.once("exit", resolve));
    this.process.stdio[4].on("data", data => this.#read(data.toString()));
    this.ended.then(() => this.#waiting.forEach(({ reject }) => reject(new Error("Chromium has ended"))));
  }

  #read(text) {
    const messages = (this.#rest + text).split("\0");
    this.#rest = messages.pop();
    for (const message of messages.map(m => JSON.parse(m)))
      if (message.id) {
        const { resolve, reject } = this.#waiting.get(message.id);
        this.#waiting.delete(message.id);
        message.error ? reject(new Error(message.error.message)) : resolve(message.result);
      } else
        this.#listeners.forEach(listener => listener(message));
  }

  send(method, params = {}, sessionId = undefined) {
    const id = ++this.#last;
    this.process.stdio[3].write(JSON.stringify({ id, method, params, sessionId }) + "\0");
    return new Promise((resolve, reject) => this.#waiting.set(id, { resolve, reject }));
  }

  on(listener) { this.#listeners.push(listener); }

  /** A new tab, off the network, that keeps a list of what it asked for and what it complained about. */
  async open(url, { width = 1280, height = 800, before = "" } = {}) {
    const { targetId } = await this.send("Target.createTarget", { url: "about:blank" });
    const { sessionId } = await this.send("Target.attachToTarget", { targetId, flatten: true });
    const tab = new Tab(this, sessionId, targetId);
    await tab.send("Page.enable");
    await tab.send("Runtime.enable");
    await tab.send("Log.enable");
    await tab.send("Network.enable");
    await tab.send("Network.emulateNetworkConditions", { offline: true, latency: 0, downloadThroughput: -1, uploadThroughput: -1 });
    await tab.send("Emulation.setDeviceMetricsOverride", { width, height, deviceScaleFactor: 1, mobile: width < 600 });
    if (before)
      await tab.send("Page.addScriptToEvaluateOnNewDocument", { source: before });
    await tab.send("Page.navigate", { url });
    return tab;
  }

  async close() {
    await this.send("Browser.close").catch(() => {});
    await this.ended;
    rmSync(this.profile, { recursive: true, force: true });
  }
}

class Tab {
  requests = []; // addresses
  complaints = [];

  constructor(browser, sessionId, targetId) {
    Object.assign(this, { browser, sessionId, targetId });
    browser.on(({ sessionId: from, method, params }) => {
      if (from !== sessionId)
        return;
      if (method === "Network.requestWillBeSent" || method === "Network.webSocketCreated")
        this.requests.push(params.request?.url ?? params.url);
      if (method === "Runtime.exceptionThrown")
        this.complaints.push(params.exceptionDetails.exception?.description ?? params.exceptionDetails.text);
      if (method === "Log.entryAdded" && params.entry.level === "error")
        this.complaints.push(params.entry.text);
    });
  }

  send(method, params) { return this.browser.send(method, params, this.sessionId); }

  /** The value of an expression, which may be a promise. Throws what it throws. */
  async evaluate(expression) {
    const { result, exceptionDetails } = await this.send("Runtime.evaluate",
      { expression, awaitPromise: true, returnByValue: true });
    if (exceptionDetails)
      throw new Error(exceptionDetails.exception?.description ?? exceptionDetails.text);
    return result.value;
  }

  /** Calls a function in the page with arguments that JSON can hold. */
  call(callee, ...args) { return this.evaluate(`(${callee})(...${JSON.stringify(args)})`); }

  /** Resolves once the expression holds, seen from frame to frame by the page itself. */
  until(expression) {
    return this.evaluate(`new Promise(resolve => { const look = () => (${expression}) ? resolve(true) : setTimeout(look, 10); look(); })`);
  }

  async picture() {
    const { data } = await this.send("Page.captureScreenshot", { format: "png" });
    return Buffer.from(data, "base64");
  }

  close() { return this.browser.send("Target.closeTarget", { targetId: this.targetId }); }
}
