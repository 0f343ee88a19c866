"""Makes the site that a phone keeps: a laptop's work, with Node.js; nothing of it goes into the site."""
