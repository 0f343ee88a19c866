"""Use cases: what is put on paper, made of a visit as it stands: reports, a card, a tag, a certificate."""
