// unit.js: figures in the reader's unit, spelled as the text of the page is.

const data = JSON.parse(document.getElementById('data').textContent);
let unit = data.units[data.unit];

const dash = '–', gap = '\u00a0';

function convert(scale, base) {
  return scale.inverse ? scale.factor / base : base * scale.factor + scale.offset;
}

// number writes x with so many decimals; thousands stand apart from five digits on. A half goes to the even digit, as in the
// program's own text: it is one only where x is a whole number of halves of a power of two.
function number(x, decimals) {
  if (typeof x !== 'number' || !Number.isFinite(x)) return dash;
  let size = Math.abs(x);
  const shifted = size * 10 ** decimals, below = Math.floor(shifted);
  if (shifted - below === 0.5 && size * 2 ** (decimals + 1) % 1 === 0 && below % 2 === 0) size = below / 10 ** decimals;
  const [whole, rest] = size.toFixed(decimals).split('.');
  const parted = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u202f') : whole;
  const digits = rest ? parted + '.' + rest : parted;
  return x < 0 && /[1-9]/.test(digits) ? '−' + digits : digits;
}

function written(scale, base) { return number(convert(scale, base), scale.decimals); }

function labelled(scale, base) {
  return Number.isFinite(base) ? written(scale, base) + gap + scale.label.replace(/ /g, gap) : dash;
}

// between writes two base figures as a range, the smaller number first.
function between(scale, low, high, joint) {
  if (!Number.isFinite(low) || !Number.isFinite(high)) return dash;
  if (scale.inverse) [low, high] = [high, low];
  return written(scale, low) + joint + written(scale, high);
}

function cash(x) {
  const digits = number(Math.abs(x), Math.abs(x) >= 100 ? 0 : 2);
  return (x < 0 ? '−' : '') + data.money.before + digits + (data.money.before ? '' : data.money.after);
}

// saying holds a way of writing for each kind of figure in the text.
const saying = {
  economy: v => labelled(unit.economy, v[0]),
  economies: v => between(unit.economy, v[0], v[1], ' to ') + gap + unit.economy.label.replace(/ /g, gap),
  bare: v => written(unit.economy, v[0]),
  bares: v => between(unit.economy, v[0], v[1], ' to '),
  distance: v => labelled(unit.distance, v[0]),
  volume: v => labelled(unit.volume, v[0]),
  temperature: v => labelled(unit.temperature, v[0]),
  rate: v => cash(v[0] / unit.distance.factor) + ' per 1000' + gap + unit.distance.label,
  label: (v, kind) => unit[kind].label,
  direction: () => unit.economy.label + ': better is up ↑' + (unit.economy.inverse ? '' : ', so the numbers run downwards'),
};

// celled does the same for the cells of the tanks' table, whose headings carry the unit and say where in a tank's row the figure stands.
const celled = {
  economy: v => written(unit.economy, v[0]),
  economies: v => between(unit.economy, v[0], v[1], dash),
  distance: v => written(unit.distance, v[0]),
  volume: v => written(unit.volume, v[0]),
  temperature: v => written(unit.temperature, v[0]),
};

function bases(text) { return (text || '').split(' ').map(s => s === '-' || s === '' ? NaN : Number(s)); }

// rewrite writes every figure of the page anew.
function rewrite() {
  for (const el of document.querySelectorAll('[data-q]')) {
    el.textContent = saying[el.dataset.q](bases(el.dataset.v), el.dataset.v);
  }
  const table = document.getElementById('tank-table');
  if (!table) return;
  const rows = table.tBodies[0].rows, heads = [...table.tHead.rows[0].cells];
  heads.forEach((th, i) => {
    const write = celled[th.dataset.cells], dims = bases(th.dataset.dims);
    if (write) data.tanks.forEach((tank, n) => { rows[rows.length - 1 - n].cells[i].textContent = write(dims.map(d => tank[d] ?? NaN)); });
  });
}

// Changes of fuel and odds, in words; they are the same in every unit.

function percent(x, decimals) { return Number.isFinite(x) ? number(x, decimals) + gap + '%' : dash; }

function changed(pct) {
  if (!Number.isFinite(pct)) return dash;
  if (Math.abs(pct) < 0.05) return 'as much fuel';
  return percent(Math.abs(pct), 1) + (pct < 0 ? ' less fuel' : ' more fuel');
}

function changes(low, high) {
  if (!Number.isFinite(low) || !Number.isFinite(high)) return dash;
  if (high <= 0) return number(-high, 1) + ' to ' + percent(-low, 1) + ' less';
  if (low >= 0) return number(low, 1) + ' to ' + percent(high, 1) + ' more';
  return 'from ' + percent(-low, 1) + ' less to ' + percent(high, 1) + ' more';
}

function wager(x) {
  if (!(x > 0)) return dash;
  if (x > 1 / 1.05 && x < 1.05) return 'even';
  const y = Math.max(x, 1 / x);
  return (y >= 1e6 ? 'a million to 1 or more' : number(y, y < 10 ? 1 : 0) + ' to 1') + (x < 1 ? ' against' : '');
}

const verdicts = ['less fuel, proved', 'perhaps less fuel', 'no change', 'can’t tell yet', 'perhaps more fuel', 'more fuel, proved', dash, dash];

function spoken(day) {
  if (!Number.isFinite(day)) return dash;
  const d = new Date(day * 864e5);
  return d.getUTCDate() + ' ' + months[d.getUTCMonth()] + ' ' + d.getUTCFullYear();
}
const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
