package words

import (
	"fmt"
	"testing"

	"borewright/process/fact"
	"borewright/process/qty"
)

// Kinds that only the tests have.
const (
	testDepth   fact.Kind = "test.depth"
	testPasses  fact.Kind = "test.passes"
	testStation fact.Kind = "test.station"
	testWays    fact.Kind = "test.ways"
	testStop    fact.Kind = "test.stop"
	testSeat    fact.Kind = "test.seat"
)

// tested speaks of the kinds above.
func tested(u qty.Unit) Words { return Words{u: u, rooms: []map[fact.Kind]entry{testWords}} }

var testWords = map[fact.Kind]entry{
	testDepth:   text("depth of cut: {1}, {2} allowed{? for a bar {3:bare} diameters out}"),
	testPasses:  text("it takes {1:bare} {1:pass|passes}"),
	testStation: text("{1} stands {2..3} off"),
	testWays:    text("would free it: {1:or}"),
	testStop:    text("stopped by {1}; {?{2:begin}; }{3:and}"),
	testSeat: func(f fact.Fact) string {
		if f.Nth(2) == nil {
			return "{1} is not known"
		}
		return "{1} holds {2:both}"
	},
}

func length(mm float64) fact.Arg { return fact.Figure(qty.FromMM(mm)) }

func Example() {
	f := fact.New(testDepth, length(1.27), length(1.016))
	for _, u := range []qty.Unit{qty.Metric, qty.Inches} {
		fmt.Println("limited by " + tested(u).Say(f))
		fmt.Println(tested(u).Sentence(f))
	}
	// Output:
	// limited by depth of cut: 1.270 mm, 1.016 mm allowed
	// Depth of cut: 1.270 mm, 1.016 mm allowed.
	// limited by depth of cut: 0.0500 in, 0.0400 in allowed
	// Depth of cut: 0.0500 in, 0.0400 in allowed.
}

func TestSay(t *testing.T) {
	one, five := fact.New(testPasses, fact.Count(1)), fact.New(testPasses, fact.Count(5))
	for _, row := range []struct {
		f              fact.Fact
		said, sentence string
	}{
		{fact.Fact{}, "", ""},
		{one, "it takes 1 pass", "It takes 1 pass."},
		{five, "it takes 5 passes", "It takes 5 passes."},
		{fact.New(testDepth, length(1), length(2), fact.Figure(qty.KindRatio.Of(7.8))), "depth of cut: 1.000 mm, 2.000 mm allowed for a bar 7.8 diameters out", "Depth of cut: 1.000 mm, 2.000 mm allowed for a bar 7.8 diameters out."},
		{fact.New(testStation, fact.Name("idler {1}, far side"), length(0.1), length(0.2)), "idler {1}, far side stands 0.100 to 0.200 mm off", "idler {1}, far side stands 0.100 to 0.200 mm off."},
		{fact.New(testWays, fact.List(one)), "would free it: it takes 1 pass", "Would free it: it takes 1 pass."},
		{fact.New(testWays, fact.List(one, five)), "would free it: it takes 1 pass or it takes 5 passes", "Would free it: it takes 1 pass or it takes 5 passes."},
		{fact.New(testStop, one, nil, fact.List(one, five, one)), "stopped by it takes 1 pass; it takes 1 pass, it takes 5 passes and it takes 1 pass", "Stopped by it takes 1 pass; it takes 1 pass, it takes 5 passes and it takes 1 pass."},
		{fact.New(testStop, one, five, one), "stopped by it takes 1 pass; It takes 5 passes; it takes 1 pass", "Stopped by it takes 1 pass; It takes 5 passes; it takes 1 pass."},
		{fact.New(testSeat, fact.Name("É 1"), length(25.4)), "É 1 holds 25.400 mm (1.0000 in)", "É 1 holds 25.400 mm (1.0000 in)."},
		{fact.New(testSeat, fact.Name("É 1")), "É 1 is not known", "É 1 is not known."},
		{fact.New("test.unknown", length(1), fact.Name("x")), "test.unknown 1.000 mm x", "Test.unknown 1.000 mm x."},
	} {
		w := tested(qty.Metric)
		if got := w.Say(row.f); got != row.said {
			t.Errorf("said %q, want %q", got, row.said)
		}
		if got := w.Sentence(row.f); got != row.sentence {
			t.Errorf("sentence %q, want %q", got, row.sentence)
		}
	}
	if got := tested(qty.Metric).Sentences([]fact.Fact{one, {}, five}); len(got) != 2 {
		t.Errorf("sentences: %q", got)
	}
}
