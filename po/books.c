/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The texts that rule books have printed, for xgettext, which does not read JSON. Nothing compiles this file.
 * Made from data/rules/ by tests/lint/lint.py --write-potfiles, and kept true by a lint: edit the book instead. */

/* cautions of us-49cfr393.json: local_rules */
N_("State and local rules, permits and the route come first; this sheet does not replace them.")

/* cautions of us-49cfr393.json: manuals */
N_("Follow the manuals of the machine, trailer, truck and gear where they ask for more or forbid something.")

/* cautions of us-49cfr393.json: competent_person */
N_("A competent person at the truck decides, and stops the move when in doubt.")

/* cautions of us-49cfr393.json: void */
N_("Void when anything on it is changed but for like or stronger gear written in and initialed.")

/* cautions of us-49cfr393.json: ratings */
N_("Ratings are for gear in good order: look at every link, hook, binder and anchor before use.")

/* cautions of us-49cfr393.json: loading */
N_("Level ground, brakes set, nobody in the path or on the ramps while loading and unloading.")

/* cautions of us-49cfr393.json: no_handle_extension */
N_("No pipe on a binder handle; keep out of its swing.")

/* walk_round of us-49cfr393.json: deck_swept */
N_("Deck swept of rock, mud and ice")

/* walk_round of us-49cfr393.json: parking_brake */
N_("Machine's parking brake set, transmission as its manual says, engine off, key out")

/* walk_round of us-49cfr393.json: hooks_seated */
N_("Every hook seated and unable to fall out when its chain goes slack")

/* walk_round of us-49cfr393.json: chains_tight */
N_("Every chain and strap tight, none twisted or knotted")

/* walk_round of us-49cfr393.json: handles_down */
N_("Binder handles turned down to the deck and tied")

/* walk_round of us-49cfr393.json: tails_wrapped */
N_("Loose chain wrapped and tied")

/* walk_round of us-49cfr393.json: clear_of_lines */
N_("No chain over hoses, brake lines, cylinder rods or tires")

/* walk_round of us-49cfr393.json: edges */
N_("Edges padded where a chain or strap bears on them")

/* walk_round of us-49cfr393.json: loose_things */
N_("Nothing loose on machine or deck: tools, spare gear, doors, attachments")

/* walk_round of us-49cfr393.json: ramps */
N_("Ramps up and latched, tilt bed locked")

/* walk_round of us-49cfr393.json: coupling */
N_("Coupling closed and pinned, safety chains, brake line and lights connected")

/* walk_round of us-49cfr393.json: height_measured */
N_("Height measured at the highest point")
