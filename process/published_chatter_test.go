package process_test

import (
	"fmt"
	"math"
	"testing"

	"borewright/process/bar"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/setup"
)

// freeLength is how far the boring bar of 6061-chatter.csv stood out of its clamp,
// mm, by the stickout behind it, in: what rings at the middle of the 900-1000,
// 1200-1300, 1600-1700 and 2900-3000 Hz that it chattered at (from memory,
// doubtful) if the clamp is rigid.
var freeLength = map[string]float64{"2.0": 109, "2.5": 95, "3.5": 83, "4.5": 62}

// clampedBar is that bar, steel of 15.9 mm, with the damping of a bar in a block
// with screws, 0.009 to 0.015 (Åkesson 2007, from memory, doubtful).
func clampedBar(t *testing.T, stickout string) *bar.Beam {
	t.Helper()
	return beamOf(t, rigid, 0, bar.Section{D: 15.9, Length: freeLength[stickout], E: 207000, Nu: 0.29, Rho: 7850, Damping: [2]float64{0.009, 0.015}})
}

// chatterOf is how a cut of that bar stands against chatter. Feed 0.05 mm is from
// memory; the diameter of the work is not known, and 100 mm is taken, as a lathe
// of 330 mm swing turns.
func chatterOf(t *testing.T, stickout string, rpm, depth float64) setup.Stability {
	t.Helper()
	const feed, diameter, rounding = 0.05, 100, 0.035
	m, b, land := edgeIn(t, "cast-aluminum", "carbide-coated", 0.38, 95), clampedBar(t, stickout), cut.NewEdge(rounding)
	speed := math.Pi * diameter * rpm / 1000
	first, err := b.First()
	if err != nil {
		t.Fatal(err)
	}
	lean := 15.9 / 2 * first.Turn // the tip stands at the side of the bar
	k, edge := m.Regen(depth, feed, speed, lean), m.Contact(depth, feed).Along(lean)
	indent := files.MaterialByID("cast-aluminum").Indentation
	return setup.Stability{Margin: [2]float64{
		b.CutLimit(bar.Least, b.ProcessDamping(edge, indent[0], land.Least, speed)) / k,
		b.CutLimit(bar.Most, b.ProcessDamping(edge, indent[1], land.Most, speed)) / k,
	}}
}

// publishedChatter: a bar's cuts that were stable, chattered or did either.
func publishedChatter(t *testing.T) []published {
	count := map[fact.Kind][2]int{} // of those that only chattered, of those that were only stable
	stable, chattering := 0, 0
	deepest, shallowest := map[string]float64{}, map[string]float64{} // stable; not
	var order []string
	for _, r := range records(t, "6061-chatter.csv") {
		depth, at := r.number(t, "depth_mm"), r["stickout_in"]+" "+r["rpm"]
		calm, wild := r["stable_series"] != "0", r["chatter_series"] != "0" || r["intermediate_series"] != "0"
		s := chatterOf(t, r["stickout_in"], r.number(t, "rpm"), depth)
		n := count[s.Chatter()]
		switch {
		case !calm && r["intermediate_series"] == "0":
			chattering++
			n[0]++
		case !wild:
			stable++
			n[1]++
		}
		count[s.Chatter()] = n
		if _, ok := deepest[at]; !ok {
			order, deepest[at] = append(order, at), 0
		}
		if !wild {
			deepest[at] = depth
		} else if shallowest[at] == 0 || shallowest[at] < deepest[at] {
			shallowest[at] = depth
		}
	}
	edges := published{what: "boring bar in aluminum: margin where chatter begins", band: 0.5}
	for _, at := range order {
		if deepest[at] == 0 || shallowest[at] < deepest[at] {
			continue // nothing stable below what chattered
		}
		var stickout string
		var rpm float64
		fmt.Sscan(at, &stickout, &rpm)
		s := chatterOf(t, stickout, rpm, math.Sqrt(deepest[at]*shallowest[at]))
		edges.points = append(edges.points, point{at: fmt.Sprintf("%s in behind the clamp, %g rev/min, depth %.2f", stickout, rpm, math.Sqrt(deepest[at]*shallowest[at])),
			ours: math.Sqrt(s.Margin[0] * s.Margin[1]), printed: 1})
	}
	slow, fast := chatterOf(t, "2.0", 320, 1.27), chatterOf(t, "2.0", 770, 1.27)
	edges.miss = fmt.Sprintf("feed, cutting speed, land and damping of these cuts are not published, and ours is the middle of a range. Of %d stable cuts %d are called certain to chatter, "+
		"of %d that chattered %d quiet. The longest bar, stable to 1.27 mm at 320 rev/min and not at 0.025 mm at 770: ours has %.2f to %.2f of the edge at 1.27 mm and 320, %.2f to %.2f at 770",
		stable, count[setup.WillChatter][1], chattering, count[setup.Quiet][0], slow.Margin[0], slow.Margin[1], fast.Margin[0], fast.Margin[1])
	if count[setup.Quiet][0] > 0 {
		t.Errorf("%d cuts that chattered are called quiet", count[setup.Quiet][0])
	}

	// At the same speed a longer bar chatters sooner, and the same bar sooner at a
	// higher speed: pairs of neighbours in the table, at 0.25 mm.
	var sooner published
	sooner.what, sooner.band = "the same: longer or faster is nearer to chatter, pairs", 0
	for _, p := range []struct {
		calm, wild string  // stickout behind the clamp
		a, b       float64 // rev/min
	}{
		{"4.5", "3.5", 770, 770}, {"3.5", "2.5", 770, 770}, {"2.5", "2.0", 770, 770},
		{"2.5", "2.0", 570, 570}, {"2.0", "2.0", 320, 425}, {"2.0", "2.0", 425, 570},
		{"2.5", "2.5", 570, 770}, {"3.5", "3.5", 570, 770}, {"3.5", "3.5", 770, 1030},
		{"4.5", "4.5", 770, 1030},
	} {
		right := 0.0
		if a, b := chatterOf(t, p.calm, p.a, 0.25), chatterOf(t, p.wild, p.b, 0.25); a.Margin[1] > b.Margin[1] {
			right = 1
		}
		sooner.points = append(sooner.points, point{fmt.Sprintf("%s in at %g against %s in at %g rev/min", p.calm, p.a, p.wild, p.b), right, 1})
	}
	return []published{edges, sooner}
}
