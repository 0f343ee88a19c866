// What the pages do besides being pages: the keypad, the band while typing, and that nothing typed is lost.
// Everything works without this file: a link is a link, a form is a form. It holds no words and no sums of the trade.
(() => {
  "use strict";
  const drafts = window.sessionStorage;
  document.documentElement.classList.add("scripts");

  // A form has one field for a figure, or several: the keypad types into the one that was touched last.
  const fields = (form) => [...form.querySelectorAll("input[data-figure]")];
  let touched = null;
  const field = (form) => fields(form).includes(touched) ? touched : fields(form)[0];
  const draft = (form, said) => form.dataset.draft && form.dataset.draft + (said.name === "said" ? "" : "." + said.name);

  // ---- what is typed is kept until it is sent and kept on the other side
  function remember(form) {
    for (const said of fields(form)) {
      if (!form.dataset.draft) return;
      try {
        if (said.value) drafts.setItem(draft(form, said), said.value);
        else drafts.removeItem(draft(form, said));
      } catch { /* a browser that keeps nothing: the field still holds it */ }
    }
  }

  function restore(form) {
    for (const said of fields(form)) {
      if (!form.dataset.draft || said.value) continue;
      try { said.value = drafts.getItem(draft(form, said)) ?? ""; } catch { /* as above */ }
    }
  }

  function forget(form) {
    for (const said of fields(form)) {
      try { if (form.dataset.draft) drafts.removeItem(draft(form, said)); } catch { /* as above */ }
    }
  }

  // ---- the healthy band, while typing
  const FACTOR = { mV: 1e-3, kohm: 1e3, Mohm: 1e6 };

  function show(form) {
    const place = form.querySelector(".place");
    if (!place) return;
    const low = Number(form.dataset.low), high = Number(form.dataset.high);
    const unit = form.querySelector("input[name=unit]:checked")?.value ?? "";
    const text = field(form).value.replace(/[−]/g, "-").replace(",", ".").trim();
    const factor = FACTOR[unit] ?? (unit && unit !== form.dataset.unit ? NaN : 1);
    const figure = /^[-+]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) * factor : NaN;
    const state = Number.isNaN(figure) ? "" : figure < low ? "below" : figure > high ? "above" : "within";
    form.dataset.state = state;
    place.textContent = state && (place.dataset[state] ?? "");
    mark(form.querySelector(".band"), figure, low, high);
  }

  function mark(band, figure, low, high) {
    if (!band) return;
    band.querySelector(".typed")?.remove();
    const box = band.querySelector(".range");
    if (Number.isNaN(figure) || !box) return;
    const left = Number(box.getAttribute("x")), wide = Number(box.getAttribute("width"));
    const x = Math.min(101, Math.max(3, left + wide * (figure - low) / (high - low || 1)));
    const line = document.createElementNS("http://www.w3.org/2000/svg", "line");
    for (const [name, value] of Object.entries({ class: "mark typed", x1: x, x2: x, y1: 3, y2: 23 })) line.setAttribute(name, value);
    band.append(line);
  }

  // ---- the keypad
  function press(key) {
    const said = field(key.form);
    if (key.dataset.back) said.value = said.value.replace(/( to |.)$/, "");
    else if (key.dataset.whole) said.value = key.dataset.text;
    else if (key.dataset.text === "-") said.value = said.value.startsWith("-") ? said.value.slice(1) : "-" + said.value;
    else said.value += key.dataset.text;
    said.dispatchEvent(new Event("input", { bubbles: true }));
  }

  // ---- the app that does not answer
  const lost = (is) => { const banner = document.getElementById("lost"); if (banner) banner.hidden = !is; };

  function ready() {
    for (const form of document.querySelectorAll("form.reading")) {
      restore(form);
      show(form);
      if (window.matchMedia("(pointer: coarse)").matches) for (const said of fields(form)) said.inputMode = "none";
    }
  }

  document.addEventListener("click", (event) => {
    const key = event.target.closest(".key");
    if (!key) return;
    event.preventDefault();
    press(key);
  }, true);
  document.addEventListener("focusin", (event) => {
    if (event.target.matches("input[data-figure]")) touched = event.target;
  });
  document.addEventListener("input", (event) => {
    const form = event.target.closest("form.reading");
    if (form) { remember(form); show(form); }
  });
  document.addEventListener("change", (event) => {
    const form = event.target.closest("form.reading");
    if (form) show(form);
  });
  // A form that is under way is not sent again until there is an answer.
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.dataset.sent) { event.preventDefault(); event.stopImmediatePropagation(); return; }
    form.dataset.sent = "yes";
    form.setAttribute("aria-busy", "true");
  }, true);
  const answered = (event) => {
    const form = event.detail?.ctx?.sourceElement;
    if (form?.dataset) { delete form.dataset.sent; form.removeAttribute("aria-busy"); }
  };
  document.addEventListener("htmx:error", () => lost(true));
  document.addEventListener("htmx:finally:request", answered);
  document.addEventListener("htmx:after:request", (event) => {
    lost(false);
    const { sourceElement: from, response } = event.detail.ctx;
    if (from?.matches?.("form.reading") && response.status < 400) forget(from);
  });
  document.addEventListener("htmx:after:swap", () => {
    ready();
    document.getElementById("main")?.focus({ preventScroll: true });
  });
  // A code that came with the address, behind the # that no server sees.
  const code = document.querySelector("input[data-from-address]");
  if (code && /^#\d{4,12}$/.test(location.hash)) {
    code.value = location.hash.slice(1);
    history.replaceState(null, "", location.pathname);
  }
  window.addEventListener("pageshow", (event) => { if (event.persisted) window.location.reload(); });
  ready();
})();
