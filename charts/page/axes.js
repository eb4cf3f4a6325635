// axes.js: scales with round numbers, and what stands beside them.

// nice widens a range to round numbers and says how far apart its labels stand: a few more labels than asked for rather than an empty third.
function nice(low, high, labels) {
  if (!(high > low)) { const m = Number.isFinite(low) ? low : 0; low = m - 1; high = m + 1; }
  const rough = (high - low) / labels, power = Math.pow(10, Math.floor(Math.log10(rough)));
  const step = [1, 2, 2.5, 5, 10].find(s => s * power >= 0.75 * rough) * power;
  const tidy = x => Number(x.toPrecision(12));
  return { min: tidy(Math.floor(low / step + 1e-9) * step), max: tidy(Math.ceil(high / step - 1e-9) * step), interval: tidy(step) };
}

// economyScale is a value scale in the reader's unit on which better is always up.
function economyScale(low, high) {
  const ends = [low, high].map(x => convert(unit.economy, x)).sort((a, b) => a - b);
  return Object.assign(nice(ends[0], ends[1], 5), { inverse: !unit.economy.inverse });
}

// calendar holds how far apart dates may stand, and how many pixels each then needs.
const calendar = [
  ...[1, 2, 4, 7, 14].map(days => ({ days, room: 44 })),
  { months: 1, room: 56 }, ...[3, 6, 12, 24, 60, 120].map(months => ({ months, room: 30 })),
];

// dates are those beside an axis of time: days in a short log, else firsts of months, as many as there is room for.
function dates(min, max, width) {
  const day = 864e5, across = width / (max - min), edge = 10 / across, long = max - min > 120 * day;
  const step = calendar.find(s => !(s.days && long) && (s.days || 30 * s.months) * day * across >= s.room) || calendar.at(-1);
  const all = [];
  if (step.days) for (let t = Math.ceil(min / day) * day; t <= max; t += step.days * day) all.push(t);
  else {
    const from = new Date(min), month = 12 * from.getUTCFullYear() + from.getUTCMonth();
    for (let m = Math.ceil(month / step.months) * step.months, t; (t = Date.UTC(Math.floor(m / 12), m % 12, 1)) <= max; m += step.months) all.push(t);
  }
  return all.filter(t => t >= min + edge && t <= max - edge);
}

// plainest writes a label of a scale with as many decimals as it needs.
function plainest(x) { return number(x, [0, 1, 2].find(d => Math.abs(x - Number(x.toFixed(d))) < 1e-6) || 0); }

const labels = {
  month: at => {
    const d = new Date(at), m = d.getUTCMonth();
    if (d.getUTCDate() !== 1) return d.getUTCDate() + ' ' + months[m];
    return m === 0 ? String(d.getUTCFullYear()) : months[m];
  },
  economy: plainest,
  change: x => x === 0 ? 'same' : plainest(Math.abs(x)) + gap + '%' + gap + (x < 0 ? 'less' : 'more'),
  odds: x => {
    const y = Math.max(x, 1 / x), one = (y > 9e5 ? 'a million' : number(y, 0)) + ' to 1';
    return y < 1.05 ? 'even' : x > 1 ? one : one + '\nagainst';
  },
  count: String,
  side: String,
};
