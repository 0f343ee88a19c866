"""The app in a phone's browser, with nobody serving it: Python, the record and the pages run in the browser itself."""
