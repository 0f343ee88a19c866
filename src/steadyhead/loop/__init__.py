"""The sensing loop as a DC circuit: sensor, cable, controller, meter, arrangement, faults."""
