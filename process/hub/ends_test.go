package hub

import (
	"math"
	"testing"
)

// What the ends of a joint do, against twelve sleeves by finite elements: closure between
// the least and the most, mean and tension not above ours, and ours not far above the worst
// of them. The figures of the steel sleeves were seen when ours were set; the bronze ones
// were not.
func TestEndsOfJoints(t *testing.T) {
	names, all := rows(t, "short_sleeves.csv", 1)
	for i, v := range all {
		e := Joint{Bore: 100, Outside: v[0], Hub: 100, Sleeve: v[2], Blind: v[3] > 0}.Ends()
		for _, closes := range v[4:7] {
			if closes < e.Least-0.005 || closes > e.Most+0.005 {
				t.Errorf("%s, %v long: closes %.3f of Lamé, ours %.3f to %.3f", names[i], v[2], closes, e.Least, e.Most)
			}
		}
		if v[7] > e.Mean+0.005 || v[8] > e.Tension+0.005 {
			t.Errorf("%s, %v long: mean %.3f, tension %.2f, ours %.3f, %.2f", names[i], v[2], v[7], v[8], e.Mean, e.Tension)
		}
		if most := math.Max(v[4], v[6]); e.Most > 1.14*most || e.Least < 0.87 || e.Tension > 1.21 || e.Mean > 1.11*v[7] {
			t.Errorf("%s, %v long: ours %+v is far beyond %.3f", names[i], v[2], e, most)
		}
	}
	if e := (Joint{Bore: 100, Outside: 180, Hub: 100, Sleeve: 100}).Ends(); !e.Even() {
		t.Errorf("a sleeve as long as its hub: %+v", e)
	}
	if e := (Joint{Bore: 100, Outside: 180, Hub: 100, Sleeve: 99.75}).Ends(); e.Most > 1.005 || e.Least < 0.998 {
		t.Errorf("a sleeve cut a little short jumps: %+v", e)
	}
	if a, b := (Joint{Bore: 100, Outside: 130, Hub: 100, Sleeve: 40}).Ends(), (Joint{Bore: 100, Outside: 180, Hub: 100, Sleeve: 40}).Ends(); a.Most <= b.Most || a.Least >= b.Least {
		t.Errorf("a thin hub gives more at the ends: %+v, %+v", a, b)
	}
}

// A sleeve that stands out of its hub, against four by finite elements and the two columns of
// one that does not slip: no free end closes less, no joint presses or is stressed more; and
// the free end of the second is what a thin shell does, within half a hundredth.
func TestSleeveThatStandsOut(t *testing.T) {
	names, all := rows(t, "sleeves_standing_out.csv", 1)
	if len(all) != 5 {
		t.Fatalf("%d rows", len(all))
	}
	for i, v := range all { // hub, out, wall, nu, closure of the free end, mean pressure, tension
		e := Joint{Bore: 100, Outside: 180, Hub: v[0], Sleeve: v[0], Wall: v[2], Nu: v[3], Out: [2]float64{v[1], v[1]}}.Ends()
		if e.Least > v[4]+0.005 || e.Least < v[4]-0.3 || e.Most < 1 || e.Most > 1.02 {
			t.Errorf("%s: the free end closes %.3f, ours %.3f to %.3f", names[i], v[4], e.Least, e.Most)
		}
		slips := 0.005
		if i == 4 {
			slips = 0.02
		}
		if e.Mean < v[5]-slips || e.Mean > v[5]+0.03 {
			t.Errorf("%s: presses %.3f in the mean, ours %.3f", names[i], v[5], e.Mean)
		}
		if e.Tension < v[6] || e.Tension > 1.1*v[6] {
			t.Errorf("%s: tension %.2f, ours %.2f", names[i], v[6], e.Tension)
		}
		if i == 1 && (e.Least < v[4]-0.005) {
			t.Errorf("%s: a thin shell's end closes %.3f, ours %.3f", names[i], v[4], e.Least)
		}
	}
	one := Joint{Bore: 100, Outside: 180, Hub: 100, Sleeve: 100, Wall: 5, Nu: 0.3, Out: [2]float64{20, 0}}.Ends()
	two := Joint{Bore: 100, Outside: 180, Hub: 100, Sleeve: 100, Wall: 5, Nu: 0.3, Out: [2]float64{20, 20}}.Ends()
	if one.Least != two.Least || one.Tension != two.Tension || math.Abs(2*(one.Mean-1)-(two.Mean-1)) > 1e-12 {
		t.Errorf("one end out %+v, both %+v", one, two)
	}
	if e := (Joint{Bore: 100, Outside: 180, Hub: 100, Sleeve: 100, Wall: 5, Nu: 0.3, Out: [2]float64{0.01, 0}}).Ends(); e.Least < 0.99 || e.Tension > 1.01 || e.Mean > 1.001 {
		t.Errorf("a hair out: %+v", e)
	}
}
