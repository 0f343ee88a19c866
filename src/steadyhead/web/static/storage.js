// What this browser keeps, and how much room it grants: it alone knows. The words stand in the page; without this file,
// or where a browser does not tell, the page says so. Nothing is asked of a person but by their own tap.
(() => {
  "use strict";
  const store = navigator.storage;
  const UNITS = ["B", "kB", "MB", "GB", "TB"], STEP = 1000; // as steadyhead.web.views.room says bytes
  const SILENT_MS = 8000; // some browsers ask the person, some never answer
  const part = (name) => document.querySelector(`[data-kept="${name}"]`);

  function said(bytes, decimal) {
    let figure = bytes, unit = 0;
    while (Math.round(figure) >= STEP && unit < UNITS.length - 1) { figure /= STEP; unit += 1; }
    const digits = unit > 0 && figure < 9.95 ? 1 : 0;
    return `${figure.toFixed(digits).replace(".", decimal)} ${UNITS[unit]}`;
  }

  async function left() { // bytes that this browser says it would still take; NaN where it says nothing
    try {
      const { quota, usage } = await store.estimate();
      return Math.max(0, quota - usage);
    } catch { return NaN; }
  }

  // ---- the page of what is kept
  async function room() {
    const line = part("room");
    if (!line) return;
    const bytes = await left();
    line.textContent = Number.isNaN(bytes) ? line.dataset.none : line.dataset.says.replace("#", said(bytes, line.dataset.decimal));
    line.hidden = false;
  }

  async function promise() {
    const line = part("promise"), ask = part("ask");
    if (!line) return;
    if (!store?.persisted || !store.persist) { line.textContent = line.dataset.unknown; return; }
    const kept = await store.persisted();
    line.textContent = kept ? line.dataset.yes : line.dataset.no;
    ask.hidden = kept;
    ask.onclick = async () => {
      const waiting = setTimeout(() => { line.textContent = line.dataset.silent; }, SILENT_MS);
      const granted = await store.persist().catch(() => false);
      clearTimeout(waiting);
      line.textContent = granted ? line.dataset.yes : line.dataset.refused;
      ask.hidden = granted;
    };
  }

  // The page may stand in a frame of the shell: whether it was installed the whole window says.
  function installed() {
    const mode = (name) => window.top.matchMedia(`(display-mode: ${name})`).matches;
    return ["standalone", "fullscreen", "minimal-ui"].some(mode) || window.top.navigator.standalone === true;
  }

  function install() {
    if (!part("install")) return;
    const is = installed();
    part("installed").hidden = !is;
    part("install").hidden = is;
    // Every browser on an iPhone, and the one of a Mac, erases what a page wrote once it was not opened for seven days.
    part("idle").hidden = is || !/^Apple/.test(navigator.vendor);
  }

  // ---- photos that still fit
  async function photos() {
    for (const line of document.querySelectorAll("[data-photo-bytes]")) {
      const bytes = await left();
      if (Number.isNaN(bytes)) continue;
      const { photoBytes, reserve, few, many, saysNone, saysFew, saysSome, saysMany } = line.dataset;
      const count = Math.floor(Math.max(0, bytes - Number(reserve)) / Number(photoBytes));
      const says = count <= 0 ? saysNone : count < Number(few) ? saysFew : count <= Number(many) ? saysSome : saysMany;
      line.textContent = says.replace("#", String(count));
      line.className = count < Number(few) ? "wrong" : "soft";
      line.hidden = false;
    }
  }

  const ready = () => { room(); promise(); install(); photos(); };
  document.addEventListener("htmx:after:swap", ready);
  ready();
})();
