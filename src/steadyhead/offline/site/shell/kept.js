// The page that was shown last, as it was shown: readable at once at the next start, while Python wakes. It is marked as
// such by words, none of its scripts run, and what is tapped in it waits: a link is followed once the app is awake; a form
// is not sent, or it might be sent twice: it can be tapped again then.
import { base, inside, named, outside } from "./place.js";

const SHOWN = named("shown"), PAGE = new URL("as-it-was", base), ADDRESS = "x-address";
const POLICY = "default-src 'none'; style-src 'self'; font-src 'self'; form-action 'none'; base-uri 'none'";
const LEFT_OUT = "script, iframe, link:not([rel=stylesheet]), meta[http-equiv]";
const FIELDS = "button, input, select, textarea, label";
const frame = document.getElementById("kept"), marks = document.body.dataset;
let wanted = null;

// Keeps a page of the app; anything else that the frame shows (a picture, a paper) is not kept.
export async function keep(shown) {
  if (shown?.contentType !== "text/html" || !shown.getElementById("main")) return;
  const copy = shown.documentElement.cloneNode(true);
  for (const each of copy.querySelectorAll(LEFT_OUT)) each.remove();
  for (const each of copy.querySelectorAll("img")) each.removeAttribute("src"); // its words stay
  const headers = { "content-type": "text/html; charset=utf-8", "content-security-policy": POLICY, [ADDRESS]: outside(shown.location) };
  await (await caches.open(SHOWN)).put(PAGE, new Response(`<!doctype html>${copy.outerHTML}`, { headers }));
}

// Shows the kept page, where it is the one that is asked for; `hash` is the address bar's, empty where nothing was named.
export async function showKept(hash) {
  const found = navigator.serviceWorker.controller && await (await caches.open(SHOWN)).match(PAGE);
  const address = found?.headers.get(ADDRESS);
  if (!address || (hash && hash !== address)) return;
  wanted = inside(address);
  frame.addEventListener("load", () => {
    if (!frame.contentDocument) return hide(); // the browser's own words for a failure
    frame.contentDocument.addEventListener("click", tapped, true);
    performance.mark("kept-shown");
  }, { once: true });
  frame.src = PAGE;
  marks.kept = "shown";
}

function tapped(event) {
  const link = event.target.closest("a[href]"), field = event.target.closest(FIELDS);
  if (link?.getAttribute("href").startsWith("#") || !(link || field)) return;
  event.preventDefault();
  marks.queued = link ? "link" : "form";
  if (link) wanted = link.href;
}

// Where the app goes once it is awake: where a tap on the kept page leads, else where that page is.
export const next = (hash) => wanted ?? inside(hash);

// Gives way to the app's own page, at the place to which the kept one was moved.
export function giveWay(app) {
  if (!marks.kept) return;
  const at = marks.queued ? 0 : frame.contentDocument?.defaultView.scrollY ?? 0;
  hide();
  if (at) app.contentDocument?.defaultView.scrollTo(0, at);
}

function hide() {
  wanted = null;
  delete marks.kept;
  delete marks.queued;
  frame.removeAttribute("src");
}
