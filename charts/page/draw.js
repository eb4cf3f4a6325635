// draw.js: the charts. Each is drawn when it first comes near the window, and again when unit, width, light or paper changes.

const charts = new Map(); // element -> the library's instance
let days = 0;             // back from the end that the timeline shows; 0 is all

// ofTanks makes the rows of the timeline's marks from those of the tanks.
const ofTanks = {
  pumps: (t, n) => [(t[0] + t[1]) / 2, t[2], t[2] * (1 - (t[3] || 0) / 100), t[2] * (1 + (t[3] || 0) / 100), n],
  likes: (t, n) => [(t[0] + t[1]) / 2, t[5], n],
  levels: t => [t[0], t[1], t[8], t[7], t[9]],
  odd: (t, n) => [(t[0] + t[1]) / 2, t[2], t[15], n],
};
const needed = { pumps: [0, 1, 2], likes: [0, 1, 2, 5], levels: [0, 1, 7, 8, 9], odd: [0, 1, 2, 15] };

function rowsOf(id) {
  const rows = [];
  data.tanks.forEach((t, n) => { if (needed[id].every(d => t[d] !== null)) rows.push(ofTanks[id](t, n)); });
  if (id === 'levels') turned(rows);
  return rows;
}

// turned lets the level step on the day of a job, where one fell within a tank.
function turned(rows) {
  for (const [n, day] of data.turns || []) {
    const at = rows.findIndex(r => r[0] === data.tanks[n][0]);
    if (at < 0) continue;
    if (at > 0 && rows[at - 1][1] === rows[at][0]) rows[at - 1][1] = day;
    rows[at][0] = day;
  }
}

// source is a chart's option with its rows, still in base units.
function source(el) {
  const drawing = data.charts[el.dataset.chart], job = data.jobs?.[Number(el.dataset.job)];
  const option = JSON.parse(JSON.stringify(drawing.option));
  for (const s of option.series) if (s.id) s.data = job ? job[s.id].map(r => r.slice()) : rowsOf(s.id);
  const ends = job ? job.ends[['levels', 'growth', 'odds'].indexOf(el.dataset.chart)] : [drawing.low, drawing.high];
  return { option, ends };
}

// ready is an option that the library can draw: rows in the reader's unit, scales, colours, functions.
function ready(el) {
  const { option, ends } = source(el), x = option.xAxis[0], y = option.yAxis[0];
  const timed = x.type === 'time', economy = y.axisLabel.formatter === 'economy';
  if (timed) Object.assign(x, stretch(option));
  for (const s of option.series) {
    const along = timed ? s.encode.x.filter(d => d >= 0) : [], up = economy ? s.encode.y.filter(d => d >= 0) : [];
    s.data = s.data.filter(r => !along.length || s.renderItem === 'shade' || (r[along.length - 1] >= x.min && r[0] <= x.max));
    for (const r of s.data) {
      for (const d of along) r[d] *= 864e5;
      for (const d of up) r[d] = r[d] === null ? NaN : convert(unit.economy, r[d]);
    }
    s.clip = s.renderItem !== 'flag' && s.renderItem !== 'wager';
  }
  if (timed) {
    x.min *= 864e5; x.max *= 864e5;
    x.axisTick.customValues = x.axisLabel.customValues = dates(x.min, x.max, el.clientWidth - 50);
    const flags = option.series.find(s => s.renderItem === 'flag').data.filter(r => r[0] >= x.min && r[0] <= x.max);
    const across = (el.clientWidth - 50) / (x.max - x.min); // a rough place is enough to count the lines
    option.grid[0].top = flags.length ? 8 + 17 * flagLines(flags.map(r => [(r[0] - x.min) * across, String(r[1])])) : 12;
  }
  if (x.type === 'category') counted(el, option, x);
  Object.assign(y, economy ? economyScale(...ends) : y.type === 'log' ? { min: ends[0], max: ends[1] } : nice(ends[0], ends[1], 5));
  return bound(el, option);
}

// stretch is the part of the log that the timeline shows, in days.
function stretch(option) {
  const pumps = option.series.find(s => s.renderItem === 'pump').data, levels = option.series.find(s => s.renderItem === 'steps').data;
  const first = Math.min(pumps[0][0], levels.length ? levels[0][0] : Infinity);
  const last = Math.max(pumps[pumps.length - 1][0], levels.length ? levels[levels.length - 1][1] : 0);
  const from = days ? Math.max(first, last - days) : first, air = Math.max(4, (last - from) * 0.015);
  return { min: from - air, max: last + air };
}

// counted gives a chart without a time scale its places: before and after, tanks since, jobs.
function counted(el, option, x) {
  const rows = option.series[option.series.length - 1].data;
  const room = el.clientWidth / Math.max(1, rows.length);
  x.data = {
    levels: () => ['before', 'after'],
    expected: () => rows.map(r => states[r[4]]),
    effects: () => rows.map(r => room > 96 ? heading(r[5], Math.floor(room / 7.5) - 3) : String(r[5])),
  }[el.dataset.chart]?.() || rows.map((r, i) => String(i + 1));
}

function bound(el, option) {
  const items = option.series.map(s => Object.hasOwn(marks, s.renderItem) ? marks[s.renderItem]({ rows: s.data }) : undefined);
  const result = bind(option, labels);
  result.series.forEach((s, i) => {
    s.renderItem = items[i];
    if (!telling(s, i, result.series)) s.tooltip = { show: false };
  });
  result.useUTC = true;
  result.textStyle = { fontFamily: getComputedStyle(document.body).fontFamily };
  Object.assign(result.tooltip, {
    ...beside(el), className: 'story', backgroundColor: ink('sheet'), borderColor: ink('ink'), textStyle: { color: ink('ink') },
    borderRadius: 0, transitionDuration: 0, axisPointer: { type: 'line', lineStyle: { type: 'solid', color: ink('brass') } },
    formatter: params => tell(el, params) || '',
  });
  return result;
}

// beside keeps a story within its chart; on a phone, where it would hide all of it, it stands below or else above.
function beside(el) {
  if (innerWidth >= 600) return { confine: true };
  return {
    confine: false,
    position: (point, params, box, rect, { contentSize: [, height] }) =>
      [0, innerHeight - el.getBoundingClientRect().bottom > height + 8 ? el.clientHeight + 4 : -height - 4],
  };
}

// telling says whether a series has stories: the tanks' marks, or else a chart's last.
function telling(s, i, all) {
  return s.id === 'pumps' || s.id === 'likes' || i === all.length - 1;
}

// tell finds the row that is pointed at and gives its story.
function tell(el, params) {
  const list = [].concat(params), own = list.find(p => p.seriesName === 'as measured') || list[list.length - 1];
  return own && own.data ? stories[el.dataset.chart](own.data) : null;
}

function draw(el) {
  if (!window.echarts || !el.clientWidth) return;
  inks.clear();
  let chart = charts.get(el);
  if (!chart) charts.set(el, chart = echarts.init(el, null, { renderer: 'svg' }));
  else chart.resize();
  chart.setOption(ready(el), { notMerge: true });
  const svg = el.querySelector('svg');
  svg.setAttribute('aria-hidden', 'true');
  svg.setAttribute('focusable', 'false');
}

function redraw() { for (const el of charts.keys()) draw(el); }

// watch draws each chart as it comes near.
function watch() {
  const all = document.querySelectorAll('.chart');
  if (!window.IntersectionObserver) return all.forEach(draw);
  const near = new IntersectionObserver(seen => {
    for (const s of seen) if (s.isIntersecting) { near.unobserve(s.target); draw(s.target); }
  }, { rootMargin: '400px' });
  all.forEach(el => near.observe(el));
  let waiting = 0;
  new ResizeObserver(() => {
    cancelAnimationFrame(waiting);
    waiting = requestAnimationFrame(() => { for (const [el, chart] of charts) if (el.clientWidth && chart.getWidth() !== el.clientWidth) draw(el); });
  }).observe(document.body);
}
