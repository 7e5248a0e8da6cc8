package feature

import (
	"fmt"
	"math"
	"strings"

	"borewright/process/qty"
)

// Body is the sleeve and the place that the features are held against.
type Body struct {
	Units   qty.Unit
	Outside qty.Diameter
	Bore    qty.Diameter // finished, the largest allowed
	Length  qty.Length
	Least   qty.Length   // wall that must be left anywhere
	Blind   bool         // the far end of the housing is closed
	Hub     qty.Length   // least metal around the bored housing; 0: not known
	Front   qty.Diameter // of the station that ends where the seat begins; 0: none, the face is free
	Step    bool         // something stands behind the far end that the sleeve's end can bear on
}

// Wall is the finished wall, at the thinnest.
func (b Body) Wall() qty.Length { return b.Outside.Minus(b.Bore) / 2 }

func (b Body) say(l qty.Length) string {
	s := b.Units.Format(l)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s + " " + b.Units.String()
}

func (b Body) dia(d qty.Diameter) string { return "Ø" + b.say(d.Length()) }

// Fault is a mistake among the features: the key under the sleeve's table, what is
// wrong, and what would be right.
type Fault struct{ Key, What, Allowed string }

type faults struct {
	b   Body
	m   *Made
	out []Fault
}

func (f *faults) bad(key, allowed, format string, a ...any) {
	f.out = append(f.out, Fault{key, fmt.Sprintf(format, a...), allowed})
}

// Faults are the mistakes among the features: what does not fit the ring, and what is in
// the way of something else. Each is told once, at the key to change.
func (m *Made) Faults(b Body) []Fault {
	f := &faults{b: b, m: m}
	f.stop()
	f.grooves()
	f.holes()
	f.pin()
	f.nose()
	f.mouth()
	return f.out
}

// lipOver is how far a flange stands out over the seat at the least, so that it bears
// beyond the broken edge of the housing. Common practice, no source; usual are 3 to 5 mm.
const lipOver = 3 * qty.Millimetre / 2

func (f *faults) stop() {
	s, b := f.m.Stop, f.b
	switch {
	case s == nil:
	case s.By == Shoulder:
		if s.Diameter > 0 || s.Thickness > 0 || s.End == Far {
			f.bad("stop", `leave diameter, thickness and end out, or write by = "flange"`, "a shoulder is the housing's own step at its far end: the sleeve has no flange")
		} else if !b.Step {
			f.bad("stop.by", `write by = "flange", or describe the station that is the step: it begins where this one ends, and is smaller than the sleeve's outside`, "nothing stands behind the far end of the housing that the sleeve could bear on")
		}
	case s.Diameter == 0 || s.Thickness == 0:
		f.bad("stop", fmt.Sprintf("write diameter = %s, thickness = %s, or as the place has room for", b.bare(b.Outside.Plus(2*b.Wall()).Length()), b.bare(b.Wall())), "a flange needs its diameter and its thickness")
	case s.Diameter < b.Outside.Plus(2*lipOver):
		f.bad("stop.diameter", fmt.Sprintf("make it %s at least", b.dia(b.Outside.Plus(2*lipOver))), "a flange of %s hardly bears beyond the seat of %s", b.dia(s.Diameter), b.dia(b.Outside))
	case s.End == Far && b.Blind:
		f.bad("stop.end", `write end = "near"`, "the far end of the housing is closed: no flange goes there")
	case s.End == Near && b.Front > 0 && s.Diameter >= b.Front:
		f.bad("stop.diameter", fmt.Sprintf("make it smaller than %s", b.dia(b.Front)), "a flange of %s does not go into the bore of %s in front of the seat", b.dia(s.Diameter), b.dia(b.Front))
	}
}

// bare is a length as a key has it, without its unit.
func (b Body) bare(l qty.Length) string { return strings.TrimSuffix(b.say(l), " "+b.Units.String()) }

// FlangeAt is whether a flange stands at an end.
func (m *Made) FlangeAt(e End) bool { return m.Stop != nil && m.Stop.By == Flange && m.Stop.End == e }

func (f *faults) grooves() {
	b := f.b
	for i, g := range f.m.Grooves {
		key := fmt.Sprintf("groove[%d]", i)
		left := b.Wall() - g.Depth
		switch {
		case g.Along() && g.Length == 0:
			f.bad(key+".at", "write length, or leave at out: it then runs round", "a groove along the bore needs its length")
			continue
		case !g.Along() && g.Length > 0:
			f.bad(key+".length", `leave it out, or write at = ["3"] with the hours that it runs along at`, "a groove that runs round has no length")
			continue
		case g.To() > b.Length:
			f.bad(key, fmt.Sprintf("depths are from the near end of the sleeve, which is %s long", b.say(b.Length)), "a groove from %s to %s ends beyond the sleeve", b.say(g.From), b.say(g.To()))
			continue
		case left < b.Least:
			f.bad(key+".depth", fmt.Sprintf("make it %s at most, or the outside larger", b.say(max(0, b.Wall()-b.Least))), "a groove %s deep leaves %s of a wall of %s, and %s is the least", b.say(g.Depth), b.say(left), b.say(b.Wall()), b.say(b.Least))
		case g.Kind == Oil && g.Depth > b.Wall()/2:
			f.bad(key+".depth", fmt.Sprintf("a third of the wall is usual, %s; half is the most", b.say(b.Wall()/3)), "an oil groove %s deep goes through more than half the wall of %s", b.say(g.Depth), b.say(b.Wall()))
		case !g.Along() && (g.From < g.Depth && !f.m.FlangeAt(Near) || b.Length-g.To() < g.Depth && !f.m.FlangeAt(Far)):
			f.bad(key+".from", fmt.Sprintf("keep it %s or more from both ends", b.say(max(g.Depth, b.Wall()))), "the lip between a groove from %s to %s and the end would break away", b.say(g.From), b.say(g.To()))
		}
		for _, h := range f.m.Grooves[:i] {
			f.cross(i, g, h)
		}
	}
}

// cross holds two grooves against each other. Oil grooves may meet; a seal stands alone.
func (f *faults) cross(i int, g, h Groove) {
	apart := g.From >= h.To() || h.From >= g.To()
	alike := g.Along() != h.Along() && g.Kind == Oil && h.Kind == Oil
	if apart || alike {
		return
	}
	if g.Along() && h.Along() && !f.meet(g.At, g.Width, h.At, h.Width) {
		return
	}
	f.bad(fmt.Sprintf("groove[%d].from", i), "move one of them: only oil grooves meet, one round and one along", "the %s groove from %s to %s runs into the %s groove from %s to %s",
		g.Kind, f.b.say(g.From), f.b.say(g.To()), h.Kind, f.b.say(h.From), f.b.say(h.To()))
}

// meet is whether anything so wide at one of these clock positions overlaps anything at
// one of those, on the joint.
func (f *faults) meet(these []float64, wide qty.Length, those []float64, wide2 qty.Length) bool {
	_, ok := f.where(these, wide, those, wide2)
	return ok
}

func (f *faults) where(these []float64, wide qty.Length, those []float64, wide2 qty.Length) (at float64, ok bool) {
	for _, p := range these {
		for _, q := range those {
			if apart(p, q)*math.Pi/180*f.b.Outside.MM()/2 < (wide+wide2).MM()/2 {
				return p, true
			}
		}
	}
	return 0, false
}

// apart is the angle between two clock positions, degrees.
func apart(p, q float64) float64 {
	d := math.Mod(math.Abs(p-q), 360)
	return math.Min(d, 360-d)
}

func (f *faults) clock(at float64) string { return f.b.Units.Say(qty.KindClock.Of(at)) }

func (f *faults) holes() {
	b := f.b
	for i, h := range f.m.Holes {
		key, half := fmt.Sprintf("hole[%d]", i), h.Diameter.Length()/2
		switch {
		case h.Diameter > b.Bore/3:
			f.bad(key+".diameter", fmt.Sprintf("a twentieth of the bore is usual, %s", b.dia(b.Bore/20)), "a hole of %s is no oil hole in a bore of %s", b.dia(h.Diameter), b.dia(b.Bore))
			continue
		case h.Depth > b.Length:
			f.bad(key+".depth", fmt.Sprintf("depths are from the near end of the sleeve, which is %s long", b.say(b.Length)), "a hole at %s lies beyond the sleeve", b.say(h.Depth))
			continue
		case h.Depth < 2*half && !f.m.FlangeAt(Near) || b.Length-h.Depth < 2*half && !f.m.FlangeAt(Far):
			f.bad(key+".depth", fmt.Sprintf("keep its middle %s to %s deep", b.say(max(2*half, half+b.Wall())), b.say(b.Length-max(2*half, half+b.Wall()))), "a hole of %s at %s breaks out at the end of the sleeve, or nearly", b.dia(h.Diameter), b.say(h.Depth))
			continue
		}
		for _, g := range f.m.Grooves {
			if g.Kind == Seal && h.Depth > g.From-half && h.Depth < g.To()+half && (!g.Along() || f.meet(h.At, 2*half, g.At, g.Width)) {
				f.bad(key+".depth", fmt.Sprintf("put it at %s or less, or at %s or more, or move the groove", b.say(g.From-half), b.say(g.To()+half)), "a hole of %s at %s lies under the seal groove from %s to %s: the oil goes past the seal", b.dia(h.Diameter), b.say(h.Depth), b.say(g.From), b.say(g.To()))
			}
		}
		for k, o := range f.m.Holes[:i+1] {
			if k == i {
				for n, p := range h.At {
					if at, ok := f.where(h.At[:n], 4*half, []float64{p}, 4*half); ok {
						f.bad(key+".at", "leave a hole's diameter of metal between them", "two holes of %s at %s and %s lie on each other, or nearly", b.dia(h.Diameter), f.clock(at), f.clock(p))
						break
					}
				}
				continue
			}
			reach := max(h.Diameter, o.Diameter).Length() + half + o.Diameter.Length()/2
			if at, ok := f.where(h.At, reach, o.At, reach); ok && (h.Depth-o.Depth).Abs() < reach {
				f.bad(key+".depth", "leave a hole's diameter of metal between them", "the hole at %s, %s deep, lies on that at %s, or nearly", f.clock(at), b.say(h.Depth), b.say(o.Depth))
			}
		}
	}
}

func (f *faults) pin() {
	p, b := f.m.Pin, f.b
	if p == nil {
		return
	}
	half := p.Diameter.Length() / 2
	from, to := qty.Length(0), p.Length
	if p.End == Far {
		from, to = b.Length-p.Length, b.Length
	}
	switch {
	case half > b.Wall()*3/4:
		f.bad("pin.diameter", fmt.Sprintf("make it %s at most; about the wall is usual", b.dia(qty.Diameter(b.Wall()*3/2))), "half of a pin of %s leaves hardly any of a wall of %s", b.dia(p.Diameter), b.say(b.Wall()))
		return
	case b.Hub > 0 && half > b.Hub/2:
		f.bad("pin.diameter", fmt.Sprintf("make it %s at most", b.dia(qty.Diameter(b.Hub))), "half of a pin of %s takes more than half of the %s of metal around the housing", b.dia(p.Diameter), b.say(b.Hub))
		return
	case p.Length > b.Length:
		f.bad("pin.length", "two to three times its diameter is usual", "a pin of %s is longer than the sleeve, %s", b.say(p.Length), b.say(b.Length))
		return
	case p.End == Far && b.Blind:
		f.bad("pin.end", `write end = "near"`, "the far end of the joint is closed: no pin goes in there")
		return
	case f.m.FlangeAt(p.End):
		f.bad("pin.end", fmt.Sprintf("write end = %q, or leave the pin out and screw the flange down", End(1-p.End)), "the flange covers the joint at the %s end", p.End)
		return
	}
	for _, h := range f.m.Holes {
		r := h.Diameter.Length() / 2
		if at, ok := f.where(p.At, 2*half, h.At, 2*r); ok && h.Depth > from-r && h.Depth < to+r {
			f.bad("pin.at", "move one of them", "the pin at %s runs into the oil hole at %s", f.clock(at), b.say(h.Depth))
		}
	}
	for _, g := range f.m.Grooves {
		if g.From >= to || g.To() <= from || g.Along() && !f.meet(p.At, 2*half, g.At, g.Width) {
			continue
		}
		if left := b.Wall() - half - g.Depth; left < qty.Millimetre/2 {
			f.bad("pin.diameter", "take a thinner or shorter pin, or move the groove", "between the pin of %s and the groove from %s to %s there is hardly any metal", b.dia(p.Diameter), b.say(g.From), b.say(g.To()))
		}
	}
	if v := f.m.Vent; v != nil && v.By != Drilled {
		if at, ok := f.where(p.At, 2*half, []float64{v.At}, qty.FromMM(v.Wide(b.Outside))); ok {
			f.bad("pin.at", "move one of them", "the pin at %s stands in the %s that the air goes out by", f.clock(at), v.By)
		}
	}
}

func (f *faults) nose() {
	b := f.b
	if l := f.m.LeadIn; l != nil {
		switch {
		case l.OnDiameter() > b.Wall():
			f.bad("lead_in", "make it shorter or finer", "it takes %s off a wall of %s: more than half is gone at the nose", b.say(l.OnDiameter()/2), b.say(b.Wall()))
		case l.Length > b.Length/4:
			f.bad("lead_in.length", "a fortieth of the outside is usual", "a lead-in of %s takes more than a quarter of a sleeve of %s", b.say(l.Length), b.say(b.Length))
		}
	}
	v := f.m.Vent
	switch {
	case v == nil:
	case !b.Blind:
		f.bad("vent", "leave it out", "the far end of the housing is open: nothing is trapped behind the sleeve")
	case v.By == Channel && (v.Width == 0 || v.Depth == 0):
		f.bad("vent", fmt.Sprintf("write width = %s, depth = %s, or so", b.bare(b.Wall()/2), b.bare(b.Wall()/6)), "a vent groove needs its width and its depth")
	case v.By == Flat && (v.Depth == 0 || v.Width > 0):
		f.bad("vent", "write depth, and no width: a flat is as wide as its depth makes it", "a flat is made by its depth")
	case v.By == Drilled && (v.Width == 0 || v.Depth > 0):
		f.bad("vent", "write width, its diameter, and no depth", "a vent hole in the bottom is made by its diameter")
	case v.By != Drilled && v.Depth > b.Wall()/3:
		f.bad("vent.depth", fmt.Sprintf("make it %s at most", b.say(b.Wall()/3)), "a %s %s deep takes more than a third of the wall of %s", v.By, b.say(v.Depth), b.say(b.Wall()))
	case v.By != Drilled:
		for _, h := range f.m.Holes {
			if at, ok := f.where(h.At, h.Diameter.Length(), []float64{v.At}, qty.FromMM(v.Wide(b.Outside))); ok {
				f.bad("vent.at", "move one of them", "the %s meets the oil hole at %s: oil would run out by it", v.By, f.clock(at))
			}
		}
	}
}
