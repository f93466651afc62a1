"""From a line to its exact build: plan, target, options, search, drink, toppings, steps; or why not."""
