# A figure with all measures that a bespoke order needs; name and numbers are invented.
CARD = """\
[client]
name = Mr Orrin Fallowell
order = 77

[measures]
chest_girth = 40 in
waist_girth = 890
seat_girth = 101 cm
stature = 1780
back_waist_length = 445
arm_length = 602
back_width = 400
shoulder_slope = 21

[style]
buttoning = two-button
"""
