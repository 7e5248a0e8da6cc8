package process

// resultKeys is the table of keys of a results file, which stands beside the
// job file and is only ever added to.
func resultKeys() []field {
	return []field{
		{path: "measured", kind: aTable, list: many(0, 2000), example: `[ { station = "idler", pass = 4, size = [ { diameter = 3.3697 } ] } ]`,
			text: "what was measured after a pass, one entry each time; written by \"borewright measured\", added at the end, never changed"},
		{path: "measured.id", kind: aName, example: `"5f1c09aa31d2"`, text: "tells this entry from all others; an entry written by hand does without"},
		{path: "measured.station", kind: aName, need: true, example: `"idler"`, text: "the bore, by the name of its station"},
		{path: "measured.visit", kind: aCount, span: "1..9", worked: "that of the pass", example: "1", text: "the visit to the bore"},
		{path: "measured.pass", kind: aCount, need: true, span: "1..1000", example: "4", text: "the pass that was cut last, by its number on the sheet"},
		{path: "measured.kind", kind: aChoice, worked: "as planned", choices: []string{"witness", "rough", "semi-finish", "spring", "finish", "fitted"}, example: `"semi-finish"`, text: "what the pass was for; fitted: nothing was cut, a sleeve finished on the lathe is home"},
		{path: "measured.revision", kind: aName, example: `"C"`, text: "revision of the job that was worked to"},
		{path: "measured.setting", kind: aDiameter, span: ">0..100|>0..2500", worked: "as planned", example: "3.3721|85.65", text: "what the cutter was set to, in fact"},
		{path: "measured.before", kind: aDiameter, span: ">0..100|>0..2500", worked: "as planned", example: "3.3333|84.67", text: "the bore before this pass, as measured or else as planned"},
		{path: "measured.low", kind: aDiameter, span: ">0..100|>0..2500", worked: "as planned", example: "3.3693|85.58", text: "least that the sheet said to expect"},
		{path: "measured.high", kind: aDiameter, span: ">0..100|>0..2500", worked: "as planned", example: "3.3707|85.62", text: "most that the sheet said to expect"},
		{path: "measured.feed", kind: aLength, span: ">0..1|>0..25", worked: "as planned", example: "0.005|0.12", text: "feed a revolution of this pass"},
		{path: "measured.speed", kind: aNumber, unit: "rev/min", span: ">0..20000", worked: "as planned", example: "90", text: "spindle speed of this pass"},
		{path: "measured.tooling", kind: aName, worked: "that of the job", example: `"5b1e09c4"`, text: "mark of bar, cutter and spindle that it was cut with: nothing is learned of one bar from another"},
		{path: "measured.sweeps", kind: aName, worked: "those of the job", example: `"00c41d7a"`, text: "mark of the sweeps that the work was lined up by"},
		{path: "measured.size", kind: aTable, list: many(1, 200), need: true, example: `[ { depth = 14.6, at = 0, diameter = 3.3697 } ]`, text: "what the bore gauge said"},
		{path: "measured.size.depth", kind: aLength, span: "0..400|0..10000", worked: "not said", example: "14.6|371", text: "how deep, from the face"},
		{path: "measured.size.at", kind: aNumber, unit: "°", span: "0..360", worked: "not said", example: "0", text: "clock position of one end of the gauge, degrees clockwise from 12 o'clock, seen from the spindle"},
		{path: "measured.size.diameter", kind: aDiameter, need: true, span: ">0..100|>0..2500", example: "3.3697|85.59", text: "two-point diameter there"},
		{path: "measured.marked", kind: aNumber, list: many(0, 36), unit: "°", span: "0..360", example: "[0, 180, 270]", text: "witness cut: the clock positions where the cutter marked"},
		{path: "measured.bare", kind: aNumber, list: many(0, 36), unit: "°", span: "0..360", example: "[90]", text: "witness cut: the clock positions where it did not"},
		{path: "measured.ra", kind: aRough, span: ">0..2000|>0..50", worked: "not measured", example: "55|1.4", text: "roughness, where it was measured"},
		{path: "measured.remark", kind: aText, example: `"chatter marks at the far end"`, text: "what else was seen"},
		{path: "measured.by", kind: aName, example: `"second shift"`, text: "who measured"},
		{path: "measured.when", kind: aName, example: `"2026-03-02 14:20"`, text: "when"},
		{path: "measured.check", kind: aName, example: `"0a1b2c3d"`, text: "sum of the entry's bytes (CRC-32, IEEE 802.3), which shows that it was written whole and not changed since"},
	}
}
