package clearance

import (
	"borewright/process/geom"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// drawWay invents a line, a bar and passes in whole millimetres, so that every
// change of what stands where falls on a whole depth.
func drawWay(t *rapid.T) ReachInput {
	whole := func(lo, hi int, what string) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, what)) }
	w := ReachInput{
		Spindle:  Spindle{Nose: 2 * whole(10, 50, "nose"), Quill: 2 * whole(5, 30, "quill"), Travel: 300},
		TipClock: rapid.SampledFrom([]float64{0, 180}).Draw(t, "tip"),
		Shift:    geom.Vec{X: 0, Y: whole(-2, 2, "shift")},
		Unsure:   whole(0, 1, "unsure"),
		Needs: Needs{
			Chips: Need{3, whole(0, 2, "chips")}, Tip: Need{1, whole(0, 1, "tip room")},
			End: Need{5, whole(0, 2, "end")}, Bottom: Need{1, 0}, Hand: whole(0, 60, "hand"),
		},
	}
	at := whole(0, 5, "first")
	for i := range rapid.IntRange(1, 4).Draw(t, "stations") {
		s := Station{Name: fmt.Sprint("s", i), From: at, To: at + whole(1, 30, "deep"), Diameter: 2 * whole(8, 40, "radius"), At: geom.Vec{X: 0, Y: whole(-2, 2, "off")}}
		at = s.To + whole(0, 40, "apart")
		w.Stations = append(w.Stations, s)
	}
	w.Bore = rapid.IntRange(0, len(w.Stations)-1).Draw(t, "bore")
	last := &w.Stations[len(w.Stations)-1]
	if last.Blind = rapid.Bool().Draw(t, "blind"); last.Blind {
		last.Relief = whole(0, 4, "relief")
	}
	for range rapid.IntRange(1, 3).Draw(t, "steps") {
		w.Bar.Steps = append(w.Bar.Steps, Step{2 * whole(3, 30, "bar radius"), whole(1, 80, "step length")})
	}
	w.Bar.CutterAt = math.Max(1, w.Bar.Length()-whole(0, 20, "beyond"))
	w.Bar.Ahead, w.Bar.Behind = whole(0, 6, "ahead"), whole(0, 6, "behind")
	w.Bar.QuillFeed = rapid.Bool().Draw(t, "quill feed")
	w.Bar.Standoff = whole(-10, 80, "standoff")
	bore := w.Stations[w.Bore]
	for range rapid.IntRange(1, 2).Draw(t, "passes") {
		w.Passes = append(w.Passes, Pass{
			Setting: bore.Diameter + 2*whole(0, 4, "cut"), Before: bore.Diameter,
			Clear: bore.From - whole(0, 8, "clear"), End: bore.To + whole(0, 5, "run-out"), Retract: whole(0, 2, "retract"),
		})
	}
	return w
}

// Brute force over tip depths (between whole millimetres nothing changes) and
// over points of every part's rim.
func TestClearanceBySampling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWay(t)
		r, err := NewReach(w)
		if err != nil {
			t.Fatal(err)
		}
		u := geom.AtClock(w.TipClock)
		least, first := map[string]float64{}, map[string]float64{}
		for n, p := range w.Passes {
			away := w.Shift.Minus(u.Times(p.Retract))
			for _, ph := range []Phase{GoingIn, Cutting, ComingOut} {
				lo, hi, c := -w.Bar.Length()-10, p.End, w.Shift
				switch ph {
				case GoingIn:
					hi = p.Clear
				case Cutting:
					lo = p.Clear
				case ComingOut:
					c = away
				}
				for tip := lo + 0.5; tip < hi; tip++ {
					see := func(part Part, from, to, radius float64) {
						for i, s := range w.Stations {
							if to <= s.From || from >= s.To {
								continue
							}
							cutter, own := part == Cutter, i == w.Bore
							if cutter && own && ph != GoingIn {
								continue
							}
							wall, middle := s.Diameter/2, s.At
							if own {
								wall = p.Before / 2
								if ph != GoingIn && to <= tip {
									wall, middle = p.Setting/2, w.Shift
								}
							}
							gap := math.Inf(1)
							for a := 0.0; a < 360; a += 10 {
								rim := geom.AtClock(a).Times(radius)
								if cutter && ph == ComingOut && p.Retract > 0 {
									rim = u.Times(radius)
								}
								gap = math.Min(gap, wall-c.Plus(rim).Distance(middle)-w.Unsure)
							}
							key := fmt.Sprint(part, i)
							if old, seen := least[key]; !seen || gap < old {
								least[key], first[key] = gap, tip
							}
						}
					}
					at := tip - w.Bar.CutterAt
					if !w.Bar.QuillFeed {
						see(Nose, -1e6, at, w.Spindle.Nose/2)
					} else {
						see(Quill, -1e6, at, w.Spindle.Quill/2)
						if ph != ComingOut { // the nose is held by where it stands, not by the shift
							see(Nose, -1e6, -w.Bar.Standoff, w.Spindle.Nose/2)
						}
					}
					for i, s := range w.Bar.Steps {
						see(StepPart(i), at, at+s.Length, s.Diameter/2)
						at += s.Length
					}
					if r.Entries[n].OnAxis || tip > p.Clear {
						see(Cutter, tip-w.Bar.Behind, tip+w.Bar.Ahead, p.Setting/2)
					}
				}
			}
		}
		seen := map[string]bool{}
		for _, g := range r.Gaps {
			key := fmt.Sprint(g.Part, g.Station)
			if g.Axial {
				continue
			}
			seen[key] = true
			if want, ok := least[key]; !ok || math.Abs(g.Clearance-want) > 1e-9 {
				t.Fatalf("%s: %v, sampled %v at tip %v (%v)\n%+v\n%+v", key, g.Clearance, want, first[key], ok, g, w)
			}
			if g.Part != Nose && math.Abs(g.Tip-first[key]) > 0.51 {
				t.Fatalf("%s: first at %v, sampled at %v\n%+v", key, g.Tip, first[key], w)
			}
		}
		for key, v := range least {
			if !seen[key] {
				t.Fatalf("%s: sampled %v, not reported\n%+v", key, v, w)
			}
		}
	})
}

// Brute force for the way in with the spindle stopped: flood the (tip depth,
// shift) plane in quarter millimetres.
func TestOffsetEntryByFlooding(t *testing.T) {
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		w := drawWay(t)
		w.Bar.QuillFeed = false
		w.Unsure = 0
		r, err := NewReach(w)
		if err != nil {
			t.Fatal(err)
		}
		u := geom.AtClock(w.TipClock)
		for n, p := range w.Passes {
			if r.Entries[n].OnAxis {
				continue
			}
			free := func(tip, shift float64) bool {
				c := w.Shift.Minus(u.Times(shift))
				ok := func(from, to, radius, room float64, cutter bool) bool {
					for i, s := range w.Stations {
						wall := s.Diameter / 2
						if i == w.Bore {
							wall = p.Before / 2
						}
						if to <= s.From || from >= s.To {
							continue
						}
						gap := wall - c.Distance(s.At) - radius
						if cutter {
							gap = wall - c.Plus(u.Times(radius)).Distance(s.At)
						}
						if gap < room-1e-12 {
							return false
						}
					}
					return true
				}
				at := tip - w.Bar.CutterAt
				good := ok(-1e6, at, w.Spindle.Nose/2, w.Needs.Chips.Least, false)
				for _, s := range w.Bar.Steps {
					good = good && ok(at, at+s.Length, s.Diameter/2, w.Needs.Chips.Least, false)
					at += s.Length
				}
				return good && ok(tip-w.Bar.Behind, tip+w.Bar.Ahead, p.Setting/2, w.Needs.Tip.Least, true)
			}
			const step, side = 0.5, 120.0
			cells := int(2*side/step) + 1
			shift := func(k int) float64 { return -side + step*float64(k) }
			reached := make([]bool, cells)
			for k := range reached {
				reached[k] = true
			}
			var tip float64
			for tip = -w.Bar.Length() - 10.5; tip < p.Clear; tip++ {
				now := make([]bool, cells)
				for k := range now {
					now[k] = reached[k] && free(tip, shift(k))
				}
				for k := 1; k < cells; k++ {
					now[k] = now[k] || now[k-1] && free(tip, shift(k))
				}
				for k := cells - 2; k >= 0; k-- {
					now[k] = now[k] || now[k+1] && free(tip, shift(k))
				}
				reached = now
			}
			can := reached[int(side/step)]
			if can != r.Entries[n].Offset {
				t.Fatalf("flooding says %v, %+v\n%+v", can, r.Entries[n], w)
			}
			if can {
				found++
				for _, s := range r.Entries[n].Shifts {
					for tip := s.From + 0.5; tip < s.To; tip++ {
						if mid := (s.Least + s.Most) / 2; !free(tip, mid) {
							t.Fatalf("shift %v at tip %v touches: %+v\n%+v", mid, tip, s, w)
						}
					}
				}
			}
		}
	})
	if found == 0 {
		t.Log("no offset entry was drawn; run with more checks")
	}
}
