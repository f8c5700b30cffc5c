'use strict';

const exercise = JSON.parse(document.getElementById('exercise').textContent);
const byId = id => document.getElementById(id);
const count = exercise.steps.length;
const leastSounds = 6;
const audios = exercise.steps.map(step => Object.assign(new Audio(step.sound), { preload: 'auto' }));
audios.forEach(audio => { audio.hidden = true; document.body.append(audio); });

let order = [];   // the step heard at each place
let asked = [];   // the questions at each place: { question, right, given }
let place = 0;

function make(tag, text = '', attributes = {}) {
  const element = document.createElement(tag);
  element.textContent = text;
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  return element;
}

// The same number gives the same order on every machine: a linear congruential generator.
function shuffledSteps(number) {
  let state = number;
  const below = limit => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor(state / 2 ** 32 * limit);
  };
  below(2);
  below(2);
  const list = [];
  while (list.length < Math.max(count, leastSounds)) {
    const round = exercise.steps.map((_, i) => i);
    for (let i = count - 1; i > 0; --i) {
      const j = below(i + 1);
      [round[i], round[j]] = [round[j], round[i]];
    }
    // No step comes twice running.
    if (round[0] === list[list.length - 1]) round.push(round.shift());
    list.push(...round);
  }
  return list.slice(0, Math.max(count, leastSounds));
}

function questionsAt(at) {
  const rightAnswer = question => {
    if (at === 0 && !question.isAboutOneSound) return -1;
    return question.right[(at === 0 ? 0 : order[at - 1]) * count + order[at]];
  };
  return exercise.questions.map(question => ({ question, right: rightAnswer(question), given: -1 })).filter(q => q.right >= 0);
}

function start(number) {
  byId('number').value = number;
  order = shuffledSteps(number);
  asked = order.map((_, at) => questionsAt(at));
  byId('result').hidden = true;
  byId('card').hidden = false;
  drawPaper(number);
  show(0);
}

function show(at) {
  place = at;
  sounds.stop();
  const isLast = place === order.length - 1;
  byId('place').textContent = `Sound ${place + 1} of ${order.length}`;
  byId('hear-before').disabled = byId('back').disabled = place === 0;
  byId('next').textContent = isLast ? 'Show answers and score' : 'Next →';
  byId('questions').replaceChildren(...asked[place].map(drawQuestion));
  if (asked[place].length === 0)
    byId('questions').append(make('p', 'Remember this sound. The questions come with the next one.'));
}

function drawQuestion(entry, index) {
  const field = make('fieldset');
  const answers = make('div', '', { class: 'answers' });
  entry.question.answers.forEach((answer, i) => {
    const label = make('label');
    const button = make('input', '', { type: 'radio', name: `question-${index}` });
    button.checked = entry.given === i;
    button.addEventListener('change', () => { entry.given = i; });
    label.append(button, answer);
    answers.append(label);
  });
  field.append(make('legend', entry.question.text), answers);
  return field;
}

const isRight = entry => entry.given === entry.right;

function row(cells, tag = 'td') {
  const line = make('tr');
  line.append(...cells.map(cell => cell instanceof Node ? cell : make(tag, cell)));
  return line;
}

function headedTable(headings) {
  const table = make('table'), head = make('thead'), body = make('tbody');
  head.append(row(headings.map(text => make('th', text, { scope: 'col' }))));
  table.append(head, body);
  return { table, body };
}

function showResult() {
  sounds.stop();
  const all = asked.flat();
  const { table, body } = headedTable(['Sound', 'Question', 'Your answer', 'Right answer', '']);
  asked.forEach((entries, at) => {
    const button = make('button', `Play ${at + 1}`, { type: 'button', 'aria-label': `Play sound ${at + 1}` });
    button.addEventListener('click', () => sounds.switchTo(audios[order[at]]));
    const name = make('th', `${at + 1}. ${exercise.steps[order[at]].name} `, { scope: 'rowgroup', rowspan: Math.max(1, entries.length) });
    name.append(make('br'), button);
    const rows = entries.map(({ question, right, given }) =>
      [question.text, given < 0 ? 'no answer' : question.answers[given], question.answers[right], given === right ? '✓ right' : '✗ wrong']);
    if (rows.length === 0) rows.push(['no question', '', '', '']);
    rows.forEach((cells, i) => body.append(row(i === 0 ? [name, ...cells] : cells)));
  });
  byId('card').hidden = true;
  byId('result').hidden = false;
  byId('score').textContent = `${all.filter(isRight).length} of ${all.length} right`;
  byId('answers').replaceChildren(table);
  byId('result-heading').focus();
}

// On paper: a sheet for pupils, then the answers on a page of their own.
function drawPaper(number) {
  const sheet = make('section'), answers = make('section', '', { class: 'own-page' });
  const places = make('div', '', { class: 'places' }), lines = make('p', '', { class: 'boxes' });
  for (const text of [`Exercise ${number}`, 'Name: ____________________________', `Right: ______ of ${asked.flat().length}`])
    lines.append(make('span', text));
  sheet.append(make('h1', `${exercise.name}: answer sheet`), lines, places, document.querySelector('footer ul').cloneNode(true));
  const { table, body } = headedTable(['Sound', 'Step', 'Answers, in the order of the questions']);
  asked.forEach((entries, at) => {
    const block = make('div', '', { class: 'place' });
    block.append(make('h2', `Sound ${at + 1}`));
    for (const { question } of entries) {
      const boxes = make('p', `${question.text} `, { class: 'boxes' });
      boxes.append(make('br'), ...question.answers.map(answer => make('span', `☐ ${answer}`)));
      block.append(boxes);
    }
    if (entries.length === 0) block.append(make('p', 'Listen and remember.'));
    places.append(block);
    body.append(row([String(at + 1), exercise.steps[order[at]].name, entries.map(({ question, right }) => question.answers[right]).join('; ')]));
  });
  answers.append(make('h1', `${exercise.name}: answers`), make('p', `Exercise ${number}. For the teacher.`), table);
  byId('paper').replaceChildren(sheet, answers);
}

function move(to) {
  if (to >= order.length) return showResult();
  show(Math.max(0, to));
  byId('place').focus();
}

const isOnCard = action => () => { if (!byId('card').hidden) action(); };
const actions = {
  a: isOnCard(() => { if (place > 0) sounds.switchTo(audios[order[place - 1]]); }),
  b: isOnCard(() => sounds.switchTo(audios[order[place]])),
  s: () => sounds.stop(),
  ArrowLeft: isOnCard(() => move(place - 1)),
  ArrowRight: isOnCard(() => { if (place < order.length - 1) move(place + 1); })
};

byId('hear-before').addEventListener('click', actions.a);
byId('hear').addEventListener('click', actions.b);
byId('back').addEventListener('click', actions.ArrowLeft);
byId('card').addEventListener('submit', event => { event.preventDefault(); move(place + 1); });
byId('print').addEventListener('click', () => window.print());
byId('new').addEventListener('click', () => start(1 + Math.floor(Math.random() * 999)));
byId('number').addEventListener('change', event => start(Math.max(1, Math.min(999, Math.floor(Number(event.target.value)) || 1))));
sounds.onKeys(actions);

// "exercise.html#17" opens exercise 17.
start(Math.min(999, Number.parseInt(location.hash.slice(1), 10) || 1 + Math.floor(Math.random() * 999)));
