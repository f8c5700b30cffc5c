/** What the page's own worklet plays, as fast as it can, in an OfflineAudioContext at 48 kHz: samples, left and right in turn.
    @param strokes  [{ frame, kind, speed, ... }]
    @param next     { document, frame }: another drum that takes over there, a multiple of 128 frames */
export const playedOffline = (tab, document, strokes, frames, next = null) => offline(tab, document, strokes, frames, next, false);

/** How many seconds that takes, without the solver. */
export const secondsOffline = (tab, document, strokes, frames) => offline(tab, document, strokes, frames, null, true);

function offline(tab, document, strokes, frames, next, isTimed) {
  return tab.call(`async (document, strokes, frames, next, isTimed) => {
    const { module, workletUrl, modelOf } = await snarewrightPage.instrument.forTests();
    const context = new OfflineAudioContext(2, frames, 48000);
    await context.audioWorklet.addModule(workletUrl);
    const node = new AudioWorkletNode(context, "snarewright-drum", { numberOfInputs: 0, outputChannelCount: [2],
      processorOptions: { module, model: await modelOf(document, 48000), strokes } });
    node.connect(context.destination);
    if (next) {
      const bytes = await modelOf(next.document, 48000);
      context.suspend(next.frame / 48000).then(async () => {
        const taken = new Promise(resolve => { node.port.onmessage = ({ data }) => data.taken && resolve(); });
        const { port1, port2 } = new MessageChannel();
        node.port.postMessage({ models: port1 }, [port1]);
        port2.postMessage(bytes);
        await taken;
        context.resume();
      });
    }
    const begun = performance.now(), sound = await context.startRendering();
    if (isTimed)
      return (performance.now() - begun) / 1000;
    const [left, right] = [0, 1].map(side => sound.getChannelData(side));
    return Array.from(left).flatMap((sample, i) => [sample, right[i]]);
  }`, document, strokes, frames, next, isTimed);
}
