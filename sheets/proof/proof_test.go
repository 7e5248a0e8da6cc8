package proof

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"borewright/post/verify"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
)

// report is one of every thing that a replay can find; the figures are whole
// inches, so that both systems print them exactly.
func report(u qty.Unit) (verify.Report, *plan.Plan) {
	b := plan.Bore{Station: process.Station{Name: "idler"}}
	b.Visits = append(b.Visits, plan.Visit{})
	p := &plan.Plan{Job: &process.Job{Units: u, Number: "J-1", Revision: "A", Title: "a bore"}, Bores: []plan.Bore{b}}
	return verify.Report{
		Findings: []verify.Finding{{Line: 12, Col: 3, Kind: "depth", What: "too deep", Want: "less"}, {Kind: "end", What: "no end"}},
		Cuts:     []verify.Cut{{Pass: 1, Setting: qty.Diameter(4 * qty.Inch), From: qty.Inch, To: 2 * qty.Inch, Feed: qty.Inch / 100, Speed: 90, Removed: 2 * 16387.064, Line: 12}},
		Shape: []verify.Piece{
			{Station: "a station of a name that is far too long", From: 0, To: qty.Inch, Diameter: qty.Diameter(5 * qty.Inch)},
			{Station: "idler", From: qty.Inch, To: 2 * qty.Inch, Cut: true, Diameter: qty.Diameter(4 * qty.Inch), Low: qty.Diameter(3 * qty.Inch), High: qty.Diameter(5 * qty.Inch), Within: true},
		},
		Near:    []verify.Clearance{{Station: "idler", Part: "bar step 2", Room: qty.Inch / 2, Along: true, Depth: 2 * qty.Inch, Line: 12}},
		Minutes: 12.5, FinalSize: qty.Diameter(4 * qty.Inch), Assumed: []string{"The tip is the point that the program steers, and much else that takes more than one line to say."},
	}, p
}

// A reader of inches reads no millimetre, and the other way round: 1 in is
// 25.4 mm, 1 in³ is 16387.064 mm³ or 16.387 cm³ (ISO 80000-3, international inch).
func TestTextInTheUnitsOfTheJob(t *testing.T) {
	for _, c := range []struct {
		u         qty.Unit
		has, none []string
	}{
		{qty.Inches, []string{"Lengths in inches", "Ø4.0000", "1.0000", "0.0100", "in³ off", "2.00", "0.5000", "3.0000 to 5.0000 in: within"}, []string{"mm", "cm", "25.4", "101.6"}},
		{qty.Metric, []string{"Lengths in mm", "Ø101.600", "25.400", "0.254", "cm³ off", "32.77", "12.700", "76.200 to 127.000 mm: within"}, []string{" in³", " in:", "4.0000"}},
	} {
		r, p := report(c.u)
		var b strings.Builder
		WriteText(&b, r, "x.nc", p, 0, 0)
		for _, want := range c.has {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%v: no %q in\n%s", c.u, want, b.String())
			}
		}
		for _, not := range c.none {
			if strings.Contains(b.String(), not) {
				t.Errorf("%v: %q in\n%s", c.u, not, b.String())
			}
		}
		for line := range strings.Lines(b.String()) {
			if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > 80 {
				t.Errorf("%d columns: %s", n, line)
			}
		}
	}
}

// What is only not this tool's way is told apart from what is wrong, with what would be
// taken, and counted apart.
func TestOtherWaysReadAsSuch(t *testing.T) {
	wrong := verify.Finding{Line: 12, Col: 3, Kind: "depth", What: "too deep", Want: "less"}
	other := verify.Finding{Line: 13, Col: 1, Kind: "code", What: "G91: incremental positions", Want: "G90", OtherWay: true}
	for _, c := range []struct {
		list      []verify.Finding
		has, none []string
	}{
		{[]verify.Finding{wrong}, []string{"x.nc:12:3: depth: too deep\n    right: less\n", "NOT PROVEN: 1 finding\n"}, []string{"way", "taken"}},
		{[]verify.Finding{other}, []string{"x.nc:13:1: not this tool's way: G91: incremental positions\n    taken: G90\n", "NOT PROVEN: 1 finding, not this tool's way\n"}, []string{"code:", "right:"}},
		{[]verify.Finding{wrong, other, other}, []string{"x.nc:12:3: depth: too deep\n    right: less\n", "not this tool's way: G91", "taken: G90", "NOT PROVEN: 3 findings, 2 of them not this tool's way\n"}, []string{"code:"}},
	} {
		var b strings.Builder
		WriteFindings(&b, verify.Report{Findings: c.list}, "x.nc")
		for _, want := range c.has {
			if !strings.Contains(b.String(), want) {
				t.Errorf("no %q in\n%s", want, b.String())
			}
		}
		for _, not := range c.none {
			if strings.Contains(b.String(), not) {
				t.Errorf("%q in\n%s", not, b.String())
			}
		}
		r, p := report(qty.Metric)
		r.Findings = c.list
		var doc strings.Builder
		if err := WriteJSON(&doc, r, "x.nc", p, 0, 0); err != nil {
			t.Fatal(err)
		}
		apart := 0
		for _, f := range c.list {
			if f.OtherWay {
				apart++
			}
		}
		if n := strings.Count(doc.String(), `"another_way": true`); n != apart {
			t.Errorf("%d in JSON, not %d:\n%s", n, apart, doc.String())
		}
	}
}

var planSum = regexp.MustCompile(`"plan_check_sum": "[0-9A-F]{4}-[0-9A-F]{4}"`)

// A program that is not as it was written is said to be, which is no finding.
func TestSumsAreSaid(t *testing.T) {
	for _, c := range []struct{ stated, says string }{
		{"", "Check sum of this file 3FA2-91C0; it states none."},
		{"3FA2-91C0", "Check sum of this file 3FA2-91C0, as it was written."},
		{"0A9E-8C08", "Check sum of the program as written is 0A9E-8C08; this file's is 3FA2-91C0: it was edited after it was written."},
	} {
		r, p := report(qty.Metric)
		r.Findings, r.Proven, r.Sum, r.Stated = nil, true, "3FA2-91C0", c.stated
		var b, doc strings.Builder
		WriteText(&b, r, "x.nc", p, 0, 0)
		if flat := strings.Join(strings.Fields(b.String()), " "); !strings.Contains(flat, c.says) || !strings.Contains(flat, "Check sum of the plan ") || !strings.Contains(flat, "x.nc: proven") {
			t.Errorf("%q: %s", c.stated, b.String())
		}
		if err := WriteJSON(&doc, r, "x.nc", p, 0, 0); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(doc.String(), `"check_sum": "3FA2-91C0"`) || strings.Contains(doc.String(), `"check_sum_stated": "`+c.stated+`"`) != (c.stated != "") || !planSum.MatchString(doc.String()) {
			t.Errorf("%q: %s", c.stated, doc.String())
		}
	}
}

// JSON is the same for both readers: SI, the unit in the name.
func TestJSONInSI(t *testing.T) {
	var said [2]string
	for i, u := range []qty.Unit{qty.Inches, qty.Metric} {
		r, p := report(u)
		var b strings.Builder
		if err := WriteJSON(&b, r, "x.nc", p, 0, 0); err != nil {
			t.Fatal(err)
		}
		said[i] = planSum.ReplaceAllString(b.String(), `"plan_check_sum": ""`) // plan.json names the units of the job
	}
	if said[0] != said[1] {
		t.Error("the units of the job show in JSON")
	}
	var d map[string]any
	if err := json.Unmarshal([]byte(said[0]), &d); err != nil {
		t.Fatal(err)
	}
	cut := d["cuts"].([]any)[0].(map[string]any)
	for key, want := range map[string]float64{"cutter_setting_mm": 101.6, "tip_from_mm": 25.4, "feed_mm_per_rev": 0.254, "speed_rev_per_min": 90, "removed_mm3": 32774.1} {
		if cut[key] != want {
			t.Errorf("%s = %v, want %v", key, cut[key], want)
		}
	}
	stations := d["stations"].([]any)
	if first := stations[0].(map[string]any); first["limit_low_mm"] != nil || first["within_limits"] != nil {
		t.Errorf("limits where there are none: %v", first)
	}
	if second := stations[1].(map[string]any); second["limit_low_mm"] != 76.2 || second["within_limits"] != true {
		t.Errorf("%v", second)
	}
}
