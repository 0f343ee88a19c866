// What the browser's own print menu prints: the page that the frame shows, whole and on its own sheet, and not one screen of
// the page that stays. For as long as it prints, a copy of the frame's page stands here, with its styles for print alone.
// The browser waits for nothing then: typefaces and a paper's pictures are loaded once the page is shown.
const place = document.getElementById("printed"), marks = document.body.dataset;
const PICTURES = ".paper img";
const faces = new Map(); // by what makes each, so that one is loaded once
let held = []; // the pictures of the paper that is shown

const rulesOf = (shown) => [...shown.styleSheets].flatMap((sheet) => [...sheet.cssRules]);
const isFace = (rule) => rule.constructor.name === "CSSFontFaceRule"; // the frame has classes of its own

// Makes ready what a print of this page cannot wait for.
export function readyToPrint(shown) {
  if (!shown) return; // a page of the browser's own
  held = [...shown.querySelectorAll(PICTURES)].map((each) => document.importNode(each));
  for (const rule of rulesOf(shown).filter(isFace)) {
    const { style, parentStyleSheet: sheet } = rule;
    const of = (name) => style.getPropertyValue(name);
    const made = of("src").replace(/url\("?([^")]*)"?\)/g, (_, path) => `url("${new URL(path, sheet.href ?? shown.baseURI)}")`);
    if (faces.has(made)) continue;
    const face = new FontFace(of("font-family").replaceAll('"', ""), made, { weight: of("font-weight") });
    faces.set(made, face);
    document.fonts.add(face);
    face.load().catch(() => {}); // another typeface stands in, as in the frame itself
  }
}

// Lets a print be of the page that `shown` returns; where there is none, it is of what the page that stays says itself.
export function printing(shown) {
  addEventListener("beforeprint", () => {
    const page = shown(), main = page?.getElementById("main");
    if (!main) return;
    const copy = document.importNode(main, true), style = new CSSStyleSheet();
    for (const each of copy.querySelectorAll("script, iframe")) each.remove();
    copy.querySelectorAll(PICTURES).forEach((each, at) => each.replaceWith(held[at] ?? each));
    style.replaceSync(`@media print { ${rulesOf(page).filter((rule) => !isFace(rule)).map((rule) => rule.cssText).join("\n")} }`);
    document.adoptedStyleSheets = [style];
    place.lang = page.documentElement.lang;
    place.replaceChildren(...copy.childNodes);
    marks.printing = "yes";
  });
  addEventListener("afterprint", () => {
    delete marks.printing;
    place.replaceChildren();
    document.adoptedStyleSheets = [];
  });
}
