# SPDX-License-Identifier: GPL-3.0-or-later
"""Friction under a load, by what it runs on, the deck's surface and state.

The project's own values (no federal table), typed in by hand from the
written list; a move that says nothing of its deck has a wet one [A30].
"""

STATES = ("dry", "wet", "frost")
NOT_GIVEN = "wet"
ROLLING = 0.02              # lengthwise, a wheel nobody brakes or chocks
MAT = 0.5                   # 49 CFR 393.108(g) (read): of the weight on it

_RUBBER = {"wood": (0.30, 0.30, 0.10), "steel": (0.30, 0.30, 0.10),
           "aluminum": (0.30, 0.30, 0.10), "rubber_mat": (0.50, 0.30, 0.10)}
TABLE = {
    "rubber_tires": _RUBBER,
    "rubber_tracks": _RUBBER,
    "steel_tracks": {"wood": (0.30, 0.25, 0.10), "steel": (0.15, 0.12, 0.05),
                     "aluminum": (0.15, 0.12, 0.05),
                     "rubber_mat": (0.50, 0.25, 0.10)},
    "steel_drum": {"wood": (0.25, 0.20, 0.10), "steel": (0.12, 0.10, 0.05),
                   "aluminum": (0.12, 0.10, 0.05),
                   "rubber_mat": (0.50, 0.20, 0.10)},
}


def state_of(move):
    """The deck's state, the cautious one where the move gives none."""
    return move.get("deck_state") or NOT_GIVEN


def of_deck(running_gear, surface, state):
    """The table's value; the least for the state where either is not
    known."""
    column = STATES.index(state)
    rows = [TABLE[running_gear]] if running_gear in TABLE \
        else list(TABLE.values())
    return min(cells[column] for row in rows for name, cells in row.items()
               if surface not in TABLE["steel_drum"] or name == surface)


def under(load, trailer, running_gear, state):
    """Across the trailer, for one running gear under a load [A31]."""
    mat = load.choice.get("mat")
    if mat is not None:
        mu = mat.get("mu")
        return MAT if mu is None else float(mu)
    zone = load.zone or {}
    surface = zone.get("surface", trailer["deck"].get("surface"))
    return of_deck(running_gear, surface, state)


def gear_of(load, contact):
    """What a contact runs on."""
    return contact.get("running_gear", load.record.get("running_gear"))


def rolls_freely(load, contact):
    """A wheel or drum without brake or chock; a track only where somebody
    says that it is not braked."""
    if load.choice.get("chocked"):
        return False
    track = gear_of(load, contact) in ("rubber_tracks", "steel_tracks")
    return contact.get("braked", track) is not True


def along_and_across(load, trailer, contact, state):
    """(lengthwise, sideways) of one contact."""
    if state is None:
        return 0.0, 0.0
    across = under(load, trailer, gear_of(load, contact), state)
    return (min(across, ROLLING) if rolls_freely(load, contact)
            else across), across


def least(load, trailer, case, state):
    """The least of its contacts in the direction of a case, None where it
    has none [A35]."""
    contacts = load.record.get("contacts") or []
    aside = case in ("left", "right")
    return min((along_and_across(load, trailer, c, state)[aside]
                for c in contacts), default=None)
