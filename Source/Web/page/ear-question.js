// Questions by ear: one or both heads move by some semitones; which, and how far? No page.

const largest = 3; // semitones

/** What is asked: the moves in semitones, and two questions with the index of the right answer.
    @param random  gives numbers from 0 to 1 */
export function makeQuestion(hasResonant, random = Math.random) {
  const heads = hasResonant ? ['batter', 'resonant', 'both'] : ['batter'];
  const head = heads[Math.floor(random() * heads.length)];
  const steps = [];
  for (let by = -largest; by <= largest; ++by) if (by !== 0) steps.push(by);
  const by = steps[Math.floor(random() * steps.length)];
  const far = { text: 'Which way, and how far?', answers: steps.map(farWords), right: steps.indexOf(by) };
  const which = { text: 'Which head moved?', answers: heads, right: heads.indexOf(head) };
  return { head, by, batter: head === 'resonant' ? 0 : by, resonant: head === 'batter' ? 0 : by, questions: hasResonant ? [which, far] : [far] };
}

/** "up 1 semitone" */
export const farWords = by => `${by > 0 ? 'up' : 'down'} ${Math.abs(by)} semitone${Math.abs(by) === 1 ? '' : 's'}`;

/** What happened, as a sentence. */
export function solution({ head, by }) {
  return `${head === 'both' ? 'Both heads' : `The ${head} head`} went ${farWords(by)}.`;
}
