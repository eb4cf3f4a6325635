// start.js: the page comes to life.

const memory = 'brimlog.economy';

function remembered() {
  try { return localStorage.getItem(memory); } catch { return null; } // a browser may forbid it
}

function remember(id) {
  try { localStorage.setItem(memory, id); } catch { /* then it is asked anew next time */ }
}

function choose(id) {
  const chosen = data.units.find(u => u.id === id);
  if (!chosen || chosen === unit) return;
  unit = chosen;
  rewrite();
  redraw();
}

const wanted = remembered();
if (wanted !== unit.id && data.units.some(u => u.id === wanted)) {
  unit = data.units.find(u => u.id === wanted);
  rewrite();
}

for (const box of document.querySelectorAll('.switch')) {
  box.hidden = false;
  box.addEventListener('change', event => {
    if (box.dataset.switch === 'unit') { choose(event.target.value); remember(event.target.value); }
    else { days = Number(event.target.value); redraw(); }
  });
}
for (const input of document.getElementsByName('unit')) input.checked = input.value === unit.id;
days = Number(document.querySelector('[name=window]:checked')?.value || 0);

for (const details of document.querySelectorAll('[data-path]')) details.addEventListener('toggle', () => { if (details.open) tabulate(details); });
for (const el of document.querySelectorAll('.chart')) walk(el);
watch();

// a long table is laid out while nobody waits for anything, so that to reach it is no halt
const long = document.querySelector('.scroll.long');
if (long && window.requestIdleCallback) {
  requestIdleCallback(() => {
    long.style.contentVisibility = 'visible';
    long.getBoundingClientRect();
    long.style.contentVisibility = '';
  });
}

matchMedia('(prefers-color-scheme: dark)').addEventListener('change', redraw);
addEventListener('beforeprint', toPaper);
addEventListener('afterprint', toScreen);
