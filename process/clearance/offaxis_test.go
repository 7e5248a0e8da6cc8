package clearance

import (
	"math"
	"testing"

	"borewright/process/fact"
	"borewright/process/geom"

	"pgregory.net/rapid"
)

// By hand, all on one axis and the cutter a point: with the bar moved by e the tip stands
// R - e from the axis of a station of radius S, and the bar behind it reaches d/2 + e. So
//
//	R + c_tip - S <= e <= S - c_bar - d/2,
//
// which leaves something where R + d/2 + c_tip + c_bar <= 2S. To come back the cutter has to
// stand behind the station, with room along the bar.
func TestOffAxisByHand(t *testing.T) {
	passes, narrow, short := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		half := func(lo, hi int, what string) float64 {
			return float64(rapid.IntRange(lo, hi).Draw(t, what)) + 0.25
		}
		S, d, R := half(30, 50, "station"), 2*half(10, 30, "bar"), half(40, 60, "tip")
		long, gap, behind := half(5, 60, "station's length"), half(1, 30, "room"), half(0, 12, "behind")
		w := ReachInput{
			Spindle:  Spindle{Nose: d, Quill: d},
			Bar:      Bar{Steps: []Step{{d, 400}}, CutterAt: 400, Behind: behind},
			Stations: []Station{{Name: "wall", From: 0, To: long, Diameter: 2 * S}, {Name: "seat", From: long + gap, To: long + gap + 40, Diameter: 2*R - 1, Blind: true, Relief: 2}},
			Bore:     1, Needs: UsualNeeds(1.5), TipClock: rapid.SampledFrom([]float64{0, 90, 180, 270}).Draw(t, "clock"),
			Passes:  []Pass{{Setting: 2*R - 0.4, Before: 2*R - 1, Clear: long + gap - 1, End: long + gap + 40}, {Setting: 2 * R, Before: 2*R - 0.4, Clear: long + gap - 1, End: long + gap + 40}},
			Program: true, Oriented: true,
		}
		r, err := NewReach(w)
		if err != nil {
			t.Fatal(err)
		}
		cTip, cBar, end := 0.5, 1.5, 1.0
		if S < d/2+cBar || R+cTip <= S {
			if r.OffAxis != nil {
				t.Fatalf("goes in off the axis where it passes on it, or the bar does not: %+v", r.OffAxis)
			}
			return
		}
		least, most := R+cTip-S, S-cBar-d/2
		switch lacks := long + end + behind - (long + gap - 1); {
		case lacks > 0:
			short++
			by, _ := fact.AsFigure(r.NotOff.Nth(3))
			if r.OffAxis != nil || r.NotOff.Kind != NoRoomToReturn || math.Abs(by.Value-lacks) > 1e-6 {
				t.Fatalf("%v of length lacks: %+v, %v", lacks, r.OffAxis, plainly(r.NotOff))
			}
		case least > most:
			narrow++
			by, _ := fact.AsFigure(r.NotOff.Nth(1))
			if r.OffAxis != nil || r.NotOff.Kind != TooNarrowOff || math.Abs(by.Value-(R+d/2+cTip+cBar-2*S)) > 1e-6 {
				t.Fatalf("%v too narrow: %+v, %v", least-most, r.OffAxis, plainly(r.NotOff))
			}
		default:
			passes++
			o := r.OffAxis
			if o == nil {
				t.Fatalf("does not pass: %v", plainly(r.NotOff))
			}
			e := (least + most) / 2
			if math.Abs(o.Least-least) > 1e-9 || math.Abs(o.Most-most) > 1e-9 || math.Abs(o.Shift-e) > 1e-9 || o.Level != long+gap-1 {
				t.Fatalf("%+v, by hand %v to %v, level %v", o, least, most, long+gap-1)
			}
			if x := o.Sides; len(x) != 1 || math.Abs(x[0].Tip-(S-R+e)) > 1e-9 || math.Abs(x[0].Back-(S-d/2-e)) > 1e-9 || x[0].From != 0 || x[0].To != long+behind {
				t.Fatalf("%+v", x)
			}
		}
	})
	if passes == 0 && !testing.Short() {
		t.Errorf("%d pass, %d too narrow, %d too short", passes, narrow, short)
	}
	t.Logf("%d pass, %d too narrow, %d too short", passes, narrow, short)
}

// With the room that the reason asks for it passes, and with a little less it does not.
func TestTheReasonIsWhatLacks(t *testing.T) {
	w := gearCase()
	w.Program, w.Oriented, w.TipClock, w.Passes[0].Clear = true, true, 90, 360
	w.Passes[0].Setting, w.Passes[0].Before, w.Passes[0].Retract = 104, 103, 0
	w.Stations[2].Diameter = 103
	w.Stations[0].Diameter, w.Stations[1].Diameter = 140, 81.5
	r := reach(t, w)
	by, _ := fact.AsFigure(r.NotOff.Nth(1))
	if want := 52 + 28.5 + 0.5 + 1.5 - 81.5; r.OffAxis != nil || r.NotOff.Kind != TooNarrowOff || math.Abs(by.Value-want) > 1e-9 {
		t.Fatalf("%+v %v, want %v", r.OffAxis, plainly(r.NotOff), want)
	}
	for more, passes := range map[float64]bool{by.Value + 1e-6: true, by.Value - 1e-6: false} {
		w.Stations[1].Diameter = 81.5 + more
		if r := reach(t, w); (r.OffAxis != nil) != passes {
			t.Errorf("%v more: %v", more, plainly(r.NotOff))
		}
	}
	w.Stations[1].Diameter = 84
	w.Oriented = false
	if r := reach(t, w); r.OffAxis != nil || r.NotOff.Kind != NoOrientedStop {
		t.Errorf("no oriented stop: %v", plainly(r.NotOff))
	}
	w.Oriented, w.Held = true, true
	if r := reach(t, w); r.OffAxis != nil || r.NotOff.Kind != HeldOutboard {
		t.Errorf("outboard: %v", plainly(r.NotOff))
	}
	w.Held, w.Stations[1].To = false, 355
	if r := reach(t, w); r.OffAxis != nil || r.NotOff.Kind != NoRoomToReturn {
		t.Errorf("no gap: %v", plainly(r.NotOff))
	}
}

// Brute force for a program: the same outline as TestOffsetEntryByFlooding has, and a cutter
// with sides; the way that is told is free, and where none is told no shift and no level in
// steps of a millimetre are.
func TestOffAxisByTrying(t *testing.T) {
	tried, told, none := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		if tried++; tried > 12 && testing.Short() {
			return
		}
		w := drawWay(t)
		w.Bar.QuillFeed, w.Unsure, w.Program, w.Oriented = false, 0, true, true
		if rapid.IntRange(0, 3).Draw(t, "any") > 0 { // what there is to find: a bore behind a smaller one
			whole := func(lo, hi int, what string) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, what)) }
			wall, seat := &w.Stations[0], Station{Name: "seat", Blind: true, Relief: 4}
			wall.Blind, wall.Diameter = false, 2*whole(14, 24, "wall")
			seat.From = wall.To + whole(4, 40, "room")
			seat.To, seat.Diameter = seat.From+20, wall.Diameter+2*whole(0, 8, "larger")
			w.Stations, w.Bore = []Station{*wall, seat}, 1
			w.Bar.Steps = []Step{{2 * whole(4, 20, "bar"), whole(40, 70, "long")}, {2 * whole(4, 12, "bar"), whole(1, 40, "long")}}
			w.Bar.CutterAt = w.Bar.Length()
			for i := range w.Passes {
				w.Passes[i] = Pass{Setting: seat.Diameter + 2*float64(i+1), Before: seat.Diameter, Clear: seat.From - 3, End: seat.To}
			}
		}
		w.Wide = float64(rapid.IntRange(0, 8).Draw(t, "wide"))
		for i := range w.Passes {
			w.Passes[i].Clear = w.Passes[0].Clear
		}
		r, err := NewReach(w)
		if err != nil {
			t.Fatal(err)
		}
		if r.OffAxis == nil && r.NotOff.None() {
			return
		}
		clear, room := w.Passes[0].Clear, w.Needs.End.Least
		u := geom.AtClock(w.TipClock)
		free := func(tip, shift, slack float64, turning bool) bool {
			c := w.Shift.Minus(u.Times(shift))
			for _, p := range w.Passes {
				rim := func(from, to float64, points []geom.Vec, room float64) bool {
					for i, s := range w.Stations {
						wall := s.Diameter / 2
						if i == w.Bore {
							wall = p.Before / 2
						}
						if to <= s.From || from >= s.To {
							continue
						}
						for _, x := range points {
							if wall-c.Plus(x).Distance(s.At) < room+slack {
								return false
							}
						}
					}
					return true
				}
				circle := func(r float64) []geom.Vec { // one line of motion: all lies along u
					return []geom.Vec{u.Times(r), u.Times(-r)}
				}
				at := tip - w.Bar.CutterAt
				if !rim(-1e6, at, circle(w.Spindle.Nose/2), w.Needs.Chips.Least) {
					return false
				}
				for _, s := range w.Bar.Steps {
					if !rim(at, at+s.Length, circle(s.Diameter/2), w.Needs.Chips.Least) {
						return false
					}
					at += s.Length
				}
				var edge []geom.Vec
				R, side := p.Setting/2, geom.AtClock(w.TipClock+90)
				for k := -40; k <= 40; k++ {
					y := math.Min(w.Wide, R) * float64(k) / 40
					edge = append(edge, u.Times(math.Sqrt(R*R-y*y)).Plus(side.Times(y)))
				}
				if turning {
					edge = circle(R)
				}
				if !rim(tip-w.Bar.Behind, tip+w.Bar.Ahead, edge, w.Needs.Tip.Least) {
					return false
				}
			}
			return true
		}
		start := -w.Bar.Length() - 10.5
		// Between whole millimetres nothing changes: each try stands for the millimetre round it.
		blocked := func(shift, slack float64) float64 { // from which depth on
			for tip := start; tip < clear; tip++ {
				if !free(tip, shift, slack, false) {
					return tip - 0.5
				}
			}
			return math.Inf(1)
		}
		onAxis := math.Inf(-1) // from which depth on it may stand on its axis
		for tip := start; tip < clear; tip++ {
			if !free(tip, 0, 0, true) {
				onAxis = tip + 0.5
			}
		}
		way := func(shift, level, slack float64) bool {
			return math.Min(level+room, clear) <= blocked(shift, slack) && onAxis <= level-room
		}
		if o := r.OffAxis; o != nil {
			told++
			for _, e := range []float64{o.Least, o.Shift, o.Most} {
				if level := o.Level; !way(e, level, -1e-9) {
					t.Fatalf("told %+v, %v is not free in %+v", o, e, w)
				}
			}
			for _, e := range []float64{o.Least - 0.01, o.Most + 0.01} {
				if most := w.Passes[len(w.Passes)-1].Setting / 2; e > 0 && e < most && way(e, o.Level, 0) {
					t.Fatalf("%v passes as well as %+v in %+v", e, o, w)
				}
			}
			return
		}
		none++
		for e := 0.5; e < 40; e++ {
			till := blocked(e, 1e-6)
			for level := clear; level > start && level >= onAxis+room; level-- {
				if math.Min(level+room, clear) <= till {
					t.Fatalf("%v to level %v passes: %v in %+v", e, level, plainly(r.NotOff), w)
				}
			}
		}
	})
	t.Logf("%d ways, %d times none", told, none)
}
