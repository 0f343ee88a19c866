// A short buzz tells a hand that a reading was kept, two longer ones that it lies outside what would be healthy.
// Only after the person's own tap, never where the settings say no or where the person wants nothing to move.
(() => {
  "use strict";
  const KEPT = 40, OUTSIDE = [120, 80, 120]; // ms: on, off, on
  const wanted = () => document.getElementById("main")?.dataset.buzz === "on"
    && !window.matchMedia("(prefers-reduced-motion: reduce)").matches;

  document.addEventListener("htmx:after:request", (event) => {
    const { sourceElement: form, response } = event.detail.ctx;
    if (!form?.matches?.("form.reading") || response.status >= 400 || !wanted()) return;
    navigator.vibrate?.(["below", "above"].includes(form.dataset.state) ? OUTSIDE : KEPT);
  });
})();
