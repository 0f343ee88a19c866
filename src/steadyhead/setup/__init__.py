"""The set-up sheet: one module for each decision on it. It begins with the sensor that is fitted from the van."""
