"""What is put on paper, described once: reports, cards, tags, certificates; and set as HTML."""
