'use strict';

const steps = [...document.querySelectorAll('.step')];
const byId = id => document.getElementById(id);
const soundOf = index => steps[index].querySelector('audio');
const chosenA = byId('a'), chosenB = byId('b');
let now = 0, isAChosen = false;

// B is the step that is shown; A is the one before it until the teacher chooses another.
function show(index, movesFocus) {
  now = Math.max(0, Math.min(steps.length - 1, index));
  sounds.stop();
  steps.forEach((step, i) => { step.hidden = i !== now; });
  byId('status').textContent = `Step ${now + 1} of ${steps.length}`;
  byId('back').disabled = now === 0;
  byId('next').disabled = now === steps.length - 1;
  chosenB.value = now;
  if (!isAChosen) chosenA.value = now > 0 ? now - 1 : Math.min(1, steps.length - 1);
  history.replaceState(null, '', `#${steps[now].id}`);
  if (movesFocus) {
    steps[now].querySelector('h2').focus({ preventScroll: true });
    steps[now].scrollIntoView();
  }
}

function playOne(select) {
  sounds.switchTo(soundOf(Number(select.value)));
}

const actions = {
  ArrowLeft: () => show(now - 1, true),
  ArrowRight: () => show(now + 1, true),
  p: () => sounds.play(soundOf(now)),
  s: () => sounds.stop(),
  a: () => playOne(chosenA),
  b: () => playOne(chosenB)
};

for (const [id, key] of [['back', 'ArrowLeft'], ['next', 'ArrowRight'], ['play', 'p'], ['play-a', 'a'], ['play-b', 'b']])
  byId(id).addEventListener('click', actions[key]);

chosenA.addEventListener('change', () => { isAChosen = true; });

function markPlaying() {
  for (const [id, select] of [['play-a', chosenA], ['play-b', chosenB]])
    byId(id).setAttribute('aria-pressed', String(!soundOf(Number(select.value)).paused));
}

for (let i = 0; i < steps.length; ++i)
  for (const event of ['play', 'pause', 'ended']) soundOf(i).addEventListener(event, markPlaying);

window.addEventListener('hashchange', () => {
  const index = steps.findIndex(step => `#${step.id}` === location.hash);
  if (index >= 0) show(index, true);
});

sounds.onKeys(actions);
show(Math.max(0, steps.findIndex(step => `#${step.id}` === location.hash)), false);
