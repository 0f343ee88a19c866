// A report of a problem leaves this device by the person's own hand: shared, copied, or saved as a file. Never by itself.
(() => {
  "use strict";
  const text = () => document.querySelector("pre.report").textContent;
  const form = () => document.querySelector("form[data-report]");
  const file = () => new File([text()], form().dataset.report, { type: "text/plain" });

  function ready() {
    if (!form()) return;
    const share = form().querySelector("[data-share-report]"), copy = form().querySelector("[data-copy]");
    const files = Boolean(navigator.canShare?.({ files: [file()] }));
    share.hidden = !navigator.share;
    share.onclick = () => navigator.share(files ? { files: [file()] } : { text: text() }).catch(() => {}); // put off
    copy.hidden = !navigator.clipboard?.writeText;
    copy.onclick = async () => {
      await navigator.clipboard.writeText(text());
      copy.textContent = copy.dataset.done;
    };
    form().onsubmit = () => { setTimeout(() => { delete form()?.dataset.sent; form()?.removeAttribute("aria-busy"); }); };
  }

  document.addEventListener("htmx:after:swap", ready);
  ready();
})();
