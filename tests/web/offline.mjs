/** What the page's own worklet plays, as fast as it can, in an OfflineAudioContext at 48 kHz: samples, left and right in turn.
    @param document  with a place the listener hears it
    @param strokes  [{ frame, kind, speed, ... }]
    @param next     { document, frame }: another drum, in its place, that takes over there, a multiple of 128 frames
    @param channels of the listener */
export const playedOffline = (tab, document, strokes, frames, { next = null, channels = 2 } = {}) =>
  offline(tab, document, strokes, frames, next, channels, false);

/** How many seconds that takes, without the solver. */
export const secondsOffline = (tab, document, strokes, frames) => offline(tab, document, strokes, frames, null, 2, true);

function offline(tab, document, strokes, frames, next, channels, isTimed) {
  return tab.call(`async (document, strokes, frames, next, channels, isTimed) => {
    const { module, workletUrl, modelOf, roomOf } = await snarewrightPage.instrument.forTests();
    const context = new OfflineAudioContext(2, frames, 48000);
    await context.audioWorklet.addModule(workletUrl);
    const node = new AudioWorkletNode(context, "snarewright-drum", { numberOfInputs: 0, outputChannelCount: [2],
      processorOptions: { module, room: await roomOf(document, 48000, channels), model: await modelOf(document, 48000), strokes } });
    node.connect(context.destination);
    if (next) {
      // The first model tells that it was taken, too.
      const bothTaken = new Promise(resolve => { let count = 0; node.port.onmessage = ({ data }) => data.taken && ++count === 2 && resolve(); });
      const model = await modelOf(next.document, 48000), room = await roomOf(next.document, 48000, channels);
      context.suspend(next.frame / 48000).then(async () => {
        const { port1, port2 } = new MessageChannel();
        node.port.postMessage({ models: port1 }, [port1]);
        port2.postMessage({ room });
        port2.postMessage({ model });
        await bothTaken;
        context.resume();
      });
    }
    const begun = performance.now(), sound = await context.startRendering();
    if (isTimed)
      return (performance.now() - begun) / 1000;
    const [left, right] = [0, 1].map(side => sound.getChannelData(side));
    return Array.from(left).flatMap((sample, i) => [sample, right[i]]);
  }`, document, strokes, frames, next, channels, isTimed);
}
