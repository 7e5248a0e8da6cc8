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
		e := EndsOf(100, v[0], 100, v[2], v[3] > 0)
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
	if e := EndsOf(100, 180, 100, 100, false); !e.Even() {
		t.Errorf("a sleeve as long as its hub: %+v", e)
	}
	if e := EndsOf(100, 180, 100, 99.75, false); e.Most > 1.005 || e.Least < 0.998 {
		t.Errorf("a sleeve cut a little short jumps: %+v", e)
	}
	if a, b := EndsOf(100, 130, 100, 40, false), EndsOf(100, 180, 100, 40, false); a.Most <= b.Most || a.Least >= b.Least {
		t.Errorf("a thin hub gives more at the ends: %+v, %+v", a, b)
	}
}
