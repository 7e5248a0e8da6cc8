package passes_test

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/words"
)

// judged is a limit worked by hand: what a pass brings, and what is allowed.
type judged struct{ value, limit float64 }

func (j judged) ratio() float64 { return j.value / j.limit }

// The limits, as a sheet begins to tell them.
const (
	byDepth   = "depth of cut:"
	byNose    = "nose radius:"
	bySpring  = "spring:"
	byThin    = "chip: thick"
	byRub     = "chip: the edge rubs"
	byPower   = "power:"
	byTorque  = "torque:"
	byStress  = "bar stress:"
	byRa      = "roughness:"
	byRound   = "roundness:"
	bySize    = "size:"
	byNothing = "the machine's feeds:"
)

// pass is one cut with what stands around it: the depth of the pass before it
// at the same feed, and what it leaves of the old shape.
type handPass struct {
	kind          schedule.Kind
	depth, feed   float64
	speed, radius float64
	before        float64 // depth of the pass before it
	moves         int     // of the cutter, up to that one
	left          float64 // radial
}

// limits works every limit of a pass from the formulas of the books:
//
//	spring  2·(c·F_p − c_m·R·F_f) on diameter, c and c_m from the stiffness matrix of the bar
//	power   P = F_c·v_c (ISO 3002-4)
//	torque  M = F_c·R
//	stress  σ = M/W, W = π·D³/32, M of F_c and of F_p, each times the arm to the tip, that of F_p less F_f·R
//	Ra      f²/(18·√3·r), Boothroyd & Knight
//	size    the parts that are not known, by squares (JCGM 100)
//
// A feed of half the nose radius is a rule
// of the shop (common practice, no source), as are 2.5 times the edge's rounding
// for the least depth, a tenth of the spring that does not repeat, and 0.0025 mm
// for the rounding of two printed sizes.
func (m *handMill) limits(p handPass, c float64) map[string]judged {
	f := m.cut(p.depth, p.feed, p.speed, 0)
	least := m.minChip * m.rounding
	lean := m.lean(p.radius)
	spring := func(x handCut) float64 { return 2 * c * x.against(lean) }
	arm, stress := 0.0, 0.0
	for i := len(m.steps) - 1; i >= 0; i-- {
		arm += m.steps[i].l
		stress = math.Max(stress, math.Hypot(f.cutting*arm, f.radial*arm-f.feed*p.radius)/(math.Pi*math.Pow(m.steps[i].d, 3)/32))
	}
	out := map[string]judged{
		byDepth:  {p.depth, m.depthMost},
		byNose:   {p.feed, 0.5 * m.nose},
		byThin:   {least, f.area / f.edge},
		byRub:    {math.Max(2*least, 2.5*m.rounding), p.depth},
		byPower:  {f.cutting * p.speed / 60, m.power * 1e3},
		byTorque: {f.cutting * p.radius / 1e3, m.torque},
		byStress: {stress, m.allowed},
		bySpring: {spring(f), m.springRough},
	}
	switch p.kind {
	case schedule.SemiFinish:
		out[byRa] = judged{m.roughness(p.feed, p.depth), 2 * m.ra}
	case schedule.Finish:
		out[bySpring] = judged{spring(f), m.springFinish}
		out[byRa] = judged{m.roughness(p.feed, p.depth), m.ra}
		out[byRound] = judged{p.left + m.runout, m.round}
		out[bySize] = judged{m.doubt(m.cut(p.before, p.feed, p.speed, 0).sprung(c, lean), f.sprung(c, lean), p.moves) + p.left + m.runout/2 + 0.0025, (m.high - m.low) / 2}
	}
	return out
}

// sprung is a spring on diameter, and what of it the feed force makes: below 0 going in.
type sprung struct{ all, feed float64 }

// sprung is that of a bar of compliance c.
func (f handCut) sprung(c, lean float64) sprung {
	return sprung{2 * c * f.against(lean), -2 * c * lean * f.feed}
}

// feedAlone is how far feed force may be off by itself, over what all forces are off
// alike: 0.4 to 0.3, so that it is known to ±50 % where the others are to ±30 % (the
// measured turning of package cut).
const feedAlone = 0.4 / 0.3

// doubt is how far a size may be off after a measured cut by which it was
// corrected, ± on diameter: how the cutter is set, how the bore is gauged, α·D·ΔT,
// a tenth of each spring, and on both the error of all forces and of feed force alone.
func (m *handMill) doubt(was, now sprung, moves int, worn ...[2]float64) float64 {
	warm := m.alpha * (m.low + m.high) / 2 * m.kelvin
	// What each cause does to the size found and to the size to come, ± (95 %):
	// the first setting, the second or the move, gauge, all forces, feed force, and
	// the repeats of the two springs.
	found := []float64{m.setting, 0, m.gauge, m.forceError * was.all, feedAlone * m.forceError * was.feed, 0.1 * was.all, 0}
	next := []float64{0, m.setting, 0, m.forceError * now.all, feedAlone * m.forceError * now.feed, 0, 0.1 * now.all}
	if m.setBy == "increment" {
		// The first setting of all, over the bar, ±0.013 (common practice, no
		// source) or no better than a move, and every move up to the cut that was
		// gauged stay in the next.
		found[0], next[0] = math.Max(0.013, m.setting), math.Max(0.013, m.setting)
		for range moves {
			found, next = append(found, m.setting), append(next, m.setting)
		}
	}
	for _, w := range worn { // one edge both times, worn as much more as it may be
		found, next = append(found, w[0]), append(next, w[1])
	}
	// Of jointly normal figures the one that is not known scatters, the other
	// given, by what is left of its variance (any text; JCGM 102).
	a, b := mat.NewVecDense(len(found), found), mat.NewVecDense(len(next), next)
	left := mat.Dot(b, b) + warm*warm
	if v := mat.Dot(a, a); v > 0 {
		left -= math.Pow(mat.Dot(a, b), 2) / v
	}
	return math.Sqrt(left)
}

// ladder is feeds so close together that a limit is met to the spacing.
func ladder(from, to, step float64) []float64 {
	var out []float64
	for f := from; f < to; f *= step {
		out = append(out, math.Round(f*1e5)/1e5)
	}
	return out
}

var figure = regexp.MustCompile(`[0-9]+(\.[0-9]+)?`)

// inMetric is a fact as a metric reader reads it.
func inMetric(f fact.Fact) string { return words.In(qty.Metric).Say(f) }

// figures are the numbers of a text.
func figures(s string) []float64 {
	var out []float64
	for _, x := range figure.FindAllString(s, -1) {
		v, _ := strconv.ParseFloat(x, 64)
		out = append(out, v)
	}
	return out
}

// For each limit a job in which it binds. Every pass keeps every limit by hand;
// the pass that the limit binds would be past it, and past no other further, at
// the next feed up or a step deeper; and the figure that is told is the figure
// by hand.
func TestLimitsByHand(t *testing.T) {
	const close = 0.015 // hand against planner: tables and print
	for _, x := range []struct {
		by     string
		kind   schedule.Kind
		change func(*handMill)
		scale  float64 // from the unit of the limit to that of the text
		digits float64 // half a step of the printed figure
	}{
		{byPower, schedule.Rough, func(m *handMill) { m.power = 1.3 }, 1e-3, 0.05},
		{byTorque, schedule.Rough, func(m *handMill) { m.torque, m.power, m.speeds = 40, 2, []float64{100, 160, 250, 500} }, 1, 0.5},
		{byStress, schedule.Rough, func(m *handMill) { m.steps, m.allowed = []handStep{{50, 150}}, 10 }, 1, 0.5},
		{byStress, schedule.Rough, func(m *handMill) {
			m.steps, m.allowed = []handStep{{60, 30}, {50, 130}}, 10
		}, 1, 0.5},
		{bySpring, schedule.Rough, func(m *handMill) {
			m.steps, m.springRough, m.springFinish, m.passes = []handStep{{60, 300}}, 0.01, 0.01, 12
		}, 1, 0.00005},
		{byNose, schedule.Rough, func(m *handMill) { m.nose = 0.4 }, 1, 0.0005},
		{byDepth, schedule.Rough, func(m *handMill) { m.depthMost = 1; m.feeds = []float64{0.2} }, 1, 0.0005},
		{bySpring, schedule.Finish, func(m *handMill) { m.springFinish = 0.0008 }, 1, 0.00005},
		{byRa, schedule.Finish, func(m *handMill) { m.ra = 1.6 }, 1, 0.05},
		{bySize, schedule.Finish, func(m *handMill) {
			m.low, m.high, m.radial, m.springFinish, m.springRough = 99.9865, 100.0135, 3, 0.06, 0.5
			m.nose, m.ra, m.to, m.setBy, m.dial = 1.6, 12.5, 180, "increment", 0.001
			m.damping = [2]float64{0.45, 0.48}
		}, 1, 0.0005},
		{byNothing, schedule.Finish, func(m *handMill) { m.feeds = []float64{0.05, 0.1} }, 1, 0},
	} {
		m := usualMill()
		m.start, m.feeds = 95, ladder(0.05, 0.6, 1.05)
		x.change(&m)
		p, ps := m.plan(t)
		c := m.compliance()
		rLeast := m.start / 2
		bound := false
		for i, q := range ps {
			at := handPass{kind: q.Kind, depth: q.Depth.MM(), feed: q.Feed.MM(), speed: float64(q.Cutting), radius: rLeast + q.Depth.MM()}
			if i > 0 {
				at.before, at.moves = ps[i-1].Depth.MM(), i-1
			}
			rLeast = at.radius
			for by, j := range m.limits(at, c) {
				if j.ratio() > 1+close {
					t.Errorf("%s: %s pass %d, %.3f deep at %.4f: %s %.4g, %.4g allowed", x.by, q.Kind, q.N, at.depth, at.feed, by, j.value, j.limit)
				}
			}
			// How near it comes to each, as the plan lists them, the nearest first.
			by := m.limits(at, c)
			for n, l := range q.Limits {
				if n > 0 && l.Used > q.Limits[n-1].Used {
					t.Errorf("%s: %s pass %d lists %s behind a limit that is further", x.by, q.Kind, q.N, inMetric(l.What))
				}
				what := strings.Replace(inMetric(l.What), figure.FindString(inMetric(l.What))+" mm thick", "thick", 1)
				for name, j := range by {
					if !strings.HasPrefix(what, name) {
						continue
					}
					delete(by, name)
					if x.by != byDepth && name == byDepth {
						break // less for a slender bar
					}
					if math.Abs(l.Used-j.ratio()) > 0.01+2*close*j.ratio() {
						t.Errorf("%s: %s pass %d: %s: %.3f of it, by hand %.3f", x.by, q.Kind, q.N, what, l.Used, j.ratio())
					}
				}
			}
			for name := range by {
				t.Errorf("%s: %s pass %d does not list %q", x.by, q.Kind, q.N, name)
			}
			if q.Kind != x.kind || !strings.HasPrefix(inMetric(q.LimitedBy), x.by) {
				continue
			}
			bound = true
			if x.by == byNothing {
				if at.feed != m.feeds[len(m.feeds)-1] {
					t.Errorf("%s: a feed of %v, and the machine has faster ones", inMetric(q.LimitedBy), at.feed)
				}
				continue
			}
			next := at
			if _, deeper, is := strings.Cut(inMetric(q.LimitedBy), "if cut "); is {
				next.depth += figures(deeper)[0]
			} else {
				for k := len(m.feeds) - 1; k >= 0 && m.feeds[k] > at.feed*1.001; k-- {
					next.feed = m.feeds[k]
				}
			}
			all := m.limits(next, c)
			j := all[x.by]
			if j.ratio() < 1-close {
				t.Errorf("%s %s: by hand %.4g of %.4g, not past it", q.Kind, inMetric(q.LimitedBy), j.value, j.limit)
			}
			for by, k := range all {
				if k.ratio() > j.ratio()*(1+close) {
					t.Errorf("%s %s: by hand %s binds first, %.4g of %.4g", q.Kind, inMetric(q.LimitedBy), by, k.value, k.limit)
				}
			}
			if apart := figures(inMetric(q.LimitedBy))[0]; math.Abs(apart-j.value*x.scale) > x.digits+close*j.value*x.scale {
				t.Errorf("%s: %v by hand", inMetric(q.LimitedBy), j.value*x.scale)
			}
			if testing.Verbose() {
				t.Logf("%s pass %d: %s; by hand %.4g of %.4g", q.Kind, q.N, inMetric(q.LimitedBy), j.value, j.limit)
			}
		}
		if !bound {
			said := ""
			for _, q := range ps {
				said += fmt.Sprintf("\n%s %.3f deep at %.3f: %s", q.Kind, q.Depth.MM(), q.Feed.MM(), inMetric(q.LimitedBy))
			}
			t.Errorf("no %s pass is bound by %s: %s\n%v", x.kind, x.by, said, p.Cautions)
		}
	}
}
