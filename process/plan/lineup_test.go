package plan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	prop "pgregory.net/rapid"

	"borewright/process/files"
	"borewright/process/geom"
	"borewright/process/place"
	. "borewright/process/plan"
	"borewright/process/qty"
)

// casting is a casting on the table of a mill, in exact geometry and apart from
// package geom: x right, y up, z along the spindle into the work, in mm, from
// the spindle axis and the face. Its bores lie on one straight axis.
type casting struct {
	at, along [3]float64 // a place on the axis at the face, and its direction
}

func (c casting) turned(axis int, rad float64, pivot [3]float64) casting {
	s, k := math.Sincos(rad)
	spin := func(v [3]float64) [3]float64 {
		if axis == 1 { // about the vertical; positive: counterclockwise seen from above, the far end goes left
			return [3]float64{v[0]*k - v[2]*s, v[1], v[0]*s + v[2]*k}
		}
		return [3]float64{v[0], v[1]*k - v[2]*s, v[1]*s + v[2]*k} // about X; positive: the far end goes down
	}
	p := [3]float64{c.at[0] - pivot[0], c.at[1] - pivot[1], c.at[2] - pivot[2]}
	p = spin(p)
	for i := range p {
		p[i] += pivot[i]
	}
	return casting{p, spin(c.along)}
}

// sweep reads a bore of radius r at depth z: where does the ray from the dial's
// carrier, droop below the spindle axis, meet the cylinder. It is solved by
// bisection on the distance from the axis. What the dial shows is how far its
// plunger is pressed in.
func (c casting) sweep(r, z, droop, stylus float64, clocks []float64) []float64 {
	var out []float64
	for _, clock := range clocks {
		s, k := math.Sincos(clock * math.Pi / 180)
		off := func(t float64) float64 { // distance of the ray's point from the cylinder's axis
			p := [3]float64{t*s - c.at[0], -droop + t*k - c.at[1], z - c.at[2]}
			var along, sq float64
			for i := range p {
				along += p[i] * c.along[i]
				sq += p[i] * p[i]
			}
			return math.Sqrt(math.Max(0, sq-along*along))
		}
		lo, hi := 0.0, 2*r
		for range 80 {
			if mid := (lo + hi) / 2; off(mid) < r {
				lo = mid
			} else {
				hi = mid
			}
		}
		out = append(out, (r-lo)/math.Cos(stylus*math.Pi/180))
	}
	return out
}

var eight = []float64{0, 45, 90, 135, 180, 225, 270, 315}

// lineJob is a job file with sweeps of a front and a rear bore as the casting
// stands, the dial read to its graduation. The dial of the rear bore counts the
// other way.
func lineJob(c casting, grad, droop, stylus float64, two bool, extra string) string {
	list := func(v []float64) string {
		var s []string
		for _, x := range v {
			if grad > 0 {
				x = math.Round(x/grad) * grad
			}
			s = append(s, fmt.Sprintf("%.6f", x))
		}
		return "[" + strings.Join(s, ", ") + "]"
	}
	at := "[0, 45, 90, 135, 180, 225, 270, 315]"
	job := fmt.Sprintf(`
units = "mm"
number = "T-4"
revision = "-"
title = "lining up"
machine = "cnc-110mm"
material = "gray-iron-200hb"
station = [
  { name = "front", from = 0, to = 40, diameter = 120, swept = true },
  { name = "rear", from = 300, to = 360, diameter = 100, swept = true },
]
[[bore]]
station = "rear"
repair = "rebore"
finish = { diameter = 101, fit = "H7" }
offset = 0.1
[bar]
steps = [ { diameter = 100, length = 60 }, { diameter = 80, length = 400 } ]
[cutter]
material = "carbide"
nose_radius = 0.8
[lineup]
dial = %g
repeats = %g
coaxial = 0.002
%s
[[sweep]]
station = "front"
depth = 10
droop = %g
stylus = %g
at = %s
dial = %s
`, math.Max(grad, 0.0001), grad/2, extra, droop, stylus, at, list(c.sweep(60, 10, droop, stylus, eight)))
	if two {
		job += fmt.Sprintf("[[sweep]]\nstation = \"rear\"\ndepth = 330\ndroop = %g\nstylus = %g\nat = %s\ndial = %s\nlarger = \"further\"\n",
			droop, stylus, at, list(otherWay(c.sweep(50, 330, droop, stylus, eight))))
	}
	return job
}

func otherWay(dial []float64) []float64 {
	for i := range dial {
		dial[i] = -dial[i]
	}
	return dial
}

const stated = "table_centre = 150\ntable_stop = 600\npacks = [30, 340]"

// follow does what the plan says, and nothing else: by its words and its
// rounded figures.
func follow(c casting, l *place.LineUp, moves bool) casting {
	if s := l.Shim; s != nil {
		a, pivot := math.Asin(s.Thick/s.Over.MM()), 340.0 // near end up: the far end goes down
		if s.Under == geom.FarEnd {
			a, pivot = -a, 30
		}
		c = c.turned(0, a, [3]float64{0, -180, pivot})
	}
	if t := l.Turn; t != nil {
		a := math.Atan(t.AtStop / t.Stop.MM())
		if t.Sense == geom.Clockwise {
			a = -a
		}
		c = c.turned(1, a, [3]float64{70, 0, 150})
	}
	if moves {
		by := map[geom.Direction]float64{geom.Right: 1, geom.Left: -1, geom.Up: 1, geom.Down: -1, geom.Still: 0}
		for i, m := range l.Move { // the spindle goes one way, so the casting stands the other way
			c.at[i] -= by[m.Spindle] * math.Abs(m.By)
		}
	}
	return c
}

func planned(t interface{ Fatal(...any) }, text string) *Plan {
	job, err := files.Job("job.toml", []byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	p := Attempt(job, nil) // the trials of the passes alter no line-up
	if p.LineUp == nil {
		t.Fatal("no line-up: ", p.Cautions)
	}
	return p
}

// TestAdviceBringsTheSweepToZero goes from a casting anywhere near the spindle
// through the job file and the plan to the sweep after: shim and turn as the
// plan says, sweep again, move as the plan then says. What the dial shows is
// what the plan said it would, to within the dial's resolution; and with a dial
// that hangs as the bar does that is zero.
//
// The bound is worked out: rounding to graduation g moves a centre swept at
// eight places by at most (2/8)·(g/2)·Σ|cos| = 0.653 g, and the difference of
// two places shows that twice. On a mill with a control the moves are rounded to
// 1 µm in X and Y, so by 0.71 µm at most, which shows twice as well and over the
// cosine of the stylus; by hand they are rounded to half a graduation, and what that
// leaves is expected. What is expected is rounded to 1 µm. A last turn and shim are
// rounded to 1 µm at the stop, 600 mm off, and over packings 310 mm apart: at the
// front bore, 320 mm away, to 0.27 and 0.52 µm. A dial hung off the axis bends its
// own sweep by droop²/2R each way. In the bar itself how far it hangs is rounded to
// 1 µm, too, and a move by hand leaves a quarter of a graduation each way.
func TestAdviceBringsTheSweepToZero(t *testing.T) {
	prop.Check(t, func(t *prop.T) {
		f := func(lo, hi float64, what string) float64 { return prop.Float64Range(lo, hi).Draw(t, what) }
		tx, ty := f(-3e-3, 3e-3, "tilt x"), f(-3e-3, 3e-3, "tilt y")
		n := math.Sqrt(1 + tx*tx + ty*ty)
		c := casting{[3]float64{f(-0.8, 0.8, "x"), f(-0.8, 0.8, "y"), 0}, [3]float64{tx / n, ty / n, 1 / n}}
		grad := prop.SampledFrom([]float64{0, 0.002, 0.01}).Draw(t, "graduation")
		droop := prop.SampledFrom([]float64{0, 0.02, -1}).Draw(t, "droop")
		stylus := prop.SampledFrom([]float64{0, 15}).Draw(t, "stylus")
		if droop < 0 { // hung in the bar itself
			droop = planned(t, lineJob(c, grad, 0, 0, true, stated)).LineUp.Droop.MM()
		}
		byHand := prop.Bool().Draw(t, "by hand")
		text := func(c casting) string {
			job := lineJob(c, grad, droop, stylus, true, stated)
			if byHand {
				job = strings.Replace(job, "cnc-110mm", "hbm-5in", 1)
			}
			return job
		}
		for range 3 { // turn and shim until the plan calls for none
			l := planned(t, text(c)).LineUp
			if !l.SweepAgain {
				break
			}
			c = follow(c, l, false)
		}
		last := planned(t, text(c)).LineUp
		c = follow(c, last, true) // with a coarse dial it may still find a few hundredths of a mrad to turn
		read, bends := 2*0.653*grad, droop*droop/50+1e-5
		off := 0.00071
		if last.SweepAgain {
			off += math.Hypot(0.00027, 0.00052)
		}
		most := read + 2*off/math.Cos(stylus*math.Pi/180) + 0.0005 + bends
		for i, s := range last.Swept {
			r := []float64{60, 50}[i]
			got := c.sweep(r, s.Depth, droop, stylus, eight)
			if s.As.Further {
				got = otherWay(got)
			}
			for k := range got {
				if d := got[k] - got[0] - s.Expected[k].MM(); math.Abs(d) > most {
					t.Fatalf("%s at %v°: the dial shows %.4f, the plan said %v (off %.4f, at most %.4f)", s.Station, eight[k], got[k]-got[0], s.Expected[k].MM(), d, most)
				}
			}
		}
		// At the bore itself, droop of dial and bar apart, the sweep is zero.
		dial := c.sweep(50, 330, last.Droop.MM(), 0, eight)
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, v := range dial {
			lo, hi = math.Min(lo, v), math.Max(hi, v)
		}
		most = read + 2*math.Hypot(0.0005, 0.001) + bends
		if byHand {
			most += 2 * math.Hypot(0.0254/4, 0.0254/4)
		}
		// What the sweeps cannot tell is left alone, and is then no more than the plan says.
		for _, m := range last.Move {
			if m.Left > m.Unsure {
				t.Fatalf("left alone: %v, known to %v", m.Left, m.Unsure)
			}
		}
		most += 2 * math.Hypot(last.Move[0].Left.MM(), last.Move[1].Left.MM())
		if tir := hi - lo; tir > most {
			t.Fatalf("swept in the bar the bore runs %.4f, at most %.4f", tir, most)
		}
	})
}

// One bore swept at one depth: the plan says that the tilt is assumed, carries
// the place to the bore that cannot be seen with a wider uncertainty, and asks
// the witness cut.
func TestOneSweepIsSaidToAssume(t *testing.T) {
	c := casting{[3]float64{0.10, -0.05, 0}, [3]float64{0, 0, 1}}
	p := planned(t, lineJob(c, 0, 0, 0, false, ""))
	l := p.LineUp
	if !strings.Contains(said(p, l.Assumption), "machined face") || !strings.Contains(said(p, l.Confirm), "witness cut must show") {
		t.Errorf("assumption %v, confirm %v", l.Assumption, l.Confirm)
	}
	if l.Turn != nil || l.Shim != nil || l.SweepAgain {
		t.Errorf("turns on an assumption: %+v %+v", l.Turn, l.Shim)
	}
	// By hand: the cutter hangs l.Droop, so the spindle must stand that much
	// higher. X 0.10 right; Y −0.05 + droop.
	if m := l.Move[0]; m.By != 0.1 || m.Spindle != geom.Right || m.Work != geom.Left || m.Graduations != 100 {
		t.Errorf("X: %+v", m)
	}
	if m := l.Move[1]; qty.FromMM(m.By) != -50*qty.Micrometre+l.Droop || m.Spindle != geom.Down {
		t.Errorf("Y: %+v, droop %v", m, l.Droop)
	}
	front, rear := l.At[0].Uncertainty, l.At[1].Uncertainty
	if rear < 0.1e-3*310 || front > rear/2 {
		t.Errorf("known to ± %.4f in front and ± %.4f behind; ± 0.1 mrad carried 310 mm is 0.031", front, rear)
	}
	// TIR = 2 × offset.
	if got := l.Swept[0].TIR; math.Abs(got-2*math.Hypot(0.10, 0.05)) > 0.003 {
		t.Errorf("TIR %v", got)
	}
}

// Tilt of two sweeps by hand: 0.32 mm right over 320 mm is 1 mrad; the table
// goes 0.6 mm at a stop 600 mm off, counterclockwise seen from above, and the
// axis then stands where it stood at the table's centre, 150 mm deep.
func TestTurnByHand(t *testing.T) {
	c := casting{[3]float64{0, 0, 0}, [3]float64{1e-3, 0, 1}}
	l := planned(t, lineJob(c, 0, 0, 0, true, stated)).LineUp
	if l.Turn == nil || l.Turn.Sense != geom.Counterclockwise || l.Turn.FarEnd != geom.Left || math.Abs(l.Turn.AtStop-0.6) > 1.0001e-3 {
		t.Fatalf("%+v", l.Turn)
	}
	if l.Shim != nil {
		t.Errorf("shims a line that is level: %+v", l.Shim)
	}
	if m := l.Move[0]; math.Abs(m.By-0.150) > 1.0001e-3 {
		t.Errorf("X %v, want 0.150 mm", m.By)
	}
	// Without table or packings it says over what, and that the move is for now.
	l = planned(t, lineJob(c, 0, 0, 0, true, "")).LineUp
	if l.Turn == nil || l.Turn.Stop != 0 || l.Turn.Span != 300*qty.Millimetre || (l.Turn.PerSpan-300*qty.Micrometre).Abs() > qty.Micrometre || !l.Move[0].AsItStands {
		t.Errorf("%+v %+v", l.Turn, l.Move[0])
	}
}
