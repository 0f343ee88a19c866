// Where this site stands: at the root of an address or in any folder of it. Two sites at one address share nothing.
export const base = new URL("../", import.meta.url);

export const named = (what) => `steadyhead-${what}${base.pathname}`;

// The address bar holds the app's address behind a #, so that whatever is reloaded there asks a web server for the one page
// that it has: "#/visits/1?x=2" is visits/1?x=2 in this site's folder.
export function inside(hash) {
  const address = new URL(`.${hash.slice(1) || "/"}`, base);
  return address.href.startsWith(base.href) ? address.href : base.href;
}

export function outside({ pathname, search }) {
  return `#/${pathname.slice(base.pathname.length)}${search}`;
}
