package verify

import (
	"strings"
	"testing"
)

// What another hand writes and this tool does not is set apart from what is wrong; what
// is asked for instead is what the program said before, which is proven.
func TestOtherWaysAreSetApart(t *testing.T) {
	const start, lead = "N20 G54", "N90 G0 Z-365."
	for _, c := range []struct {
		old, new string
		apart    bool   // not wrong in itself
		what     string // in the finding
		want     string // that would be taken
	}{
		{start, start + "\nT1 M6", true, "M6: a tool change", "M0"},
		{start, start + "\nT1", true, "word T1", "only N G X Y F S M"},
		{start, start + "\nG43 H1", true, "G43: a tool length offset", "G49"},
		{start, start + "\nM48", true, "M48", "nothing"},
		{"N470 M30", "G91 G28 Z0.\nG90\nN470 M30", true, "G28: goes home", "home_word"},
		{"N470 M30", "G53 G0 Z0.\nN470 M30", true, "G53: goes by machine positions", "home_word"},
		{lead, "N90 G1 Z-365. F60.", true, "where nothing is to be cut", "G0"},
		{lead, "G91 G0 Z-425.\nG90", true, "G91: incremental", "G90"},
		{lead, "/" + lead + "\n" + lead, true, "switch can skip", "no /"},
		{start, start + "\nG15", true, "G15: polar positions given back", "nothing"},
		{start, start + "\nG69", true, "G69: a turn of the positions given back", "nothing"},
		{"N100 G1", "G4 P1.\nN100 G1", true, "a dwell in the work where nothing is cut", "blind bottom"},
		{"N10 G17", "N10 G18\nG17", true, "G18: another plane", "G17"},

		{start, start + "\nM49", false, "M49: feed override locked", "nothing"},
		{start, start + "\nG55", false, "G55: another work offset", "G54"},
		{start, start + "\nG0 W10.", false, "W moves the slide that stands still", "Z"},
		{start, start + "\nO1205", false, "a second program number", "one O word"},
		{start, start + "\nA90.", false, "word A90.", "only N G X Y F S M"},
		{start, start + "\nM60", false, "M60 has no use in boring", "nothing"},
		{start, "", false, "no work offset", "G54"},
		{lead, "N90 G0 Z-375.", false, "rapid into the bore", "rapid to depth 365.000"},
	} {
		text := strings.Replace(string(program(t, "shift-mm.nc")), c.old, c.new, 1)
		r := Check([]byte(text), "", planMM(), 0, 0)
		found := false
		for _, f := range r.Findings {
			if !strings.Contains(f.What, c.what) || !strings.Contains(f.Want, c.want) {
				continue
			}
			if found = true; f.OtherWay != c.apart {
				t.Errorf("%q: set apart %v: %s", c.new, f.OtherWay, said(f))
			}
		}
		if !found {
			t.Errorf("%q: no finding of %q:", c.new, c.what)
			for _, f := range r.Findings {
				t.Log(said(f))
			}
		}
		if c.apart && len(r.Findings) != 1 {
			t.Errorf("%q: %d findings", c.new, len(r.Findings))
		}
		for _, f := range r.Findings { // no finding that follows from another way is called wrong
			if c.apart && !f.OtherWay {
				t.Errorf("%q: also %s", c.new, said(f))
			}
		}
	}
}
