// print.js: before paper, all charts that will be printed are drawn black on white at the width of an A4 page.

const paperWidth = { timeline: 650, effects: 650, expected: 300, levels: 165, growth: 225, odds: 225 };

function toPaper() {
  root.dataset.paper = 'print';
  for (const el of document.querySelectorAll('.chart')) {
    if (!el.closest('details:not([open])')) {
      el.style.width = paperWidth[el.dataset.chart] + 'px';
      el.style.height = (el.dataset.chart === 'timeline' ? 225 : 190) + 'px';
      draw(el);
    }
  }
}

function toScreen() {
  delete root.dataset.paper;
  for (const el of document.querySelectorAll('.chart')) el.style.width = el.style.height = '';
  redraw();
}
