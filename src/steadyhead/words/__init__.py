"""Messages to sentences, in a language, a region and a panel's own labels."""
