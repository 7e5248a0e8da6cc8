package verify

import (
	"fmt"
	"math"
	"slices"

	"borewright/post/rs274"
	"borewright/post/verify/around"
	"borewright/post/verify/offaxis"
	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/qty"
)

// length is how far a stroke goes, mm.
func length(s *stroke) float64 {
	x, y, d := (s.x1 - s.x0).MM(), (s.y1 - s.y0).MM(), (s.d1 - s.d0).MM()
	return math.Sqrt(x*x + y*y + d*d)
}

// bar holds every part of what the spindle carries against every wall.
func (f *follower) bar(s *stroke) {
	for i := range f.parts {
		p := &f.parts[i]
		for w := range f.walls {
			f.fits(p, &f.walls[w], s)
		}
		for w := range f.shape.spans {
			f.fits(p, &f.shape.spans[w].wall, s)
		}
		if f.shape.floor != nil {
			f.fits(p, f.shape.floor, s)
		}
	}
}

// fits holds one part against one wall.
func (f *follower) fits(p *part, w *wall, s *stroke) {
	if w.floor {
		f.toFloor(p, w, s)
		return
	}
	room, depth, ok := p.meet(w, s)
	if !ok {
		return
	}
	f.closest(w, p, room, depth)
	if room <= 0 {
		f.add(f.letter, script.KindClearance,
			fmt.Sprintf("%s (%s) meets the wall of %s (%s) with the tip at %s: %s of room",
				p.name, f.dia(qty.FromRadius(p.radius)), w.name, f.dia(qty.FromRadius(w.radius)), f.deep(depth), f.say(room)),
			"room all round; stop and look at the set-up")
	}
}

// toFloor holds the front of a part against the closed end.
func (f *follower) toFloor(p *part, w *wall, s *stroke) {
	room := w.from - max(p.front.when(s.d0), p.front.when(s.d1))
	f.closest(w, p, room, max(s.d0, s.d1))
	if in := s.d1 > s.d0 || !f.pos.Has(f.axis); room < 0 && in && !f.into { // once, on the way in
		f.add(f.letter, script.KindBottom,
			fmt.Sprintf("%s runs %s into the closed end of %s", p.name, f.say(-room), w.name),
			fmt.Sprintf("nothing deeper than %s", f.say(w.from)))
	}
}

func (f *follower) closest(w *wall, p *part, room, depth qty.Length) {
	if c, ok := f.near[w.station]; !ok || room < c.Room {
		f.near[w.station] = Clearance{Station: w.name, Part: p.name, Room: room, Along: w.floor, Depth: depth, Line: f.line}
	}
}

// nearest gives the least room by station.
func (f *follower) nearest() []Clearance {
	var out []Clearance
	for i := range f.job.Stations {
		if c, ok := f.near[i]; ok {
			out = append(out, c)
		}
	}
	return out
}

// beside reports that a part of the bar stands in a station or deeper with the
// tip at the depth.
func (f *follower) beside(depth qty.Length) bool {
	s := stroke{d0: depth, d1: depth}
	for i := range f.parts {
		for w := range f.walls {
			if _, _, ok := f.parts[i].meet(&f.walls[w], &s); ok {
				return true
			}
		}
		for w := range f.shape.spans {
			if _, _, ok := f.parts[i].meet(&f.shape.spans[w].wall, &s); ok {
				return true
			}
		}
	}
	return false
}

// tip is the point of the cutter as a part. While the spindle turns, or stands
// at any angle, it may be anywhere on its circle; after an oriented stop it is
// where the control says that it stops.
func (f *follower) tip(sp rs274.Spindle) part {
	here := place{follows: true}
	p := part{name: "cutter", back: here, front: here}
	r := up(f.setting)
	x, y := tipSense(f.control)
	if sp == rs274.OrientedStop && (x != 0 || y != 0) {
		p.offX, p.offY = x*r, y*r
	} else {
		p.radius = r
	}
	return p
}

// tipSense is the direction of the tip after an oriented stop; 0, 0: unknown.
func tipSense(c *process.Control) (x, y qty.Length) {
	switch c.TipAtStop {
	case process.TipPlusX:
		return 1, 0
	case process.TipMinusX:
		return -1, 0
	case process.TipPlusY:
		return 0, 1
	case process.TipMinusY:
		return 0, -1
	}
	return 0, 0
}

// tipRapid finds the tip in metal, or on a wall, in a rapid move: where it is worst;
// "": nowhere.
func (f *follower) tipRapid(e *rs274.Event, s *stroke) (worst string) {
	if f.setting == 0 {
		return ""
	}
	least := qty.Length(math.MaxInt64)
	tip := f.tip(e.Spindle)
	touch := func(w *wall) {
		room, depth, ok := tip.meet(w, s)
		if !ok {
			return
		}
		if room > 0 {
			f.closest(w, &tip, room, depth)
			return
		}
		what := fmt.Sprintf("the tip %s deep in the metal of %s, from %s", f.say(-room), w.name, f.deep(depth))
		pressed := f.half
		if f.last >= 0 {
			pressed += f.v.Passes[f.last].Spring / 2
		}
		if room >= -pressed {
			what = fmt.Sprintf("the tip on the wall of %s, from %s", w.name, f.deep(depth))
		}
		if room < least {
			least, worst = room, what
		}
	}
	for w := range f.walls {
		if !f.walls[w].floor {
			touch(&f.walls[w])
		}
	}
	for w := range f.shape.spans {
		touch(&f.shape.spans[w].wall)
	}
	f.tipFloor(&tip, s)
	return worst
}

// roomOffAxis holds a bar that goes past the stations off its axis, and the sides of its
// cutter, against the walls: more room is asked for than none.
func (f *follower) roomOffAxis(s *stroke) {
	all := slices.Clone(f.parts)
	if f.setting > 0 {
		here := place{follows: true}
		for _, c := range f.way.Corners(up(f.setting)) {
			all = append(all, part{name: "cutter", back: here, front: here, offX: c[0], offY: c[1]})
		}
	}
	var least *wall
	room, who, at := offaxis.LeastRoom, "", qty.Length(0)
	for i := range all {
		for w := range f.walls {
			if f.walls[w].floor {
				continue
			}
			if r, depth, ok := all[i].meet(&f.walls[w], s); ok && r < room {
				room, who, at, least = r, all[i].name, depth, &f.walls[w]
			}
		}
	}
	if least != nil && !f.out.Blames(f.line, script.KindClearance) {
		f.add(f.letter, script.KindClearance, fmt.Sprintf("off the axis %s has %s of room in %s with the tip at %s", who, f.say(room), least.name, f.deep(at)),
			f.say(offaxis.LeastRoom)+" on radius at least")
	}
}

// tipFeed finds the tip in metal that is not to be cut, in a feed move.
func (f *follower) tipFeed(s *stroke) {
	if f.setting == 0 {
		return
	}
	tip := f.tip(rs274.Clockwise)
	for i := range f.walls {
		w := &f.walls[i]
		if w.floor {
			continue
		}
		room, depth, ok := tip.meet(w, s)
		if !ok {
			continue
		}
		f.closest(w, &tip, room, depth)
		if room <= 0 {
			f.add(f.letter, script.KindClearance, fmt.Sprintf("the cutter, set to %s, cuts into %s (%s), from %s",
				f.dia(f.setting), w.name, f.dia(qty.FromRadius(w.radius)), f.deep(depth)), "nothing but the bore of the plan is cut")
		}
	}
	f.tipFloor(&tip, s)
}

func (f *follower) tipFloor(tip *part, s *stroke) {
	for w := range f.walls {
		if f.walls[w].floor {
			f.toFloor(tip, &f.walls[w], s)
		}
	}
	if f.shape.floor != nil {
		f.toFloor(tip, f.shape.floor, s)
	}
}

// assumed says what the proof takes for granted.
func (f *follower) assumed() []string {
	out := []string{
		"The cutter is set at each stop to what the plan says; the program cannot show it.",
		"Remarks are held against the plan, whole, but for those listed as not held; a remark that is left out is not missed.",
		"Between stations there is an open chamber of unknown size: ribs, studs and lubrication lines in it are not checked.",
		"X0 Y0 is the true axis, Z0 the face that the spindle enters, and the cutter's tip is the point that the program steers.",
	}
	if f.letter == 'W' {
		out[3] = "X0 Y0 is the true axis, W0 the face that the spindle enters, and the cutter's tip is the point that the program steers."
	}
	out = append(out, f.around.Assumed()...)
	out = append(out, f.way.Assumed()...)
	if f.shape.station.Relief > 0 {
		out = append(out, "The run-out groove at the closed end is wider than the finished bore.")
	}
	if f.v.Shift() > 0 || f.way != nil {
		out = append(out, fmt.Sprintf("After M19 the tip points to %s, seen from the spindle: try it in the air before the first cut.", f.control.TipAtStop))
	}
	out = append(out, around.Bored(f.job, f.before)...)
	if f.job.Bar.Outboard != nil {
		out = append(out, around.Held(f.job))
	}
	return append(out, "The headstock, the table and the fixture are not checked; where the machine's zero lies within its travels is not known.")
}
