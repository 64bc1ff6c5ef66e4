"""How well the advice does: simulated sets on a simulated bench. It never reaches the browser."""
