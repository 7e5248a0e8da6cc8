package fact_test

import (
	"errors"
	"fmt"
	"testing"

	"borewright/process/fact"
	"borewright/process/qty"
)

const (
	power  fact.Kind = "test.power"  // of the cut
	seat   fact.Kind = "test.seat"   // name of the station, its diameter
	either fact.Kind = "test.either" // list of facts
)

func watts(w float64) fact.Arg { return fact.Figure(qty.KindSpindlePower.Of(w)) }

func Example() {
	was := fact.New(power, watts(900))
	is := fact.New(power, watts(1200))
	fmt.Println(fact.Equal(was, is), fact.Alike(was, is))
	// A watt more is not printed in kW or hp of one decimal.
	fmt.Println(fact.Equal(was, fact.New(power, watts(901))), fact.Reads(qty.Inches, was, fact.New(power, watts(901))))
	// Output:
	// false true
	// false true
}

func TestComparing(t *testing.T) {
	bore := func(name string, mm float64) fact.Fact {
		return fact.New(seat, fact.Name(name), fact.Figure(qty.DiameterMM(mm)))
	}
	for _, row := range []struct {
		why         string
		a, b        fact.Fact
		equal, like bool
	}{
		{"nothing and nothing", fact.Fact{}, fact.Fact{}, true, true},
		{"nothing and something", fact.Fact{}, fact.New(power), false, false},
		{"another kind", fact.New(power, watts(1)), fact.New(seat, watts(1)), false, false},
		{"another name", bore("idler", 80), bore("drive", 80), false, false},
		{"another size", bore("idler", 80), bore("idler", 81), false, true},
		{"a figure of another kind", fact.New(power, watts(1)), fact.New(power, fact.Figure(qty.Power(1))), false, false},
		{"a figure that is not there", fact.New(power, watts(1)), fact.New(power), false, false},
		{"what is left off is not there", fact.New(power, watts(1), nil), fact.New(power, watts(1)), true, true},
		{"an empty name is not there", fact.New(seat, fact.Name("")), fact.New(seat), true, true},
		{"a fact that says nothing is not there", fact.New(either, fact.Fact{}), fact.New(either), true, true},
		{"within a fact", fact.New(either, bore("idler", 80)), fact.New(either, bore("idler", 81)), false, true},
		{"within a list", fact.New(either, fact.List(bore("idler", 80), bore("drive", 90))), fact.New(either, fact.List(bore("idler", 80), bore("drive", 91))), false, true},
		{"the order of a list", fact.New(either, fact.List(bore("idler", 80), bore("drive", 90))), fact.New(either, fact.List(bore("drive", 90), bore("idler", 80))), false, false},
		{"a longer list", fact.New(either, fact.List(bore("idler", 80))), fact.New(either, fact.List(bore("idler", 80), bore("drive", 90))), false, false},
		{"an empty list is not there", fact.New(either, fact.List()), fact.New(either), true, true},
	} {
		for _, pair := range [][2]fact.Fact{{row.a, row.b}, {row.b, row.a}} {
			if got := fact.Equal(pair[0], pair[1]); got != row.equal {
				t.Errorf("%s: equal %v", row.why, got)
			}
			if got := fact.Alike(pair[0], pair[1]); got != row.like {
				t.Errorf("%s: alike %v", row.why, got)
			}
		}
	}
}

func TestArguments(t *testing.T) {
	one := fact.New(power, watts(900))
	f := fact.New(seat, fact.Name("idler"), fact.Count(3), one, fact.List(one, one))
	if s, ok := fact.AsName(f.Nth(1)); !ok || s != "idler" {
		t.Errorf("name: %q, %v", s, ok)
	}
	if n, ok := fact.AsFigure(f.Nth(2)); !ok || n != qty.KindCount.Of(3) {
		t.Errorf("count: %v, %v", n, ok)
	}
	if got := len(fact.AsList(f.Nth(3))) + len(fact.AsList(f.Nth(4))); got != 3 {
		t.Errorf("%d facts in one and a list of two", got)
	}
	if f.Nth(0) != nil || f.Nth(5) != nil || fact.AsList(f.Nth(1)) != nil {
		t.Error("an argument that is not there is there")
	}
}

// An error gives the fact that it is back, wrapped or not.
func TestErrors(t *testing.T) {
	f := fact.New(seat, fact.Name("idler"))
	for _, err := range []error{f.Err(), fmt.Errorf("file: %w", f.Err())} {
		if got, ok := fact.Of(err); !ok || !fact.Equal(got, f) {
			t.Errorf("%v gives %v, %v", err, got, ok)
		}
	}
	for _, err := range []error{nil, errors.New("another")} {
		if got, ok := fact.Of(err); ok || !got.None() {
			t.Errorf("%v is a fact: %v", err, got)
		}
	}
}
