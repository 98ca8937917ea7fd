"""Routes and their answers: the season calendar, exact answers, simulation, the evaluation."""
