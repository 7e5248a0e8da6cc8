package process

// machineKeys is the table of keys of a machine file.
func machineKeys() []field {
	axes := []string{"X", "Y", "Z", "W", "U", "V", "B"}
	return []field{
		{path: "units", kind: aChoice, need: true, choices: []string{"in", "mm"}, example: `"in"|"mm"`, text: "what bare lengths, powers and torques in this file are in"},
		{path: "name", kind: aText, need: true, example: `"Boring mill, 5 in spindle"`, text: "what it is called"},
		{path: "nose", kind: aDiameter, need: true, span: ">0..60|>0..1500", example: "9.25|230", text: "diameter of the spindle nose, in which the quill slides"},
		{path: "quill", kind: aDiameter, need: true, span: ">0..40|>0..1000", example: "5|110", text: "diameter of the quill (boring spindle)"},
		{path: "quill_travel", kind: aLength, def: "0", span: "0..200|0..5000", example: "36|550", text: "how far the quill comes out; 0: it does not"},
		{path: "feed_by", kind: aChoice, list: many(1, 2), need: true, choices: []string{"table", "quill"}, example: `["table", "quill"]`, text: "what can feed along the bore"},
		{path: "speeds", kind: aNumber, list: many(1, 100), unit: "rev/min", span: ">0..20000", example: "[6, 7.5, 9, 11, 14]", text: "the ladder of spindle speeds, rising; or speed_range"},
		{path: "speed_range", kind: aNumber, list: many(2, 2), unit: "rev/min", span: ">0..20000", example: "[8, 2500]", text: "least and most spindle speed, where any between can be had"},
		{path: "feeds", kind: aLength, list: many(1, 100), span: ">0..1|>0..25", example: "[0.0015, 0.002, 0.0025]|[0.04, 0.05, 0.063]", text: "the ladder of feeds a revolution, rising; or feed_range"},
		{path: "feed_range", kind: aLength, list: many(2, 2), span: ">0..1|>0..25", example: "[0.0004, 0.2]|[0.01, 5]", text: "least and most feed a revolution, where any between can be had"},
		{path: "power", kind: aPower, need: true, span: ">0..500|>0..400", example: `"15 hp"|"22 kW"`, text: "power at the spindle"},
		{path: "torque", kind: aTorque, need: true, span: ">0..100000|>0..150000", example: `"2900 ft·lb"|"1500 N·m"`, text: "most torque at the spindle"},
		{path: "travel", kind: aTable, list: many(1, 12), need: true, example: `[ { axis = "X", travel = 72, what = "table, across" } ]`, text: "the axes"},
		{path: "travel.axis", kind: aChoice, need: true, choices: axes, example: `"X"`, text: "its letter (ISO 841)"},
		{path: "travel.travel", kind: aLength, def: "0", span: "0..2000|0..50000", example: "72|1600", text: "how far it goes; 0 for a rotary axis"},
		{path: "travel.what", kind: aName, need: true, example: `"table, across"`, text: "what moves, in words"},
		{path: "radial", kind: aNumber, need: true, unit: "N/µm", span: ">0..10000", example: "300", text: "radial stiffness at the nose"},
		{path: "tilt", kind: aNumber, need: true, unit: "MN·m/rad", span: ">0..1000", example: "4", text: "stiffness against tilting at the nose"},
		{path: "force_factor", kind: aNumber, def: "1", span: "0.3..3", example: "1.1", text: "factor on the cutting forces, as this shop's own cuts show it"},
		{path: "damping", kind: aNumber, list: many(2, 2), need: true, span: ">0..0.5", example: "[0.02, 0.05]", text: "damping ratio of a bar in this spindle, least and most"},
		{path: "dial", kind: aLength, need: true, span: ">0..0.04|>0..1", example: "0.001|0.01", text: "graduation of the axis dials or scales"},
		{path: "set_dial", kind: aLength, need: true, span: ">0..0.04|>0..1", example: "0.001|0.02", text: "graduation that a cutter is set by, on diameter"},
		{path: "source", kind: aSources, example: `{ all = "name plate and acceptance sheet", tilt = "measured" }`, text: "where the figures come from: all, or by key"},

		{path: "control", kind: aTable, example: "{ decimal_point = true }", text: "what the control takes; leave it out for a manual mill"},
		{path: "control.units", kind: aChoice, worked: "as the job", choices: []string{"in", "mm"}, example: `"in"|"mm"`, text: "units of the program"},
		{path: "control.units_word", kind: aChoice, def: "G20/G21", choices: []string{"G20/G21", "G70/G71"}, example: `"G20/G21"`, text: "words for inch and mm"},
		{path: "control.decimal_point", kind: aFlag, def: "true", example: "true", text: "numbers carry a decimal point; false: fixed format"},
		{path: "control.whole_places", kind: aCount, def: "4", span: "1..6", example: "4", text: "digits before the point"},
		{path: "control.part_places", kind: aCount, worked: "4 in inch, 3 in mm", span: "1..6", example: "4|3", text: "digits after the point"},
		{path: "control.drop_zeros", kind: aChoice, worked: "leading, in fixed format", choices: []string{"leading", "trailing"}, example: `"leading"`, text: "fixed format: the zeros that are left out"},
		{path: "control.block_numbers", kind: aFlag, def: "true", example: "true", text: "blocks carry N words"},
		{path: "control.block_step", kind: aCount, def: "10", span: "1..100", example: "10", text: "step between N words"},
		{path: "control.feed_per_rev", kind: aFlag, def: "false", example: "true", text: "G95 is taken; else G94, feed a minute"},
		{path: "control.cycles", kind: aFlag, def: "false", example: "false", text: "G85, G86 and G89 are taken; else the moves are written out"},
		{path: "control.return_words", kind: aFlag, def: "false", example: "false", text: "G98 and G99 are taken"},
		{path: "control.dwell", kind: aChoice, def: "seconds", choices: []string{"seconds", "milliseconds", "revolutions"}, example: `"seconds"`, text: "what a dwell is counted in"},
		{path: "control.dwell_word", kind: aChoice, def: "P", choices: []string{"P", "X", "F"}, example: `"P"`, text: "the letter of the dwell"},
		{path: "control.oriented_stop", kind: aFlag, def: "false", example: "true", text: "M19 stops the spindle in one place"},
		{path: "control.tip_at_stop", kind: aChoice, choices: []string{"+X", "-X", "+Y", "-Y"}, example: `"+X"`, text: "where the tip points after M19; needed with oriented_stop"},
		{path: "control.comments", kind: aFlag, def: "true", example: "true", text: "remarks in parentheses are taken"},
		{path: "control.percent", kind: aFlag, def: "true", example: "true", text: "% before and after the program"},
		{path: "control.program_number", kind: aCount, def: "0", span: "0..9999", example: "1204", text: "O word of the program; 0: none"},
		{path: "control.feed_axis", kind: aChoice, def: "Z", choices: []string{"Z", "W"}, example: `"W"`, text: "the letter of the slide that feeds along the bore when the table feeds"},
		{path: "control.quill_axis", kind: aChoice, def: "Z", choices: []string{"Z", "W"}, example: `"Z"`, text: "the letter of the quill"},
		{path: "control.line_most", kind: aCount, def: "72", span: "40..250", example: "72", text: "longest block, in characters"},
		{path: "control.work_offset", kind: aChoice, def: "G54", choices: []string{"none", "G54", "G55", "G56", "G57", "G58", "G59"}, example: `"G54"`, text: "work offset that is called"},
		{path: "control.characters", kind: aChoice, def: "ascii", choices: []string{"ascii", "plain"}, example: `"ascii"`, text: "what comments may hold: printing ASCII, or capitals, digits, spaces and + - . , / alone, as tape readers take"},
		{path: "control.space_words", kind: aFlag, def: "true", example: "true", text: "a space between words"},
	}
}

// materialKeys is the table of keys of a work material file.
func materialKeys() []field {
	rows := []field{
		{path: "units", kind: aChoice, def: "mm", choices: []string{"in", "mm"}, example: `"in"|"mm"`, text: "in: bare cutting speeds are in ft/min; all other figures are SI as stated"},
		{path: "name", kind: aText, need: true, example: `"Gray iron, 180 to 220 HB"`, text: "what it is called"},
		{path: "group", kind: aChoice, need: true, choices: []string{"P", "M", "K", "N", "S", "H"}, example: `"K"`, text: "letter of ISO 513"},
		{path: "kc11", kind: aNumber, need: true, unit: "N/mm²", span: "200..6000", example: "1160", text: "specific cutting force at h = b = 1 mm (Kienzle)"},
		{path: "mc", kind: aNumber, need: true, span: "0..0.6", example: "0.26", text: "its exponent: kc = kc11·h^(−mc)"},
		{path: "thrust_ratio", kind: aNumber, need: true, span: ">0..2", example: "0.22", text: "thrust normal to the edge over cutting force at h = 1 mm"},
		{path: "thrust_fall", kind: aNumber, need: true, span: "0..0.8", example: "0.40", text: "its exponent: ratio = thrust_ratio·h^(−thrust_fall)"},
		{path: "rake0", kind: aNumber, need: true, unit: "°", span: "-20..35", example: "2", text: "rake at which kc11 was measured"},
		{path: "elasticity", kind: aNumber, need: true, unit: "GPa", span: "10..700", example: "105", text: "modulus of elasticity"},
		{path: "poisson", kind: aNumber, need: true, span: "0.1..0.49", example: "0.26", text: "Poisson's ratio"},
		{path: "tensile", kind: aNumber, need: true, unit: "MPa", span: "50..3000", example: "250", text: "tensile strength"},
		{path: "yield", kind: aNumber, need: true, unit: "MPa", span: "20..3000", example: "165", text: "yield or 0.1–0.2 % proof strength"},
		{path: "brittle", kind: aFlag, def: "false", example: "true", text: "it breaks without yielding: judged by tensile strength"},
		{path: "expansion", kind: aNumber, need: true, unit: "µm/m·K", span: "1..40", example: "11", text: "growth by heat"},
		{path: "density", kind: aNumber, need: true, unit: "kg/m³", span: "1000..20000", example: "7200", text: "density"},
		{path: "ra_factor", kind: aNumber, need: true, span: "1..5", example: "1.6", text: "roughness measured over roughness by geometry, fresh edge"},
		{path: "heat_most", kind: aNumber, need: true, unit: "°C", span: "40..500", example: "200", text: "to what the part may be heated for assembly"},
		{path: "source", kind: aSources, example: `{ kc11 = "test cuts, two feeds" }`, text: "where the figures come from: all, or by key"},
		{path: "speed", kind: aTable, need: true, example: "{ hss = { rough = [18, 25], finish = [30, 35] } }", text: "cutting speeds by class of cutter"},
	}
	for _, c := range cutterClasses() {
		p := "speed." + c
		rows = append(rows,
			field{path: p, kind: aTable, example: "{ rough = [60, 80], finish = [100, 115] }|{ rough = [18, 25], finish = [30, 35] }", text: "cutting speeds for " + c},
			field{path: p + ".rough", kind: aSpeed, list: many(2, 2), need: true, span: "3..6000|1..2000", example: "[60, 80]|[18, 25]", text: "least and most for roughing"},
			field{path: p + ".finish", kind: aSpeed, list: many(2, 2), need: true, span: "3..6000|1..2000", example: "[100, 115]|[30, 35]", text: "least and most for finishing"},
			field{path: p + ".source", kind: aText, example: `"shop table"`, text: "where they come from"},
		)
	}
	return rows
}

// cutterClasses are the classes that speeds are given for.
func cutterClasses() []string { return []string{"hss", "carbide", "carbide-coated"} }

// cutterKeys is the table of keys of a cutter material file.
func cutterKeys() []field {
	return []field{
		{path: "units", kind: aChoice, def: "mm", choices: []string{"in", "mm"}, example: `"in"|"mm"`, text: "what bare lengths in this file are in"},
		{path: "name", kind: aText, need: true, example: `"High-speed steel, ground"`, text: "what it is called"},
		{path: "class", kind: aChoice, need: true, choices: cutterClasses(), example: `"hss"`, text: "the class whose cutting speeds it takes"},
		{path: "force", kind: aNumber, need: true, span: "0.5..2", example: "1.2", text: "factor on cutting force; carbide is 1"},
		{path: "edge", kind: aLength, need: true, span: ">0..0.01|>0..0.25", example: "0.0003|0.008", text: "usual rounding of the edge"},
		{path: "min_chip", kind: aNumber, need: true, span: ">0..2", example: "0.3", text: "thinnest chip it cuts, over the rounding of the edge"},
		{path: "rake", kind: aNumber, need: true, unit: "°", span: "-20..35", example: "8", text: "usual rake"},
		{path: "source", kind: aSources, example: `{ all = "from memory" }`, text: "where the figures come from: all, or by key"},
	}
}

// barKeys is the table of keys of a bar material file.
func barKeys() []field {
	return []field{
		{path: "name", kind: aText, need: true, example: `"Alloy steel, hardened"`, text: "what it is called"},
		{path: "elasticity", kind: aNumber, need: true, unit: "GPa", span: "50..800", example: "207", text: "modulus of elasticity"},
		{path: "poisson", kind: aNumber, need: true, span: "0.1..0.49", example: "0.29", text: "Poisson's ratio"},
		{path: "density", kind: aNumber, need: true, unit: "kg/m³", span: "1000..20000", example: "7850", text: "density"},
		{path: "allowed", kind: aNumber, need: true, unit: "MPa", span: "10..1500", example: "250", text: "bending stress allowed in service"},
		{path: "reach", kind: aNumber, need: true, span: "1..15", example: "4", text: "overhang over diameter that the trade accepts"},
		{path: "source", kind: aSources, example: `{ all = "works certificate" }`, text: "where the figures come from: all, or by key"},
	}
}
