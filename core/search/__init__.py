"""Finding routes: the cheapest ways to the goal from what is for sale and what I own.

`core.search.find.find(plan)` is a generator of `Found` (`core.search.found`): what it has so far, each better than the
one before; whoever stops asking keeps the last. `found.proposals` are whole routes with their results, the cheapest
first; `found.frontier` is the trade of money against seasons and chance; `found.floor` is what was proven: no route of
the space that was left out needs less money than this. `best_routes(found)` are the bare routes, for who compares.

The space (`space.py`, with `founders.py` and `holding.py`): buying outright; a male, or two alike, with females of one
or two kinds; the same, then buying; daughters back to the sire, or to a second bought male; a son and daughters
together; a son taking over from his sire. Who is bought comes when the mate is grown. Tried on top, with no claim to
have found the best of them: three generations (`deep.py`), daughters and then granddaughters each to the sire, to
brothers or to a second male; and, of what is told, dams that stay until their young are grown. Animals alike in
everything the goal can see are one kind, the cheapest of which stands for it; routes with the same animals in the same
way are one recipe, of which the cheapest is told, where fewer of these animals bred straight together are not as cheap
and as soon.
"""
