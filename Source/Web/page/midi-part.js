// A part from a Standard MIDI File (RP-001), for the drum to play like a pattern.

/** The notes of a file that midi-file's parseMidi() has read, in order of time: { notes: [{ time_s, number, velocity, held_s }], tempo: beats a
    minute at the beginning }. All tracks and channels sound together; held_s is missing where a note has no end. */
export function notesOf({ header, tracks }) {
  const secondsPerTick = header.ticksPerBeat ? null : 1 / (header.framesPerSecond * header.ticksPerFrame);
  const events = tracks.flatMap((track, order) => {
    let tick = 0;
    return track.map(event => ({ ...event, tick: (tick += event.deltaTime), order }));
  });
  events.sort((a, b) => a.tick - b.tick || a.order - b.order);
  const usualBeat = 0.5; // s, until the file says otherwise
  let beat = usualBeat,
    tempo = null,
    time = 0,
    before = 0;
  const notes = [],
    sounding = new Map();
  for (const event of events) {
    time += (event.tick - before) * (secondsPerTick ?? beat / header.ticksPerBeat);
    before = event.tick;
    const key = `${event.order} ${event.channel} ${event.noteNumber}`;
    if (event.type === 'setTempo') {
      beat = event.microsecondsPerBeat / 1e6;
      if (time === 0) tempo = 60 / beat;
    } else if (event.type === 'noteOn') {
      const note = { time_s: time, number: event.noteNumber, velocity: event.velocity };
      notes.push(note);
      sounding.set(key, note);
    } else if (event.type === 'noteOff' && sounding.has(key)) {
      const note = sounding.get(key);
      note.held_s = time - note.time_s;
      sounding.delete(key);
    }
  }
  return { notes, tempo: tempo ?? 60 / usualBeat };
}

const [lowestTempo, highestTempo] = [20, 400]; // of the player

/** A part for the pattern player: its strokes in beats, at whose `tempo` it plays as in the file.
    @param strokes  with time_s and sweep_time_s in seconds, as Instrument.readNotes() gives them */
export function partOf(name, strokes, fileTempo) {
  const tempo = Math.round(Math.min(highestTempo, Math.max(lowestTempo, fileTempo))),
    inBeats = seconds => (seconds * tempo) / 60;
  const beats = Math.floor(inBeats(strokes.at(-1).time_s)) + 2; // the last stroke has a beat to ring
  return { name, tempo, beats, steps_per_beat: 1, strokes: strokes.map(stroke => retimed(stroke, inBeats)) };
}

const retimed = ({ time_s: time, sweep_time_s: sweep, ...stroke }, scale) => ({
  ...stroke,
  time_s: scale(time),
  ...(sweep !== undefined && { sweep_time_s: scale(sweep) })
});

export const longestPart = 110; // s that are rendered

/** What Instrument.render() and loudness() take for a pattern or a part at a tempo. @param most  seconds of a part, at most */
export function performanceOf(pattern, tempo, most = longestPart) {
  if (!pattern.strokes) return { text: pattern.text, steps_per_beat: pattern.steps_per_beat, tempo };
  const strokes = pattern.strokes.map(stroke => retimed(stroke, beats => (beats * 60) / tempo)).filter(({ time_s: time }) => time < most);
  return { strokes };
}
