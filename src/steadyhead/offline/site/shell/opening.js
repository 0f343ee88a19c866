// Sees to it that a page of the app stands in the frame. It may not: what was asked for is a file, which is saved and never
// shown; the service worker found nobody to ask (sw.js marks what it says then); or the browser shows its own words for a
// failure. Then a page is asked for again: twice the one of the address bar, after that the app's first.
import { base, inside } from "./place.js";

const LOOK_MS = 5000, AGAIN_MS = 500, SAME = 2, MOST = 4;

// Opens pages in a frame. `idle` tells whether the engine has nothing to do; `came` is called whenever a page stands there,
// `away` where it is asked for again, `lost` where that was of no use.
export function opener(frame, { idle, came, away, lost }) {
  let asked = false, misses = 0, timer = 0;

  function open(where) {
    asked = false;
    frame.src = where;
    timer = setTimeout(look, LOOK_MS);
  }

  function look() { // a picture may be missing: the page is there all the same
    if (stands(frame)) here();
    else if (idle()) again();
    else timer = setTimeout(look, LOOK_MS);
  }

  function here() {
    end();
    asked = false;
    misses = 0;
    came();
  }

  function again() {
    end();
    misses += 1;
    if (misses > MOST) return lost();
    away();
    timer = setTimeout(open, AGAIN_MS, misses > SAME ? base.href : inside(location.hash));
  }

  function end() {
    clearTimeout(timer);
  }

  return {
    open,
    end,
    asks() { asked = true; },
    // Some browsers show a paper by a page of their own, which cannot be looked into: the app was asked for it.
    loaded() { if (stands(frame) || (asked && !frame.contentDocument)) here(); else again(); },
  };
}

export function stands({ contentDocument: shown }) {
  return Boolean(shown?.location?.href.startsWith(base.href)) && shown.readyState !== "loading" && !shown.getElementById("not-here");
}
