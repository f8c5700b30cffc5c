'use strict';

// What lesson and exercise share: one sound at a time, and keys that play it.
const sounds = (() => {
  let current = null;

  // "play" does not bubble, so it is caught on its way down.
  document.addEventListener('play', event => {
    if (current && current !== event.target) current.pause();
    current = event.target;
  }, true);

  const start = audio => audio.play().catch(error => {
    if (error.name !== 'AbortError') document.getElementById('status').textContent = 'The sound cannot be played.';
  });

  return {
    stop() { if (current) current.pause(); },

    play(audio) {
      audio.currentTime = 0;
      start(audio);
    },

    // If another sound is playing, this one goes on from the same moment.
    switchTo(audio) {
      const goesOn = current && current !== audio && !current.paused && !current.ended;
      audio.currentTime = goesOn ? Math.min(current.currentTime, audio.duration || Infinity) : 0;
      start(audio);
    },

    // Calls the action of a key, {ArrowLeft: ..., a: ...}, unless the key is for a field. A box on the page turns letters off.
    onKeys(actions) {
      const letters = document.getElementById('letters');
      document.addEventListener('keydown', event => {
        if (event.ctrlKey || event.altKey || event.metaKey) return;
        // Arrows choose among radio buttons, but letters mean nothing to them.
        const field = event.target.closest('input, select, audio, summary');
        if (field && !(field.type === 'radio' && event.key.length === 1)) return;
        const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
        if (!Object.hasOwn(actions, key) || (key.length === 1 && !letters.checked)) return;
        event.preventDefault();
        actions[key]();
      });
    }
  };
})();
