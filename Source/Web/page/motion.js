// How both heads move after a stroke, from the shapes of the drum's modes. Each mode is driven by the push of the stick where it
// lands, q'' + 2 a q' + w² q = shape(place) · force(t), and then rings; stick and wires themselves are not followed here.

export const frameTime = 1 / 8000; // s
const length = 0.06; // s

/** Value of a basis function's radial part at a share of the radius, between its samples. */
function radialAt(profile, share) {
  const at = Math.min(share, 1) * (profile.length - 1),
    k = Math.min(Math.floor(at), profile.length - 2);
  return profile[k] + (at - k) * (profile[k + 1] - profile[k]);
}

const turnOf = ({ m, parity }, angle) => (parity === 'sine' ? Math.sin(m * angle) : Math.cos(m * angle));

/** Shape of every mode on the batter head at a place. */
function shapesAt(shapes, share, angle) {
  const values = shapes.basis.map(f => radialAt(f.profile, share) * turnOf(f, angle));
  return shapes.modes.map(mode => mode.batter.reduce((sum, c, i) => sum + c * values[i], 0));
}

/** The motion after one stroke. @param stroke  { position, angle, contactTime in s } */
export class Motion {
  constructor(shapes, stroke) {
    this.shapes = shapes;
    this.stroke = stroke;
    this.count = Math.round(length / frameTime);
    const places = shapesAt(shapes, stroke.position, stroke.angle);
    const push = Math.max(2, Math.round(stroke.contactTime / frameTime));
    this.frames = Array.from({ length: this.count }, () => new Float32Array(shapes.modes.length));
    shapes.modes.forEach((mode, j) => {
      const w = 2 * Math.PI * mode.frequency_hz,
        fade = Math.exp(-mode.decay_per_s * frameTime);
      const first = 2 * fade * Math.cos(w * frameTime),
        second = fade * fade,
        gain = (2 * (1 - Math.cos(w * frameTime))) / (w * w);
      for (let i = 0, now = 0, before = 0; i < this.count; ++i) {
        const force = i < push ? -Math.sin((Math.PI * i) / push) : 0; // downwards
        const next = first * now - second * before + gain * places[j] * force;
        this.frames[i][j] = before = now;
        now = next;
      }
    });
  }

  /** Coefficients of the basis for both heads in a frame, { batter, resonant }. */
  field(frame) {
    const { basis, modes } = this.shapes,
      q = this.frames[Math.min(frame, this.count - 1)];
    const sum = side => {
      const out = new Float32Array(basis.length);
      modes.forEach((mode, j) => {
        if (q[j] !== 0 && mode[side]) for (let i = 0; i < out.length; ++i) out[i] += q[j] * mode[side][i];
      });
      return out;
    };
    return { batter: sum('batter'), resonant: sum('resonant') };
  }

  /** The largest displacement of each head along a cut, over all frames: what drawings are scaled by. */
  peaks(cut) {
    const peak = { batter: 1e-12, resonant: 1e-12 };
    for (let i = 0; i < this.count; i += 4) {
      const field = this.field(i);
      for (const side of ['batter', 'resonant'])
        for (const value of cut.displacement(field[side])) peak[side] = Math.max(peak[side], Math.abs(value));
    }
    return peak;
  }
}

/** A head's displacement along a diameter. */
export class CutShape {
  constructor(shapes, angle, points = 81) {
    this.rows = shapes.basis.map(f =>
      Float32Array.from({ length: points }, (_, i) => {
        const x = (2 * i) / (points - 1) - 1;
        return radialAt(f.profile, Math.abs(x)) * turnOf(f, x < 0 ? angle + Math.PI : angle);
      })
    );
    this.points = points;
  }

  displacement(field) {
    const out = new Float32Array(this.points);
    this.rows.forEach((row, b) => {
      if (field[b] !== 0) for (let i = 0; i < out.length; ++i) out[i] += field[b] * row[i];
    });
    return out;
  }
}

/** A head's displacement from above, on a square of size × size points; lug 1 at the right, angles clockwise. */
export class PlanShape {
  constructor(shapes, size) {
    this.size = size;
    this.basis = shapes.basis;
    this.rings = shapes.basis[0].profile.length;
    const orders = [...new Set(shapes.basis.map(f => `${f.m} ${f.parity}`))];
    this.groupOf = shapes.basis.map(f => orders.indexOf(`${f.m} ${f.parity}`));
    this.ring = new Float32Array(size * size).fill(-1); // −1: outside the head
    this.turns = orders.map(() => new Float32Array(size * size));
    for (let y = 0; y < size; ++y)
      for (let x = 0; x < size; ++x) {
        const u = (2 * x + 1) / size - 1,
          v = (2 * y + 1) / size - 1,
          r = Math.hypot(u, v),
          at = y * size + x;
        if (r >= 1) continue;
        this.ring[at] = r * (this.rings - 1);
        orders.forEach((order, g) => {
          const [m, parity] = order.split(' ');
          this.turns[g][at] = turnOf({ m: Number(m), parity }, Math.atan2(v, u));
        });
      }
  }

  displacement(field) {
    // First along the radius for each angular order, then around: far fewer products than one for each function and point.
    const along = this.turns.map(() => null);
    this.basis.forEach((f, b) => {
      if (field[b] === 0) return;
      const to = (along[this.groupOf[b]] ??= new Float32Array(this.rings));
      for (let k = 0; k < this.rings; ++k) to[k] += field[b] * f.profile[k];
    });
    const out = new Float32Array(this.size * this.size);
    along.forEach((profile, g) => {
      if (profile === null) return;
      for (let p = 0; p < out.length; ++p) {
        const r = this.ring[p];
        if (r < 0) continue;
        const k = Math.floor(r);
        out[p] += this.turns[g][p] * (profile[k] + (r - k) * (profile[k + 1] - profile[k]));
      }
    });
    return out;
  }
}
