// The screen stays on during a measurement: on the person's tap, until they tap again or leave the pages that measure.
// A browser lets go by itself where its page is hidden; then it is asked anew. Where a browser cannot, no button is shown.
(() => {
  "use strict";
  if (!navigator.wakeLock) return;
  let wanted = false, lock = null;
  const button = () => document.querySelector("[data-awake]");

  function show(says) {
    const found = button();
    if (!found) return;
    found.hidden = false;
    found.setAttribute("aria-pressed", String(wanted));
    found.textContent = found.dataset[says ?? (wanted ? "on" : "off")];
  }

  function gone() { // let go by the browser: a hidden page gets it back when it is seen again, a low battery does not
    lock = null;
    if (!wanted || document.visibilityState !== "visible") return;
    wanted = false;
    show("refused");
  }

  async function hold() {
    if (!wanted || lock || document.visibilityState !== "visible") return;
    try {
      const held = await navigator.wakeLock.request("screen");
      if (!wanted) { held.release(); return; } // tapped again, or left, in the meantime
      lock = held;
      lock.addEventListener("release", gone, { once: true });
      show();
    } catch {
      wanted = false;
      show("refused");
    }
  }

  function letGo() {
    wanted = false;
    lock?.release();
    show();
  }

  document.addEventListener("click", (event) => {
    if (!event.target.closest("[data-awake]")) return;
    if (wanted) { letGo(); return; }
    wanted = true;
    hold();
  });
  document.addEventListener("visibilitychange", hold);
  document.addEventListener("htmx:after:swap", () => { if (button()) show(); else letGo(); });
  show();
})();
