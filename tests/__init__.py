"""The tests of Steadyhead: a folder for each package, and `ground` for the checkout itself."""
