// A photo is turned upright and made small before it is sent, with a preview for lists beside it. What a browser cannot
// draw goes as it is: the app says what it makes of it. What is too large to be kept is told before it is sent.
(() => {
  "use strict";
  const LONGEST_SIDE = 2048, QUALITY = 0.85, PREVIEW_SIDE = 320, PREVIEW_QUALITY = 0.7;
  const MB = 1e6;

  async function drawn(bitmap, longest, quality) {
    const scale = Math.min(1, longest / Math.max(bitmap.width, bitmap.height));
    const canvas = document.createElement("canvas");
    canvas.width = Math.max(1, Math.round(bitmap.width * scale));
    canvas.height = Math.max(1, Math.round(bitmap.height * scale));
    canvas.getContext("2d").drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg", quality));
    return blob && new File([blob], "photo.jpg", { type: "image/jpeg" });
  }

  function hold(input, file) {
    if (!input || !file) return;
    const held = new DataTransfer();
    held.items.add(file);
    input.files = held.files;
  }

  async function shrink(input) {
    const form = input.form, preview = form.querySelector("input[data-preview]");
    const bitmap = await createImageBitmap(input.files[0], { imageOrientation: "from-image" });
    hold(input, await drawn(bitmap, LONGEST_SIDE, QUALITY));
    hold(preview, await drawn(bitmap, PREVIEW_SIDE, PREVIEW_QUALITY));
    bitmap.close();
  }

  async function send(input) {
    const form = input.form, told = form.querySelector("[data-too-large]");
    if (!input.files.length) return;
    for (const other of form.querySelectorAll("input[type=file]")) if (other !== input) other.value = "";
    try { await shrink(input); } catch { /* not a picture that this browser draws */ }
    const { size } = input.files[0];
    const large = size > Number(told.dataset.most);
    told.hidden = !large;
    if (!large) { form.requestSubmit(); return; }
    told.textContent = told.dataset.tooLarge.replace("#", `${Math.ceil(size / MB)} MB`);
    input.value = "";
  }

  document.addEventListener("change", (event) => {
    if (event.target.matches("input[data-shrink]")) send(event.target);
  });
})();
