// paint.js: colours from the style sheet, and the binding of an option's names to this page's own functions.

const root = document.documentElement;

// inks holds what the style sheet said since the last drawing began: thousands of marks ask for a dozen colours.
const inks = new Map();

function ink(name) {
  if (!inks.has(name)) inks.set(name, getComputedStyle(root).getPropertyValue('--' + name).trim());
  return inks.get(name);
}

// lettering is text among the marks, in the type of the page.
function lettering(text, x, y, style) {
  return { type: 'text', style: { text, x, y, align: 'center', fontFamily: getComputedStyle(document.body).fontFamily, fontSize: 12, ...style } };
}

// bind puts colours and functions where a chart's option names them. Rows are left alone: what stands in them is only ever shown.
function bind(part, functions, key) {
  if (Array.isArray(part)) return part.map(p => bind(p, functions, key));
  if (part && typeof part === 'object') {
    const bound = {};
    for (const k of Object.keys(part)) bound[k] = k === 'data' ? part[k] : bind(part[k], functions, k);
    return bound;
  }
  if (typeof part !== 'string') return part;
  if (key === 'formatter' || key === 'renderItem') return Object.hasOwn(functions, part) ? functions[part] : undefined;
  return part[0] === '$' ? ink(part.slice(1)) : part;
}

// shape is the mark of a ruling, centred: for each verdict a form of its own, so that colour is never needed.
const tones = ['good', 'good', 'even', 'open', 'bad', 'bad', 'open', 'open'];
const hollow = [false, true, false, true, true, false, true, false];

function shape(ruling, x, y, r) {
  const tone = ink(tones[ruling]);
  const style = { fill: hollow[ruling] ? ink('sheet') : tone, stroke: tone, lineWidth: 1.6 };
  if (ruling >= 6) return { type: 'circle', shape: { cx: x, cy: y, r: r * 0.85 }, style };
  const corners = [
    [[0, -r], [r, 0.8 * r], [-r, 0.8 * r]],
    [[0, -r], [r, 0.8 * r], [-r, 0.8 * r]],
    [[-0.8 * r, -0.8 * r], [0.8 * r, -0.8 * r], [0.8 * r, 0.8 * r], [-0.8 * r, 0.8 * r]],
    [[0, -r], [r, 0], [0, r], [-r, 0]],
    [[0, r], [r, -0.8 * r], [-r, -0.8 * r]],
    [[0, r], [r, -0.8 * r], [-r, -0.8 * r]],
  ][ruling];
  return { type: 'polygon', shape: { points: corners.map(([a, b]) => [x + a, y + b]) }, style };
}

// standing is the mark of a tank that stands out, by its reading: thirsty, frugal, short fill, over-fill, slip of the pen.
function standing(reading, x, y) {
  const r = 6.5, open = ink('open'), halo = { type: 'circle', shape: { cx: x, cy: y, r: r + 2 }, style: { fill: ink('sheet') } };
  if (reading < 2) return [halo, shape(reading ? 0 : 5, x, y, r)];
  if (reading === 4) return [halo, ...[1, -1].map(way => stroke([[x - r, y - way * r], [x + r, y + way * r]], { stroke: open, lineWidth: 2.6 }))];
  const half = { cx: x, cy: y, r, r0: 0, startAngle: reading === 2 ? 0 : Math.PI, endAngle: reading === 2 ? Math.PI : 2 * Math.PI };
  return [{ ...halo, shape: { cx: x, cy: y, r }, style: { fill: ink('sheet'), stroke: open, lineWidth: 1.6 } }, { type: 'sector', shape: half, style: { fill: open } }];
}

function stroke(points, style) {
  return { type: 'polyline', shape: { points }, style: Object.assign({ fill: null, lineWidth: 1.5 }, style) };
}

function wash(points) {
  return { type: 'polygon', shape: { points }, style: { fill: ink('band'), opacity: Number(ink('band-strength')) } };
}
