// walk.js: a chart with the keyboard. Arrow keys lead from mark to mark and tell each one's story, on screen and aloud.

const steps = { ArrowRight: i => i + 1, ArrowLeft: i => i - 1, Home: () => 0, End: (i, n) => n - 1, PageUp: i => i - 10, PageDown: i => i + 10 };

function walk(el) {
  let at = -1;
  el.addEventListener('keydown', event => {
    const chart = charts.get(el), step = steps[event.key];
    if (event.key === 'Escape') { chart?.dispatchAction({ type: 'hideTip' }); at = -1; return; }
    if (!chart || !step || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const series = chart.getOption().series, index = series.findIndex(s => s.name === 'as measured');
    const own = index < 0 ? series.length - 1 : index, rows = series[own].data;
    if (!rows.length) return;
    at = Math.max(0, Math.min(rows.length - 1, at < 0 && event.key === 'ArrowLeft' ? rows.length - 1 : step(at, rows.length)));
    const [x] = chart.convertToPixel({ gridIndex: 0 }, [rows[at][0], 0]);
    chart.dispatchAction({ type: 'showTip', x, y: el.clientHeight / 2 }); // at half height, since a mark may lie off the scale
    const story = stories[el.dataset.chart](rows[at]);
    story.querySelector('b').append('. ');
    for (const dt of story.querySelectorAll('dt')) dt.append(': ');
    for (const dd of story.querySelectorAll('dd')) dd.append('. ');
    document.getElementById('aloud').textContent = story.textContent.replace(/[▼▲◒◓✕] /g, '');
  });
  el.addEventListener('blur', () => { charts.get(el)?.dispatchAction({ type: 'hideTip' }); at = -1; });
}
