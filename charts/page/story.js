// story.js: what a mark tells when it is pointed at, tapped or walked to. All of it is set as text, never as markup.

function element(tag, ...children) {
  const el = document.createElement(tag);
  el.append(...children);
  return el;
}

function told(title, pairs, note) {
  const box = element('div', element('b', title));
  const list = element('dl');
  for (const [what, figure] of pairs) if (figure && figure !== dash && !(what === 'Part fills' && figure === '0')) list.append(element('dt', what), element('dd', figure));
  box.append(list);
  if (note) box.append(element('p', note));
  return box;
}

const tankRows = () => document.getElementById('tank-table').tBodies[0].rows;

const states = ['healthy', 'as tuned', 'measured'];

const stories = {
  // the tank's own line of the table, heading by heading
  timeline(row) {
    const rows = tankRows(), tr = rows[rows.length - 1 - row[row.length - 1]];
    const heads = [...tr.closest('table').tHead.rows[0].cells].map(th => th.textContent);
    const cells = [...tr.cells].map(td => td.textContent);
    const [from, to] = data.tanks[row[row.length - 1]];
    const jobs = data.charts.timeline.option.series.find(s => s.name === 'jobs').data
      .filter(j => j[0] >= from && j[0] < to).map(j => [heading(j[1]), verdicts[j[2]]]);
    const shifts = (data.charts.timeline.option.series.find(s => s.name === 'shift')?.data || [])
      .filter(s => s[1] > from && s[0] < to).map(s => ['A shift, perhaps here', changed(s[3])]);
    return told(heads[0] + ' ' + cells[0], heads.slice(1, -1).map((h, i) => [h, cells[i + 1]]).concat(jobs, shifts), cells[cells.length - 1]);
  },
  levels: row => told(row[0] === 0 ? 'Before' : 'After', [
    ['level, ' + unit.economy.label, number(row[1], unit.economy.decimals)],
    ['80' + gap + '% sure', [row[2], row[3]].sort((a, b) => a - b).map(x => number(x, unit.economy.decimals)).join(' to ')],
  ]),
  expected: row => told(states[row[4]], [
    ['economy, ' + unit.economy.label, number(row[1], unit.economy.decimals)],
    ['80' + gap + '% sure', [row[2], row[3]].sort((a, b) => a - b).map(x => number(x, unit.economy.decimals)).join(' to ')],
  ]),
  growth: row => told('After ' + (row[0] + 1) + (row[0] ? ' tanks' : ' tank') + ', ' + spoken(row[5]), [
    ['change', changed(row[1])], ['90' + gap + '% sure', changes(row[2], row[3])], ['odds for a change', wager(row[4])], ['verdict then', verdicts[row[6]]],
  ]),
  odds: row => stories.growth(row),
  effects: row => told(heading(row[5]), [
    ['verdict', verdicts[row[4]]], ['change', changed(row[1])], ['90' + gap + '% sure', changes(row[2], row[3])],
  ]),
};

// heading is a job's number and the name its owner gave it, cut to what fits.
function heading(n, longest = 28) {
  const title = document.querySelector('#job-' + n + '-title bdi'), text = title ? title.textContent : '';
  return n + ' ' + (text.length > longest ? text.slice(0, longest - 1) + '…' : text);
}
