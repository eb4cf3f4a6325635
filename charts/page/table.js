// table.js: the table behind a job's charts, built when it is first opened: sixty jobs would weigh down the page otherwise.

const columns = [
  ['Tank', r => number(r[7], 0)],
  ['Ended', r => spoken(r[5])],
  ['Change so far', r => changed(r[1])],
  ['90' + gap + '% sure', r => changes(r[2], r[3])],
  ['Odds for a change', r => wager(r[4])],
  ['Verdict then', r => verdicts[r[6]]],
];

function tabulate(details) {
  const box = details.querySelector('.scroll');
  if (box.firstChild) return;
  const head = element('tr', ...columns.map(([title]) => Object.assign(element('th', title), { scope: 'col' })));
  const rows = data.jobs[Number(details.dataset.path)].path.map(r =>
    element('tr', ...columns.map(([, write], i) => i ? element('td', write(r)) : Object.assign(element('th', write(r)), { scope: 'row' }))));
  const caption = element('caption', 'What the answer was after each tank, from nothing later than it');
  box.append(element('table', caption, element('thead', head), element('tbody', ...rows)));
}
