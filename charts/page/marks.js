// marks.js: how each kind of row is drawn. A mark is given its rows, already in the reader's unit, and gives the library's
// drawing function. Marks made of many rows at once are drawn with the first.

const quiet = children => ({ type: 'group', silent: true, children });

function whole(draw) {
  return ctx => (params, api) => params.dataIndexInside === 0 ? quiet(draw(ctx.rows, api, params.coordSys, ctx)) : null;
}

const marks = {
  // winter: from, to
  shade: whole((rows, api, area) => rows.map(r => {
    const left = api.coord([r[0], 0])[0], right = api.coord([r[1], 0])[0];
    return { type: 'rect', shape: { x: left, y: area.y, width: right - left, height: area.height }, style: { fill: ink('shade') } };
  })),

  // a shift without a job: from, to, ruling; hatched, since it came on one day of these
  shift: whole((rows, api, area) => rows.flatMap(r => {
    const [left, right] = [r[0], r[1]].map(day => Math.max(area.x, Math.min(area.x + area.width, api.coord([day, 0])[0])));
    const tone = ink(tones[r[2]]), bottom = area.y + area.height;
    let hatch = `M${left} ${area.y}V${bottom}M${right} ${area.y}V${bottom}`;
    for (let at = left - area.height + 9; at < right; at += 9) {
      const a = Math.max(left, at), b = Math.min(right, at + area.height);
      hatch += `M${a} ${bottom - a + at}L${b} ${bottom - b + at}`;
    }
    return [{ type: 'path', shape: { pathData: hatch }, style: { fill: null, stroke: tone, lineWidth: 1, opacity: 0.45 } }, shape(r[2], (left + right) / 2, area.y + 9, 6)];
  })),

  // level: from, to, middle, ends; one step a tank, in one piece as long as tank follows on tank
  steps: whole((rows, api) => {
    const parts = [];
    for (let i = 0; i < rows.length;) {
      const top = [], bottom = [], mid = [];
      let last;
      do {
        const [from, to, m, a, b] = rows[i];
        top.push(api.coord([from, a]), api.coord([to, a]));
        bottom.push(api.coord([from, b]), api.coord([to, b]));
        mid.push(api.coord([from, m]), api.coord([to, m]));
        last = rows[i++];
      } while (i < rows.length && rows[i][0] - last[1] < 864e5);
      parts.push(wash(top.concat(bottom.reverse())), stroke(mid, { stroke: ink('brass'), lineWidth: 2 }));
    }
    return parts;
  }),

  // a tank from the pump: day, economy, its ends
  pump: ctx => (params, api) => {
    const [x, y] = api.coord([api.value(0), api.value(1)]), area = params.coordSys;
    const crowded = area.width / ctx.rows.length < 7, r = crowded ? 2 : 3.5;
    const style = { stroke: ink('soft'), fill: ink('sheet'), lineWidth: crowded ? 1 : 1.3 };
    if (y < area.y || y > area.y + area.height) { // off the scale: an arrow head at the edge
      const edge = y < area.y ? area.y : area.y + area.height, d = y < area.y ? 8 : -8;
      return { type: 'polygon', shape: { points: [[x, edge], [x + 5, edge + d], [x - 5, edge + d]] }, style: { fill: ink('soft') } };
    }
    const children = [{ type: 'circle', shape: { cx: x, cy: y, r }, style }];
    if (!crowded) children.unshift(stroke([[x, api.coord([0, api.value(2)])[1]], [x, api.coord([0, api.value(3)])[1]]], { stroke: ink('soft'), lineWidth: 1.1 }));
    return { type: 'group', children };
  },

  // a tank like for like: day, economy
  like: ctx => (params, api) => {
    const [x, y] = api.coord([api.value(0), api.value(1)]);
    const r = params.coordSys.width / ctx.rows.length < 7 ? 3 : 4.5;
    return { type: 'polygon', shape: { points: [[x, y - r], [x + r, y], [x, y + r], [x - r, y]] }, style: { fill: ink('blue') } };
  },

  // a tank that stands out: day, economy, reading; beside the edge where it is off the scale
  odd: () => (params, api) => {
    const area = params.coordSys, [x, there] = api.coord([api.value(0), api.value(1)]);
    const y = there < area.y ? area.y + 17 : there > area.y + area.height ? area.y + area.height - 17 : there;
    return { type: 'group', children: standing(api.value(2), x, y) };
  },

  // a job: day, number, ruling; its flag goes into the first of three lines that has room, else only its line is drawn
  flag: ctx => {
    const ends = [-9, -9, -9];
    return (params, api) => {
      if (params.dataIndexInside === 0) ends.fill(-9); // each drawing begins anew
      const area = params.coordSys, x = api.coord([api.value(0), 0])[0], text = String(api.value(1)), ruling = api.value(2);
      const proved = ruling === 0 || ruling === 5, tone = ink(proved ? tones[ruling] : 'ink'); // what is proved stands out, the rest stands back
      if (x < area.x - 1 || x > area.x + area.width + 1) return null;
      const half = flagHalf(text), line = ends.findIndex(end => x - half > end + 2);
      const pole = stroke([[x, line < 0 ? area.y : area.y - 4 - 17 * line], [x, area.y + area.height]],
        { stroke: tone, lineWidth: proved ? 1.6 : 1, lineDash: proved ? null : [2, 4], opacity: ctx.rows.length > 20 && !proved ? 0.45 : 0.8 });
      if (line < 0) return quiet([pole]);
      ends[line] = x + half;
      const y = area.y - 4 - 17 * line;
      return quiet([pole, { type: 'rect', shape: { x: x - half, y: y - 15, width: 2 * half, height: 15 }, style: { fill: proved ? tone : ink('sheet'), stroke: tone, lineWidth: 1 } },
        lettering(text, x, y - 7, { verticalAlign: 'middle', fill: ink(proved ? 'sheet' : 'ink'), fontWeight: proved ? 'bold' : 'normal' })]);
    };
  },

  // no change: the strip from end to end, and its middle
  zero: whole((rows, api, area) => {
    const [a, b, mid] = [rows[0][0], rows[0][1], 0].map(y => api.coord([0, y])[1]);
    return [
      { type: 'rect', shape: { x: area.x, y: Math.min(a, b), width: area.width, height: Math.abs(b - a) }, style: { fill: ink('shade') } },
      stroke([[area.x, mid], [area.x + area.width, mid]], { stroke: ink('soft'), lineWidth: 1 }),
    ];
  }),

  // the odds that count as proof
  proof: whole((rows, api, area) => {
    const y = api.coord([0, rows[0][0]])[1];
    return [
      stroke([[area.x, y], [area.x + area.width, y]], { stroke: ink('brass'), lineWidth: 1.6, lineDash: [7, 4] }),
      lettering('proved: 20 to 1', area.x + area.width - 4, y + 5, { align: 'right', verticalAlign: 'top', fill: ink('brass'), stroke: ink('sheet'), lineWidth: 3 }),
    ];
  }),

  // a job's change as it became known: count, change, its ends, ruling at 6
  funnel: whole((rows, api, area, ctx) => {
    const at = (r, i) => api.coord([r[0], r[i]]);
    if (rows.length === 1) { // a strip, since one tank makes no area
      const [x, a] = at(rows[0], 2), b = at(rows[0], 3)[1];
      return [wash([[x - 9, a], [x + 9, a], [x + 9, b], [x - 9, b]]), ...dots(rows, r => at(r, 1), area)];
    }
    return [
      wash(rows.map(r => at(r, 2)).concat(rows.map(r => at(r, 3)).reverse())),
      stroke(rows.map(r => at(r, 1)), { stroke: ink('brass'), lineWidth: 1.6 }),
      ...dots(rows, r => at(r, 1), area),
    ];
  }),

  // the odds as they grew: count, odds at 4, ruling at 6
  wager: whole((rows, api, area) => {
    const at = r => api.coord([r[0], r[4]]);
    return [stroke(rows.map(at), { stroke: ink('blue'), lineWidth: 1.6 }), ...dots(rows, at, area)];
  }),

  // a level: side, middle, its ends
  range: ctx => (params, api) => {
    const [x, y] = api.coord([api.value(0), api.value(1)]);
    const [a, b] = [2, 3].map(i => api.coord([0, api.value(i)])[1]);
    return { type: 'group', children: [
      { type: 'rect', shape: { x: x - 9, y: Math.min(a, b), width: 18, height: Math.max(1, Math.abs(a - b)) }, style: { fill: ink('band'), opacity: Number(ink('band-strength')) } },
      stroke([[x - 14, y], [x + 14, y]], { stroke: ink('brass'), lineWidth: 3 }),
      figure(api.value(1), x, Math.min(a, b)),
    ] };
  },

  // the healthy range from end to end, as far as the scale shows it; its edges are dashed, so that it is told without colour
  strip: whole((rows, api, area) => {
    const ends = rows[0].map(y => api.coord([0, y])[1]).sort((a, b) => a - b), within = y => Math.max(area.y, Math.min(area.y + area.height, y));
    const [top, bottom] = ends.map(within), edges = ends.filter(y => y === within(y));
    return [{ type: 'rect', shape: { x: area.x, y: top, width: area.width, height: bottom - top }, style: { fill: ink('well'), opacity: Number(ink('well-strength')) } },
      ...edges.map(y => stroke([[area.x, y], [area.x + area.width, y]], { stroke: ink('edge'), lineWidth: 1.2, lineDash: [7, 4] }))];
  }),

  // what is to be expected, or was measured: place, middle, its ends, state; the measured one looks as tanks do
  outlook: ctx => (params, api) => {
    if (api.value(4) !== 2) return marks.range(ctx)(params, api);
    const [x, y] = api.coord([api.value(0), api.value(1)]), [a, b] = [2, 3].map(i => api.coord([0, api.value(i)])[1]);
    return { type: 'group', children: [
      stroke([[x, a], [x, b]], { stroke: ink('blue'), lineWidth: 2 }),
      { type: 'circle', shape: { cx: x, cy: y, r: 5.5 }, style: { stroke: ink('blue'), fill: ink('sheet'), lineWidth: 2 } },
      figure(api.value(1), x, Math.min(a, b, y - 6)),
    ] };
  },

  // what a job changed: place, change, its ends, ruling
  effect: ctx => (params, api) => {
    const [x, y] = api.coord([api.value(0), api.value(1)]), ruling = api.value(4), tone = ink(tones[ruling]);
    const [a, b] = [2, 3].map(i => api.coord([0, api.value(i)])[1]);
    const r = Math.min(7, params.coordSys.width / ctx.rows.length / 2.2);
    return { type: 'group', children: [
      stroke([[x, a], [x, b]], { stroke: tone, lineWidth: 2 }),
      stroke([[x - r, a], [x + r, a]], { stroke: tone, lineWidth: 2 }),
      stroke([[x - r, b], [x + r, b]], { stroke: tone, lineWidth: 2 }),
      shape(ruling, x, y, r),
    ] };
  },
};

// figure is an economy written above its mark.
function figure(economy, x, top) {
  return lettering(number(economy, unit.economy.decimals), x, top - 3, { verticalAlign: 'bottom', fill: ink('ink'), fontSize: 13, stroke: ink('sheet'), lineWidth: 3 });
}

// dots mark each tank of a path by its verdict, as large as there is room.
function dots(rows, at, area) {
  const r = Math.max(1.8, Math.min(5, area.width / rows.length / 3));
  return rows.map(row => shape(row[6], ...at(row), r));
}

const flagHalf = text => 5 + 3.6 * text.length;

// flagLines is how many lines the flags at the places xs need, of three at most.
function flagLines(flags) {
  const ends = [-9, -9, -9];
  let lines = 1;
  for (const [x, text] of flags) {
    const half = flagHalf(text), line = ends.findIndex(end => x - half > end + 2);
    if (line < 0) return 3;
    ends[line] = x + half;
    lines = Math.max(lines, line + 1);
  }
  return lines;
}
