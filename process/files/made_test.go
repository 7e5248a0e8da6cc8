package files

import (
	"errors"
	"strings"
	"testing"

	"borewright/process/feature"
	"borewright/process/qty"
	"borewright/process/source"
)

// What a sleeve has besides its diameters, in two jobs.
const madeLines = `stop     = { by = "flange", diameter = 96, thickness = 4, end = "near", faced = true }
hole     = [ { at = ["12", "4:30"], depth = 30, diameter = 4 } ]
groove   = [
  { kind = "oil", from = 28, width = 4, depth = 0.8 },
  { kind = "seal", from = 48, width = 3, depth = 1.2 },
]
lead_in  = { angle = 15, length = 1.5 }
vent     = { by = "groove", at = "6", width = 3, depth = 0.6 }
`

const alongLines = `groove   = [ { from = 10, width = 5, depth = 0.8, at = ["3", "9"], length = 40 } ]
pin      = { by = "screw", at = ["6"], diameter = 4, length = 12, end = "near" }
`

const millLines = `stop     = { diameter = 96, thickness = 4 }
recess   = { diameter = 97, depth = 4 }
mouth    = { angle = 20, length = 1.5 }
`

// TestMadeIsRead: hours are read as clock positions, depths from the end of the sleeve.
func TestMadeIsRead(t *testing.T) {
	j, err := Job("job.toml", []byte(sleeveJob+madeLines), nil)
	if err != nil {
		t.Fatal(err)
	}
	m := j.Sleeve.Made
	if h := m.Holes[0]; h.At[0] != 0 || h.At[1] != 135 || h.Depth != 30*qty.Millimetre || h.Diameter != qty.DiameterMM(4) {
		t.Errorf("%+v", h)
	}
	if g := m.Grooves[1]; g.Kind != feature.Seal || g.To() != 51*qty.Millimetre || g.Along() {
		t.Errorf("%+v", g)
	}
	if m.Vent.At != 180 || m.Stop.By != feature.Flange || !m.Stop.Faced {
		t.Errorf("%+v %+v", m.Vent, m.Stop)
	}
}

// TestMadeAgainstEachOther: each mistake is one line at the key to change.
func TestMadeAgainstEachOther(t *testing.T) {
	for _, row := range []struct {
		why, old, new string // of the lines above
		key, says     string
	}{
		{"a hole under the seal", `depth = 30, diameter = 4`, `depth = 49, diameter = 4`, "sleeve.hole[0].depth", "lies under the seal groove from 48 mm to 51 mm"},
		{"a hole that only just reaches it", `depth = 30, diameter = 4`, `depth = 46.5, diameter = 4`, "sleeve.hole[0].depth", "put it at 46 mm or less"},
		{"a hole past the end", `depth = 30, diameter = 4`, `depth = 400, diameter = 4`, "sleeve.hole[0].depth", "which is 60 mm long"},
		{"a hole out of the end", `depth = 30, diameter = 4`, `depth = 58, diameter = 4`, "sleeve.hole[0].depth", "breaks out at the end"},
		{"two holes on each other", `["12", "4:30"]`, `["12", "12:15"]`, "sleeve.hole[0].at", "12 o'clock and 12:15 lie on each other"},
		{"a hole as wide as the bore", `depth = 30, diameter = 4`, `depth = 30, diameter = 40`, "sleeve.hole[0].diameter", "no oil hole"},
		{"a groove past the end", `from = 48`, `from = 58`, "sleeve.groove[1]", "ends beyond the sleeve"},
		{"grooves in each other", `from = 28, width = 4`, `from = 46, width = 4`, "sleeve.groove[1].from", "runs into the oil groove from 46 mm to 50 mm"},
		{"a groove through the wall", `depth = 1.2`, `depth = 2.5`, "sleeve.groove[1].depth", "leaves 0.485 mm of a wall of 2.985 mm"},
		{"a lip that breaks", `from = 48`, `from = 56`, "sleeve.groove[1].from", "would break away"},
		{"an oil groove too deep", `depth = 0.8 },
  { kind = "seal"`, `depth = 1.6 },
  { kind = "seal"`, "sleeve.groove[0].depth", "more than half the wall"},
		{"a flange with no rim", `diameter = 96`, `diameter = 87`, "sleeve.stop.diameter", "hardly bears"},
		{"a flange at the closed end", `end = "near"`, `end = "far"`, "sleeve.stop.end", "closed"},
		{"a flange without size", `diameter = 96, thickness = 4, `, ``, "sleeve.stop", "needs its diameter and its thickness"},
		{"a lead-in that eats the wall", `angle = 15, length = 1.5`, `angle = 45, length = 2`, "sleeve.lead_in", "more than half"},
		{"a vent that the oil finds", `at = "6", width = 3`, `at = "4:30", width = 3`, "sleeve.vent.at", "oil would run out"},
		{"a vent groove of no width", `width = 3, depth = 0.6`, `depth = 0.6`, "sleeve.vent", "needs its width and its depth"},
		{"a length of what runs round", `depth = 1.2`, `depth = 1.2, length = 9`, "sleeve.groove[1].length", "has no length"},
	} {
		_, err := Job("job.toml", []byte(sleeveJob+edit(t, madeLines, row.old, row.new)), nil)
		tells(t, row.why, err, row.key, row.says)
	}
	for _, row := range []struct{ why, old, new, key, says string }{
		{"a pin through the wall", `diameter = 4, length = 12`, `diameter = 6, length = 12`, "sleeve.pin.diameter", "half of a pin"},
		{"a pin at the closed end", `end = "near"`, `end = "far"`, "sleeve.pin.end", "closed"},
		{"a pin under a groove", `at = ["6"], diameter = 4`, `at = ["3"], diameter = 4`, "sleeve.pin.diameter", "hardly any metal"},
		{"a pin under a flange", `pin `, "stop = { diameter = 96, thickness = 4 }\npin ", "sleeve.pin.end", "covers the joint"},
		{"along, of no length", `, length = 40`, ``, "sleeve.groove[0].at", "needs its length"},
		{"no shoulder there", `pin `, "stop = { by = \"shoulder\", diameter = 96 }\npin ", "sleeve.stop", "housing's own step"},
	} {
		_, err := Job("job.toml", []byte(sleeveJob+edit(t, alongLines, row.old, row.new)), nil)
		tells(t, row.why, err, row.key, row.says)
	}
	for _, row := range []struct{ why, old, new, key, says string }{
		{"a counterbore that the flange does not go into", `diameter = 97`, `diameter = 96`, "sleeve.recess.diameter", "does not go into"},
		{"a counterbore as deep as the bore", `depth = 4`, `depth = 50`, "sleeve.recess.depth", "leaves a seat of 10 mm"},
		{"a counterbore through the wall", "diameter = 96, thickness = 4 }\nrecess   = { diameter = 97", "diameter = 105, thickness = 4 }\nrecess   = { diameter = 107", "sleeve.recess.diameter", "more than half"},
		{"a counterbore for nothing", `stop     = { diameter = 96, thickness = 4 }`, ``, "sleeve.recess", "the sleeve has none"},
		{"a lead-in far into the seat", "depth = 4 }\nmouth    = { angle = 20, length = 1.5 }", "depth = 20 }\nmouth    = { angle = 20, length = 11 }", "sleeve.mouth.length", "more than a quarter"},
	} {
		_, err := Job("job.toml", []byte(sleeveJob+edit(t, millLines, row.old, row.new)), nil)
		tells(t, row.why, err, row.key, row.says)
	}
	open := edit(t, sleeveJob, "blind = true, relief = 2, ", "")
	_, err := Job("job.toml", []byte(open+"vent = { by = \"flat\", depth = 0.5 }\n"), nil)
	tells(t, "a vent where nothing is trapped", err, "sleeve.vent", "nothing is trapped")
	_, err = Job("job.toml", []byte(open+"stop = { by = \"shoulder\" }\n"), nil)
	tells(t, "a shoulder that is not there", err, "sleeve.stop.by", "nothing stands behind")
}

// tells is one problem at a key that says so.
func tells(t *testing.T, why string, err error, key, says string) {
	t.Helper()
	var all source.Errors
	if !errors.As(err, &all) || len(all) != 1 {
		t.Errorf("%s: %v", why, err)
		return
	}
	if p := all[0]; p.Key != key || !strings.Contains(p.Error(), says) {
		t.Errorf("%s: %v", why, p)
	}
}
