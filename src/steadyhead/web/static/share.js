// Handing over: a file goes to the phone's own share sheet where there is one, a page to the browser's own printing, and a
// sync goes on by itself. Everything works without this file: the file is a link, the browser prints from its menu, going on
// is a button. It holds no words.
(() => {
  "use strict";
  const made = new WeakMap(); // the file of a button, kept for a second tap: sharing must follow a tap within seconds

  const place = (button) => button.form ?? button.closest("[data-hands]"); // a paper is in no form: sharing it notes nothing
  const link = (button) => place(button).querySelector("a[data-file]"); // the same file, to be saved

  async function file(button) {
    if (!made.has(button)) {
      const address = new URL(link(button).href);
      address.searchParams.set("for", "share");
      const answer = await fetch(address);
      if (!answer.ok) throw new Error(String(answer.status));
      const type = answer.headers.get("content-type") ?? "";
      made.set(button, new File([await answer.blob()], button.dataset.name, { type }));
    }
    return made.get(button);
  }

  async function share(button) {
    const failed = place(button).querySelector("[data-share-failed]");
    failed.hidden = true;
    button.setAttribute("aria-busy", "true");
    try {
      await navigator.share({ files: [await file(button)], title: button.dataset.name });
      button.form?.requestSubmit(); // notes that it was handed over
    } catch (error) {
      if (error.name !== "AbortError") failed.hidden = false; // AbortError: the person changed their mind
    } finally {
      button.removeAttribute("aria-busy");
    }
  }

  const takes = (button) => {
    const empty = new File([""], button.dataset.name, { type: button.dataset.type });
    try { return Boolean(navigator.canShare?.({ files: [empty] })); } catch { return false; }
  };

  function ready() {
    for (const button of document.querySelectorAll("button[data-share]")) {
      button.hidden = !takes(button);
      if (!button.hidden) link(button).classList.add("quiet");
    }
    for (const button of document.querySelectorAll("button[data-print]")) button.hidden = !window.print; // inside another app it may print nothing
    const on = document.querySelector("form[data-go-on]");
    if (on) setTimeout(() => on.isConnected && on.requestSubmit(), 150);
  }

  document.addEventListener("click", (event) => {
    const button = event.target.closest("button[data-share]");
    if (button) { event.preventDefault(); share(button); }
    if (event.target.closest("button[data-print]")) window.print(); // this page alone, also where it stands in a frame
  });
  document.addEventListener("htmx:after:swap", ready);
  ready();
})();
