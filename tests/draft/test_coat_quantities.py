"""Every quantity and every check of a dozen coats, worked out once more from pieces, points and marks with NumPy, SciPy
and Shapely. A quantity or check that is worked out nowhere fails test_nothing_is_left_out."""
import numpy as np
import pytest
from shapely.geometry import LineString, Point

import curves
import drafted

everyone = pytest.mark.parametrize("name", drafted.ORDERS)
FAR = 5000


def p(coat, text):
    """A point, "PIECE POINT"."""
    return coat.point(*text.split())


def apart(a, b):
    return np.hypot(*(np.asarray(b) - a))


def angle(a, b):
    """Unsigned angle between two directions, deg."""
    return np.degrees(np.arccos(np.clip(a @ b / np.hypot(*a) / np.hypot(*b), -1, 1)))


def cut(path, level):
    """x of all meetings of a path with a level, ascending."""
    met = curves.line(path, 4096).intersection(LineString([(-FAR, level), (FAR, level)]))
    return sorted(x for part in getattr(met, "geoms", [met]) for x, _ in part.coords)


def waist(coat):
    return p(coat, "forepart centre_front_waist")[1]


def dart(coat):
    marks = coat.pieces["forepart"].marks
    return np.ptp(cut(marks["dart"], waist(coat))) if "dart" in marks else 0


def scye_level_measured(coat):
    """The scye line without what a strong arm deepens it."""
    return -(coat.fields["scye_depth"] + coat.fields["scye_drop"])


def over_shoulder(coat):
    level = scye_level_measured(coat)
    behind, before = (curves.at(coat.edge(piece, "shoulder")[0], [0.5])[0] for piece in ("back", "forepart"))
    centre = (coat.constants["centre_back_at_scye"], level)
    return apart(centre, behind) + apart(before, (p(coat, "forepart scye_front")[0], level))


def front_shoulder(coat):
    front = (p(coat, "forepart scye_front")[0], scye_level_measured(coat))
    return apart(p(coat, "back nape"), p(coat, "back neck_point")) + apart(p(coat, "forepart neck_point"), front)


def buttons(coat):
    """Middles of the front buttons, from the top."""
    marks = coat.pieces["forepart"].marks
    names = sorted(name for name in marks if name.startswith("button_"))
    return [curves.points(marks[name], 8)[:-1].mean(axis=0) for name in names]


def rolls(coat):
    return 3 <= coat.fields["buttoning"] <= 5


def wrapped(coat):
    """Is it double-breasted?"""
    return coat.fields["buttoning"] >= 6


def holes(coat):
    """(eye, inner end) of the holes, from the top."""
    marks = coat.pieces["forepart"].marks
    return [(marks[name][0][0], marks[name][-1][3]) for name in sorted(name for name in marks if name[:5] == "hole_")]


def face(coat, hole):
    """Worked side: given, or in for the top hole of a front that rolls by make or cut, else out; nan without a hole."""
    if hole > len(holes(coat)):
        return np.nan
    given = coat.fields[f"hole_face_{hole}"]
    return given if given == given else 2 if hole == 1 and coat.fields["buttoning"] in (4, 5) else 1


def waist_break(coat):
    """Break point of a lapel that has rolled through to the waist button."""
    y = p(coat, "forepart waist_button")[1] + coat.fields["break_rise"]
    drawn = p(coat, "forepart break_point")
    return drawn if y >= drawn[1] - 1e-6 else np.array((max(cut(coat.edge("forepart", "front_edge"), y)), y))


def beyond(coat, low, point):
    """How far in front of the break line from `low` to the stand point."""
    up = p(coat, "forepart stand_point") - low
    return (up[1] * (point[0] - low[0]) - up[0] * (point[1] - low[1])) / np.hypot(*up)


def shows(coat, hole, low):
    if not face(coat, hole) >= 1:
        return np.nan
    eye = holes(coat)[hole - 1][0]
    seen = 2 if eye[1] > low[1] and beyond(coat, low, eye) > 0 else 1
    return 1 if face(coat, hole) in (3, seen) else 2


def bar(coat):
    """Eye and inner end of a hole worked on both sides that lies on the lapel rolled through; None without one."""
    found = None
    for hole, (eye, inner) in enumerate(holes(coat), 1):
        low = waist_break(coat)
        if rolls(coat) and face(coat, hole) == 3 and eye[1] > low[1] and beyond(coat, low, eye) > 0:
            found = eye, inner
    return found


def bar_length(coat):
    if bar(coat) is None:
        return np.nan
    eye, inner = bar(coat)
    up = p(coat, "forepart stand_point") - waist_break(coat)
    return abs((eye - inner) @ up) / np.hypot(*up)


def bar_from_break(coat):
    return np.nan if bar(coat) is None else beyond(coat, p(coat, "forepart break_point"), sum(bar(coat)) / 2)


def edge_at_waist_button(coat):
    return max(cut(coat.edge("forepart", "front_edge"), p(coat, "forepart waist_button")[1]))


def hole_from_edge(coat):
    level = p(coat, "forepart waist_button")[1]
    (eye,) = [eye for eye, _ in holes(coat) if abs(eye[1] - level) < 1e-6]
    return edge_at_waist_button(coat) - eye[0]


def bridle(coat):
    """The stretch of the break line that the bridle holds: behind it, from the neck seam to above the break point."""
    stand, low = p(coat, "forepart stand_point"), p(coat, "forepart break_point")
    up = (stand - low) / np.hypot(*(stand - low))
    behind = np.array((-up[1], up[0]))
    start = low + coat.constants["bridle_above_break"] * up + coat.constants["bridle_inside"] * behind
    met = curves.line(coat.edge("forepart", "gorge"), 4096).intersection(LineString([start, start + FAR * up]))
    return min(apart(start, (point.x, point.y)) for point in getattr(met, "geoms", [met]))


def turn(coat):
    """Half a turn times the distance of the middles of two cloths with canvas between them."""
    between = coat.fields["canvas_thickness"] + coat.constants["padding_thickness"]
    return np.pi * (coat.fields["cloth_thickness"] + between)


def rolled(coat, level):
    """Chest covered at a level when a three rolls to the waist button; nothing for coats without a hole above it."""
    if not rolls(coat):
        return np.nan
    stand = p(coat, "forepart stand_point")
    y = p(coat, "forepart waist_button")[1] + coat.fields["break_rise"]
    edge = coat.edge("forepart", "front_edge")
    x = max(cut(edge, y)) if y < p(coat, "forepart break_point")[1] - 1e-6 else p(coat, "forepart break_point")[0]
    covered = x + (stand[0] - x) * (level - y) / (stand[1] - y) if level >= y else max(cut(edge, level))
    return covered - p(coat, "forepart scye_front")[0]


def behind_neck(coat):
    """The collar's crease behind the neck."""
    return coat.pieces["under_collar"].marks["crease"][1:]


def crease_drawn_in(coat):
    excess = curves.length(behind_neck(coat)) - curves.length(coat.edge("back", "neck"))
    return max(excess - coat.constants["crease_excess"], 0)


def cuff_middle(coat):
    marks = coat.pieces["topsleeve"].marks
    return (marks["forearm_fold"][-1][3] + marks["hindarm_fold"][-1][3]) / 2


QUANTITIES = {
    "suppression": lambda c: sum(sign * c.fields[part + what] for part, sign in (("chest", 1), ("waist", -1))
                                 for what in ("_girth", "_ease")) / 2,
    "hollow": lambda c: cut(c.edge("back", "centre_back"), waist(c))[0],
    "dart_width": dart,
    "belly_allowance": lambda c: (p(c, "forepart centre_front_belly")[0] - p(c, "forepart centre_front_scye")[0])
    / c.constants["belly_front_share"],
    "front_hem_below_back": lambda c: -c.fields["coat_length"] - p(c, "forepart hem_front")[1],
    "scye_depth_drafted": lambda c: -curves.points(c.edge("sidebody", "scye"))[:, 1].min(),
    "scye_deepened": lambda c: scye_level_measured(c) - p(c, "forepart scye_front")[1],
    "scye_width": lambda c: p(c, "forepart scye_front")[0] - p(c, "back cross_back")[0],
    "sleeve_length": lambda c: curves.points(c.edge("topsleeve", "crown"))[:, 1].max() - cuff_middle(c)[1],
    "sleeve_hang": lambda c: cuff_middle(c)[0] - p(c, "topsleeve crown_notch")[0],
    "collar_turn": lambda c: np.degrees(np.arctan2(*-curves.direction(c.edge("back", "neck"), 0)[::-1]))
    + c.constants["collar_turn_more"],
    "collar_lay_over": lambda c: angle(curves.direction(c.edge("under_collar", "neck")[:1], 0),
                                       curves.direction(c.edge("under_collar", "neck")[:1], 1)),
    "crease_drawn_in": crease_drawn_in,
    "total_crook": lambda c: (p(c, "forepart centre_front_scye") - p(c, "forepart neck_point")
                              - p(c, "back neck_point"))[0],
    "coverage_scye_rolled": lambda c: rolled(c, p(c, "forepart scye_front")[1]),
    "coverage_top_button_rolled": lambda c: rolled(c, p(c, "forepart top_button_level")[1]),
    "button_count": lambda c: len(buttons(c)) * (2 if wrapped(c) else 1),
    "hole_count": lambda c: len(holes(c)),
    "hole_length": lambda c: apart(*holes(c)[0]),
    "hole_from_edge": hole_from_edge,
    **{f"hole_{i}_face": lambda c, i=i: face(c, i) for i in (1, 2, 3)},
    **{f"hole_{i}_shows": lambda c, i=i: shows(c, i, p(c, "forepart break_point")) for i in (1, 2, 3)},
    **{f"hole_{i}_shows_rolled": lambda c, i=i: shows(c, i, waist_break(c)) if rolls(c) else np.nan
       for i in (1, 2, 3)},
    "hole_bar": bar_length,
    "hole_bar_from_break": bar_from_break,
    "fronts_overlap": lambda c: 2 * (edge_at_waist_button(c) - p(c, "forepart waist_button")[0]),
    "extra_pad": lambda c: 0,
    "bridle_length": lambda c: bridle(c) * (1 - c.fields["bridle_drawn_in"] / 100),
    "bridle_taken_in": lambda c: bridle(c) * c.fields["bridle_drawn_in"] / 100,
    "facing_turn": turn,
    "top_collar_turn": turn,
    "top_button_level": lambda c: -buttons(c)[0][1],
    "break_level": lambda c: -p(c, "forepart break_point")[1],
    "fronts_part_above_hem": lambda c: p(c, "forepart fronts_part")[1] - p(c, "forepart hem_front")[1],
    "front_shoulder_drafted": front_shoulder,
    "over_shoulder_drafted": over_shoulder,
}
# Worked out in test_coat_outlines.py and test_coat_measures.py.
QUANTITIES_ELSEWHERE = {
    "half_girth_scye", "half_girth_waist", "half_girth_seat", "finished_chest", "finished_waist", "finished_seat",
    "cross_back_finished", "cross_chest_finished", "sidebody_at_waist", "cloth_area", "lapel_area", "finished_length",
    "scye_length", "back_shoulder_length", "front_shoulder_length", "crown_length", "crown_height", "crown_fullness",
    "sleeve_half_width", "neck_seam_length", "back_neck_length", "gorge_length", "collar_leaf_length",
    "lapel_edge_length", "break_length", "break_angle", "coverage_scye", "coverage_top_button",
    "vee_depth", "vee_area", "lapel_tip_to_scye",
    # tests/measure/test_rolling.c, tests/cloth and tests/roll
    "break_stretch", "break_bending", "roll_height", "roll_radius", "lapel_lies", "bridle_tension", "buttonhole_ratio",
    "roll_class", "roll_distance", "roll_band",
}


# The right side's own: the same here, where no side differs; tests/draft/test_sides.c has those that do.
TWINS_OF_THE_RIGHT = {name for name in drafted.names("quantity") if name.endswith("_right")}


@everyone
def test_quantities_of_the_right(name):
    coat = drafted.coat(name)
    for quantity in TWINS_OF_THE_RIGHT:
        assert coat.quantities[quantity] == coat.quantities[quantity.removesuffix("_right")], quantity


@everyone
def test_quantities(name):
    coat = drafted.coat(name)
    for quantity, work_out in QUANTITIES.items():
        within = 0.2 if quantity == "sleeve_length" else 1e-3  # the notch lies near the top of the crown
        assert coat.quantities[quantity] == pytest.approx(work_out(coat), abs=within, nan_ok=True), quantity


# ---- checks


def mean_scye_height(coat):
    shoulder = (p(coat, "back shoulder_end")[1] + p(coat, "forepart shoulder_end")[1]) / 2
    return shoulder - p(coat, "forepart scye_front")[1]


def pitch_error(coat):
    level = p(coat, "forepart scye_front")[1]
    front = p(coat, "topsleeve front_pitch")[1] - (p(coat, "forepart front_pitch")[1] - level)
    joined = p(coat, "back back_pitch")[1] - coat.constants["blade_ease"]  # the back is longer by the blade ease
    back = p(coat, "undersleeve back_pitch")[1] - (joined - level)
    return max(abs(front), abs(back))


def crown_hollow(coat):
    """Depth inside the chord, from the front pitch to a quarter of the way up."""
    pitch, top = p(coat, "topsleeve front_pitch"), p(coat, "topsleeve crown_notch")
    path = curves.points(coat.edge("topsleeve", "crown"))
    start = np.hypot(*(path - pitch).T).argmin()
    end = start + np.argmax(path[start:, 1] > pitch[1] + (top[1] - pitch[1]) / 4)
    chord = path[end] - path[start]
    inside = path[start:end + 1] - path[start]
    return max((chord[0] * inside[:, 1] - chord[1] * inside[:, 0]).max() / np.hypot(*chord), 0)


def leaf_condition(coat):
    """What the iron must add to the cut leaf edge behind the shoulder lies between nothing and leaf_stretch. The edge
    is cut where it passes the shoulder: its last two curves lie behind."""
    cut_longer = curves.length(coat.edge("under_collar", "leaf")[-2:]) - curves.length(coat.edge("back", "neck"))
    fields, constants = coat.fields, coat.constants
    outside = fields["collar_fall"] - fields["collar_stand"] + constants["collar_layers"] * fields["cloth_thickness"]
    worked = outside * np.radians(QUANTITIES["collar_turn"](coat)) - cut_longer
    return max(worked - constants["leaf_stretch"], -worked, 0)


def welt_covered(coat):
    """Part of the welt's upper edge, from its front end backwards, that lies under the turned lapel."""
    marks = coat.pieces["forepart"].marks
    welt = marks["breast_welt"]
    upper = LineString([welt[3][0], welt[2][0]])
    lapel = curves.polygon(marks["lapel_turned"], 4096)
    front = welt[2][0]
    under = upper.intersection(lapel)
    if under.is_empty:
        return 0
    return max(apart(front, xy) for part in getattr(under, "geoms", [under]) for xy in part.coords)


def pocket_from_side(coat):
    pocket = coat.pieces["sidebody"].marks.get("hip_pocket", coat.pieces["forepart"].marks["hip_pocket"])
    rear = min((pocket[0][0], pocket[-1][3]), key=lambda xy: xy[0])
    return rear[0] - cut(coat.edge("sidebody", "back_seam"), rear[1])[0]


def front_plumb(coat):
    if QUANTITIES["belly_allowance"](coat) > 0.01:
        return angle(p(coat, "forepart centre_front_belly") - p(coat, "forepart centre_front_seat"), np.array((0, 1)))
    return angle(curves.direction(coat.edge("forepart", "front_edge"), 1), np.array((0, 1)))


def belly_length(coat):
    belly = QUANTITIES["belly_allowance"](coat)
    if belly <= 0.01:
        return np.nan
    longer = QUANTITIES["front_hem_below_back"](coat) - coat.constants["front_hem_drop"]
    return longer / belly + coat.constants["belly_neck_share"]


def gorge_slope_error(coat):
    stand, at_break = p(coat, "forepart stand_point"), p(coat, "forepart break_point")
    worn = curves.mirrored(p(coat, "forepart collar_end"), stand, at_break)
    return abs(angle(worn - p(coat, "forepart gorge_crossing"), np.array((-1, 0))) - coat.fields["gorge_slope"])


def given_error(field, drafted_as, ease):
    return lambda c: abs(drafted_as(c) - c.fields[field] - c.constants[ease])


def front_waist(coat):
    return p(coat, "forepart neck_point")[1] - waist(coat) + np.hypot(*p(coat, "back neck_point"))


def scye_share(coat):
    whole = sum(curves.length(coat.edge(piece, "scye")) for piece in ("back", "sidebody", "forepart"))
    return whole / coat.fields["chest_girth"]


def crown_share(coat):
    return p(coat, "topsleeve crown_notch")[1] / mean_scye_height(coat)


def half_sleeve(coat):
    return (p(coat, "undersleeve back_pitch")[0] - p(coat, "topsleeve back_pitch")[0]) / 2


def hindarm_ease(coat):
    top, under = (curves.length(coat.edge(piece, "hindarm_seam")) for piece in ("topsleeve", "undersleeve"))
    return top - under


def show_button_mirror(coat):
    """Buttons of a double-breasted coat against the mirror image of the holes' eyes, both counted from the bottom."""
    if not wrapped(coat):
        return np.nan
    edge, worst = coat.edge("forepart", "front_edge"), 0
    for button, (eye, _) in zip(buttons(coat)[::-1], holes(coat)[::-1]):
        centre = max(cut(edge, eye[1])) - coat.fields["wrap"]
        worst = max(worst, apart(button, (2 * centre - eye[0], eye[1])))
    return worst


def tip_clear(coat):
    worn = curves.mirrored(p(coat, "forepart tip"), p(coat, "forepart stand_point"), p(coat, "forepart break_point"))
    return Point(worn).distance(curves.line(coat.edge("forepart", "scye"), 4096))


CHECKS = {
    "pitch_error": pitch_error,
    "crown_notch_error": lambda c: 5 * np.sqrt(max(
        curves.points(c.edge("topsleeve", "crown"))[:, 1].max() - p(c, "topsleeve crown_notch")[1], 0) / 0.2),
    "hang_error": lambda c: abs(QUANTITIES["sleeve_hang"](c) - c.constants["hang"]),
    "leaf_condition_error": leaf_condition,
    "crease_tangent": lambda c: angle(curves.direction(behind_neck(c), 0),
                                      p(c, "forepart stand_point") - p(c, "forepart break_point")),
    "crease_meets": lambda c: apart(behind_neck(c)[0][0], p(c, "forepart stand_point")),
    "neck_edge_tangent": lambda c: angle(curves.direction(c.edge("under_collar", "neck")[:1], 1),
                                         curves.direction(c.edge("under_collar", "neck")[1:], 0)),
    "lapel_edge_tangent": lambda c: angle(curves.direction(c.edge("forepart", "lapel_edge"), 0),
                                          curves.direction(c.edge("forepart", "front_edge"), 1)),
    "gorge_slope_error": gorge_slope_error,
    "show_button_mirror": show_button_mirror,
    "scye_bottom_error": lambda c: abs(p(c, "sidebody scye_bottom")[1] - p(c, "forepart scye_front")[1]),
    "front_shoulder_error": given_error("front_shoulder", front_shoulder, "front_shoulder_ease"),
    "over_shoulder_error": given_error("over_shoulder", over_shoulder, "over_shoulder_ease"),
    "front_waist_length_error": given_error("front_waist_length", front_waist, "front_shoulder_ease"),
    "front_plumb": front_plumb,
    "scye_low_least": lambda c: (p(c, "sidebody scye_bottom") - p(c, "back cross_back"))[0]
    / QUANTITIES["scye_width"](c),
    "scye_front_lean": lambda c: angle(p(c, "forepart shoulder_end") - p(c, "forepart scye_plumb"), np.array((0, 1))),
    "scye_share_least": scye_share,
    "crown_share_least": crown_share,
    "crown_hollow": crown_hollow,
    "sleeve_share_most": lambda c: half_sleeve(c) / (scye_share(c) * c.fields["chest_girth"]),
    "arm_ease_least": lambda c: half_sleeve(c) - c.fields["upper_arm_girth"] / 2,
    "hindarm_ease_least": hindarm_ease,
    "crease_drawn_in": crease_drawn_in,
    "total_crook_least": QUANTITIES["total_crook"],
    "tip_clear_least": tip_clear,
    "fronts_part_least": lambda c: QUANTITIES["fronts_part_above_hem"](c) if c.fields["front_cut"] == 1 else np.nan,
    "pocket_from_side_least": pocket_from_side,
    "welt_covered_most": welt_covered,
    "hollow_most": QUANTITIES["hollow"],
    "dart_most": dart,
    "belly_length_least": belly_length,
}
# The same value against another limit.
TWINS = {"scye_low_most": "scye_low_least", "scye_share_most": "scye_share_least",
         "crown_share_most": "crown_share_least", "hindarm_ease_most": "hindarm_ease_least",
         "total_crook_most": "total_crook_least"}
# Worked out in the other files here, or in tests/measure/test_spoilt.c.
CHECKS_ELSEWHERE = {
    "half_girth_scye_error", "half_girth_waist_error", "half_girth_seat_error", "cross_back_error", "cross_chest_error",
    "seam_error", "notch_error", "scye_run_on", "neck_run_on", "hem_run_on", "hem_square", "crown_run_on",
    "fullness_error", "undersleeve_follows", "collar_neck_error", "lapel_width_error", "outline_gap", "outline_area",
    "outline_crossings", "sidebody_least",
    # of two sides, or of pieces that only the make has: tests/draft/test_sides.c, test_facing.c, test_lining.c
    "sides_meet", "facing_turn_error", "top_collar_turn_error", "lining_error",
}


@everyone
def test_checks(name):
    coat = drafted.coat(name)
    for check, work_out in CHECKS.items():
        # the hollow is looked for at a few places; the notch's error is a root of what a polyline lacks; the leaf is
        # drawn with one clean hollow, a little off the arc that its check is about
        within = {"crown_hollow": 0.05, "crown_notch_error": 0.1, "leaf_condition_error": 1}.get(check, 1e-3)
        assert coat.checks[check] == pytest.approx(work_out(coat), abs=within, nan_ok=True), check
    for check, twin in TWINS.items():
        assert coat.checks[check] == coat.checks[twin]


@everyone
def test_the_undersleeve_follows_the_underscye(name):
    coat = drafted.coat(name)
    pitch, level = p(coat, "forepart front_pitch"), p(coat, "forepart scye_front")[1]
    crown, scye = curves.line(coat.edge("undersleeve", "crown")), curves.points(coat.edge("sidebody", "scye"))
    laid = np.column_stack((pitch[0] - scye[:, 0], scye[:, 1] - level))
    laid = laid[laid[:, 0] >= coat.edge("undersleeve", "crown")[-1][3][0]]
    worst = max(crown.distance(Point(xy)) for xy in laid[::16])
    assert worst <= 4
    assert coat.checks["undersleeve_follows"] == pytest.approx(worst, abs=0.3)


def test_nothing_is_left_out():
    assert set(QUANTITIES) | QUANTITIES_ELSEWHERE | TWINS_OF_THE_RIGHT == set(drafted.names("quantity"))
    assert set(CHECKS) | set(TWINS) | CHECKS_ELSEWHERE == set(drafted.names("check"))
    assert not set(QUANTITIES) & QUANTITIES_ELSEWHERE and not set(CHECKS) & CHECKS_ELSEWHERE


def test_the_dozen_is_of_all_kinds():
    """Some have a dart and some none, bellies, deepened scyes, rolled lapels, both cuts and both lapels."""
    coats = [drafted.coat(name) for name in drafted.ORDERS]
    for quantity in ("dart_width", "belly_allowance", "scye_deepened"):
        assert any(c.quantities[quantity] > 1 for c in coats) and any(abs(c.quantities[quantity]) < 1e-9 for c in coats)
    assert any(np.isnan(c.quantities["coverage_scye_rolled"]) for c in coats)
    for field, kinds in (("buttoning", 7), ("lapel", 3), ("front_cut", 2)):
        assert len({c.fields[field] for c in coats}) == kinds
    assert any(c.checks["welt_covered_most"] > 1 for c in coats)
