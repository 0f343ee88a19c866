"""What each page shows, worked out before its template lays it out: frozen values of ready words and figures."""
