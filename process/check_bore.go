package process

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"borewright/process/fit"
	"borewright/process/qty"
)

// check judges the job as a whole. Each check works from values that were read
// and found good, so that one mistake is told once.
func (c *checker) check() {
	c.checkStations()
	for i := range c.j.Bores {
		c.checkBore(i)
	}
	c.checkSleeve()
	c.checkBar()
	c.checkCutter()
	c.checkSweeps()
	if m := c.j.Machine; m != nil && c.j.Limits.SpeedMost > 0 && float64(c.j.Limits.SpeedMost) < m.Speeds.Least {
		c.badf("limits.speed_most", "allow at least that", "%s rev/min is slower than the slowest speed of the machine, %s", number(float64(c.j.Limits.SpeedMost)), number(m.Speeds.Least))
	}
}

func (c *checker) checkStations() {
	all := c.j.Stations
	seen := map[string]int{}
	for i, s := range all {
		at := el("station", i)
		if s.Name != "" {
			low := strings.ToLower(s.Name)
			if k, twice := seen[low]; twice {
				c.badf(at+".name", "give each station its own name", "%q is already the name of station %d", s.Name, k+1)
			} else {
				seen[low] = i
			}
		}
		long := c.has(at+".from", at+".to")
		if long && s.To <= s.From {
			c.badf(at+".to", "to must be deeper than from", "the station ends at %s, but begins at %s", c.len(s.To), c.len(s.From))
			long = false
		}
		if i > 0 && long && c.has(el("station", i-1)+".to", el("station", i-1)+".from") {
			switch before := all[i-1]; {
			case s.To <= before.From:
				c.badf(at+".from", "list the stations in the order the spindle meets them", "lies in front of %q, which is listed before it", before.Name)
			case s.From < before.To:
				c.badf(at+".from", "stations do not overlap: mend one of the depths", "begins at %s, inside %q, which ends at %s", c.len(s.From), before.Name, c.len(before.To))
			}
		}
		if s.Blind && i < len(all)-1 {
			c.bad(at+".blind", fmt.Sprintf("%q is closed at its end, yet %q lies behind it", s.Name, all[i+1].Name), "only the last station can be blind")
		}
		if c.given[at+".wall_most"] && c.has(at+".wall", at+".wall_most") && s.WallMost < s.Wall {
			c.badf(at+".wall_most", "the most metal around the bore cannot be less than wall", "%s is less than wall, %s", c.len(s.WallMost), c.len(s.Wall))
		}
	}
}

// finish reads the size that a bore must come to, in whichever of the four
// ways it is stated.
func (c *checker) finish(at string) Finish {
	if !c.given[at] {
		return Finish{} // missing: already said
	}
	on := func(k string) bool { return c.given[at+"."+k] }
	ways := [][]string{{"diameter", "fit"}, {"low", "high"}, {"diameter", "upper", "lower"}, {"mating", "clearance"}}
	const four = "write one of { diameter, fit }, { low, high }, { diameter, upper, lower } or { mating, clearance }"
	var there []string
	for _, k := range []string{"diameter", "fit", "low", "high", "upper", "lower", "mating", "clearance"} {
		if on(k) {
			there = append(there, k)
		}
	}
	way := slices.IndexFunc(ways, func(w []string) bool {
		return len(w) == len(there) && !slices.ContainsFunc(there, func(k string) bool { return !slices.Contains(w, k) })
	})
	if way < 0 {
		what := "states no size"
		if len(there) > 0 {
			what = "is stated by " + strings.Join(there, ", ")
			for _, w := range ways { // part of one way: name what is missing
				if !slices.ContainsFunc(there, func(k string) bool { return !slices.Contains(w, k) }) {
					what += " alone"
					break
				}
			}
		}
		c.bad(at, what, four)
		return Finish{}
	}
	for _, k := range ways[way] {
		if !c.has(at + "." + k) {
			return Finish{} // already said
		}
	}
	var f Finish
	switch way {
	case 0:
		f.Nominal, f.Fit = c.diameter(at+".diameter"), c.text(at+".fit")
		l, err := fit.Hole(f.Nominal, f.Fit)
		if err != nil {
			if strings.Contains(f.Fit, "/") {
				err = fmt.Errorf("%q names both parts; give the class of the hole alone, as \"H7\"", show(f.Fit))
			}
			what, allowed := advice(err, `write a hole class that the standard has at this size, as "H7"`)
			c.bad(at+".fit", what, allowed)
			return Finish{}
		}
		f.Low, f.High = f.Nominal.Plus(l.Lower), f.Nominal.Plus(l.Upper)
	case 1:
		f.Low, f.High = c.diameter(at+".low"), c.diameter(at+".high")
		f.Nominal = f.Low
	case 2:
		f.Nominal = c.diameter(at + ".diameter")
		f.Low, f.High = f.Nominal.Plus(c.length(at+".lower")), f.Nominal.Plus(c.length(at+".upper"))
	case 3:
		gap := list[qty.Length](c.reader, at+".clearance")
		if len(gap) != 2 {
			return Finish{}
		}
		f.Mating, f.Clearance = c.diameter(at+".mating"), [2]qty.Length{gap[0], gap[1]}
		f.Nominal, f.Low, f.High = f.Mating, f.Mating.Plus(gap[0]), f.Mating.Plus(gap[1])
	}
	key := at + "." + [...]string{"fit", "high", "upper", "clearance"}[way]
	switch {
	case f.Low > f.High && way == 3:
		c.badf(key, "write the least first", "the least clearance, %s, is above the most, %s", c.len(f.Clearance[0]), c.len(f.Clearance[1]))
	case f.Low > f.High:
		c.badf(key, "the low limit comes first", "the limits stand the wrong way round: low %s, high %s", c.dia(f.Low), c.dia(f.High))
	case f.Low == f.High:
		c.bad(key, "the limits leave no tolerance", "write a smallest and a largest size that differ")
	case f.Low <= 0:
		c.bad(key, "the low limit is not a size", "check the deviations: they are on diameter, with their sign")
	default:
		return f
	}
	return Finish{}
}

// at is the station of an index, nil when it is not known.
func (c *checker) at(station int) *Station {
	if station < 0 || station >= len(c.j.Stations) {
		return nil
	}
	return &c.j.Stations[station]
}

func (c *checker) checkBore(i int) {
	b, at := c.j.Bores[i], el("bore", i)
	s := c.at(b.Station)
	if s == nil {
		return
	}
	for k := range i {
		if c.j.Bores[k].Station == b.Station {
			c.badf(at+".station", "one entry a bore: put both into one", "%q is already restored by bore %d", s.Name, k+1)
		}
	}
	st := el("station", b.Station)
	sound := c.checkWear(i, s)
	if !c.has(st+".diameter") || !c.has(at+".repair") {
		return
	}
	cut := b.Finish.High // largest size that is bored in the parent metal
	if b.Repair == Rebore && b.Finish.High > 0 {
		key := at + ".finish"
		most := mostWorn(b)
		switch {
		case b.Finish.High < s.Diameter:
			c.badf(key, `a bore cannot be bored smaller: choose a larger size, or repair = "sleeve"`,
				"%s is smaller than the bore is now, %s", c.dia(b.Finish.High), c.dia(s.Diameter))
		case sound && b.Finish.High < most:
			c.badf(key, `choose at least that and a little to clean up, or repair = "sleeve"`,
				"%s will not clean up: the readings reach %s about the true axis", c.dia(b.Finish.High), c.dia(most))
		}
	}
	if b.Repair == SleeveRepair && c.j.Sleeve != nil {
		cut = c.j.Sleeve.Outside
	}
	if gone := cut.Minus(s.Diameter) / 2; s.Wall > 0 && gone >= s.Wall {
		c.badf(st+".wall", "nothing would be left of the wall: check wall and the size",
			"boring to %s takes %s off a wall of %s", c.dia(cut), c.len(gone), c.len(s.Wall))
	}
	if s.Blind && cut > 0 {
		c.checkBottom(b.Station, cut.Minus(s.Diameter)/2)
	}
}

// lightCut is the least depth of cut that a blind bottom must leave room for:
// a finishing pass.
const lightCut = qty.Millimetre / 4

// checkBottom sees that the nose and the edge in front of it have room at a
// blind bottom. With the tip at the end of the bore the edge stands in front
// of it by r + a·cot κr (r nose radius, a depth of cut, κr lead), from the
// drawing of the tool; the true figure for a straight edge is a little less.
func (c *checker) checkBottom(station int, stock qty.Length) {
	k := c.j.Cutter
	key := el("station", station) + ".relief"
	if !c.has("cutter.nose_radius", "cutter.lead") || !c.has(key) {
		return
	}
	s := c.j.Stations[station]
	a := min(max(stock, 0), lightCut)
	need := k.NoseRadius + qty.FromMM(math.Max(0, a.MM()/math.Tan(k.Lead*math.Pi/180)))
	if s.Relief >= need {
		return
	}
	if !c.given[key] {
		c.badf(el("station", station)+".blind", "write relief = … at this station, or cut the groove first",
			"the bottom has no relief: nose radius %s and a light cut at %s° need %s to run out", c.len(k.NoseRadius), number(k.Lead), c.len(need))
		return
	}
	c.badf(key, "cut a wider groove, or use a smaller nose radius or a steeper lead",
		"a groove of %s is too narrow: nose radius %s and a light cut at %s° need %s", c.len(s.Relief), c.len(k.NoseRadius), number(k.Lead), c.len(need))
}

// mostWorn is the largest diameter about the true axis that the readings show;
// 0 without readings.
func mostWorn(b Bore) qty.Diameter {
	var most qty.Diameter
	for _, w := range b.Wear {
		for _, r := range w.Radius {
			most = max(most, qty.FromRadius(r))
		}
		for _, d := range w.Across {
			most = max(most, d)
		}
	}
	return most
}

// checkWear judges the readings of bore i. It reports whether they can belong
// to the bore at all, so that more may be concluded from them.
func (c *checker) checkWear(i int, s *Station) bool {
	sound := true
	st := el("station", c.j.Bores[i].Station)
	for k, w := range c.j.Bores[i].Wear {
		at := el(el("bore", i)+".wear", k)
		if c.has(at+".depth", st+".from", st+".to") && s.From < s.To && (w.Depth < s.From || w.Depth > s.To) {
			c.badf(at+".depth", fmt.Sprintf("%q lies from %s to %s; depths count from the face", s.Name, c.len(s.From), c.len(s.To)),
				"%s is outside the bore", c.len(w.Depth))
		}
		radius, across := c.given[at+".radius"], c.given[at+".across"]
		switch {
		case radius && across:
			c.bad(at, "has both radius and across", "give one: radius from the true axis, or diameters across")
			continue
		case !radius && !across:
			c.bad(at, "has no readings", "write radius = [ … ] (from the true axis) or across = [ … ] (diameters), one for each clock position")
			continue
		}
		key, n, least, turn := at+".radius", len(w.Radius), 3, 360.0
		if across {
			key, n, least, turn = at+".across", len(w.Across), 2, 180.0
		}
		if !c.has(key) || !c.has(at+".at") {
			continue
		}
		c.checkClock(at+".at", w.At, turn)
		switch {
		case n != len(w.At):
			c.badf(key, "give one reading for each clock position", "%d readings for %d clock positions", n, len(w.At))
		case n < least:
			c.badf(key, fmt.Sprintf("take at least %d, spread around the bore", least), "%s cannot tell the shape", count(n, "reading"))
		}
		if c.has(st+".diameter") && !c.checkSlip(key, w, s) {
			sound = false
		}
	}
	return sound
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// checkClock refuses the same clock position twice; turn is 180 where a
// reading across stands for both ends.
func (c *checker) checkClock(at string, clock []float64, turn float64) {
	for i, a := range clock {
		for k := range i {
			if d := math.Abs(math.Mod(a-clock[k], turn)); d < 1e-6 || turn-d < 1e-6 {
				words := fmt.Sprintf("%s° stands here twice", number(a))
				if a != clock[k] {
					words = fmt.Sprintf("%s° and %s° are the same line across the bore", number(clock[k]), number(a))
				}
				c.bad(el(at, i), words, "give each clock position once")
				return
			}
		}
	}
}

// checkSlip catches a reading in the wrong unit or a diameter for a radius. It
// tells the first of a list (the rest follow from it) and reports whether all
// are plausible.
func (c *checker) checkSlip(key string, w Reading, s *Station) bool {
	base, name := s.Diameter.Radius(), "radius"
	values := w.Radius
	if len(w.Across) > 0 {
		base, name, values = qty.Length(s.Diameter), "diameter", nil
		for _, d := range w.Across {
			values = append(values, qty.Length(d))
		}
	}
	for i, v := range values {
		ratio := v.MM() / base.MM()
		if ratio >= 0.8 && ratio <= 1.2 {
			continue
		}
		near := func(x float64) bool { return ratio > 0.8*x && ratio < 1.2*x }
		allowed := "check the reading and the station's diameter"
		switch {
		case near(2) && len(w.Radius) > 0:
			allowed = "if these are diameters, write across instead of radius"
		case near(0.5) && len(w.Across) > 0:
			allowed = "if these are radii from the true axis, write radius instead of across"
		case near(25.4), near(50.8):
			allowed = "this looks like mm in a file in inches: write it as \"80 mm\", or convert it"
		case near(1 / 25.4), near(2 / 25.4), near(0.5 / 25.4):
			allowed = "this looks like inches in a file in mm: write it as \"3.15 in\", or convert it"
		case ratio < 0.1:
			allowed = "write the " + name + " itself, not the wear"
		}
		c.badf(el(key, i), allowed, "%s cannot belong to a bore of %s %s", c.len(v), name, c.len(base))
		return false
	}
	return true
}

func (c *checker) checkSleeve() {
	sleeved := -1
	for i, b := range c.j.Bores {
		if b.Repair == SleeveRepair {
			if sleeved = i; c.j.Sleeve == nil {
				c.bad(el("bore", i)+".repair", "is a sleeve, but the file has no [sleeve]", "write [sleeve] with material and outside")
			}
		}
	}
	s := c.j.Sleeve
	if s == nil {
		return
	}
	if sleeved < 0 && len(c.j.Bores) > 0 {
		c.bad("sleeve", `is described, but no bore has repair = "sleeve"`, "leave it out, or say which bore is sleeved")
		return
	}
	switch {
	case s.Hold == Press && c.given["sleeve.gap"]:
		c.bad("sleeve.gap", "a pressed sleeve has no gap", `write hold = "bond", or give fit = "H7/p6" instead`)
	case s.Hold == Bond && c.given["sleeve.fit"]:
		c.bad("sleeve.fit", "a bonded sleeve is not pressed", `write gap = … instead, or hold = "press"`)
	case s.Hold == Press && s.Outside > 0 && s.Fit != "":
		hole, shaft, err := fit.Pair(s.Outside, s.Fit)
		if err != nil {
			what, allowed := advice(err, `write housing and sleeve as the standard has them at this size, as "H7/p6"`)
			c.bad("sleeve.fit", what, allowed)
		} else if tight := shaft.Upper - hole.Lower; tight <= 0 {
			c.badf("sleeve.fit", `choose a press fit such as "H7/p6" or "H7/s6", or hold = "bond"`, "%s leaves clearance at every size: the sleeve would fall out", s.Fit)
		}
	}
	if !c.has("sleeve.outside") {
		return
	}
	for _, b := range c.j.Bores {
		st := c.at(b.Station)
		if b.Repair != SleeveRepair || st == nil {
			continue
		}
		if c.has(el("station", b.Station) + ".diameter") {
			switch most := mostWorn(b); {
			case s.Outside <= st.Diameter:
				c.badf("sleeve.outside", "the housing is bored out for the sleeve: choose a larger one",
					"%s is not larger than %q is now, %s", c.dia(s.Outside), st.Name, c.dia(st.Diameter))
			case s.Outside < most && most < st.Diameter+st.Diameter/5:
				c.badf("sleeve.outside", "choose at least that and a little to clean up",
					"%s will not clean up %q: its readings reach %s about the true axis", c.dia(s.Outside), st.Name, c.dia(most))
			}
		}
		if s.Length > st.Length() && c.has(el("station", b.Station)+".from", el("station", b.Station)+".to") {
			c.badf("sleeve.length", "it cannot be longer than its housing", "%s is longer than %q, %s", c.len(s.Length), st.Name, c.len(st.Length()))
		}
		if b.Finish.High == 0 {
			continue
		}
		wall := s.Outside.Minus(b.Finish.High) / 2
		least := max(qty.Millimetre, qty.Length(s.Outside)/100)
		switch {
		case wall <= 0:
			c.badf("sleeve.outside", "the sleeve must be larger outside than inside",
				"%s outside leaves nothing of a sleeve bored to %s", c.dia(s.Outside), c.dia(b.Finish.High))
		case wall < least:
			c.badf("sleeve.outside", fmt.Sprintf("leave at least %s of wall", c.len(least)),
				"a wall of %s is too thin to press or bond and bore", c.len(wall))
		case s.Allowance/2 >= qty.Length(b.Finish.Low)/2-qty.Millimetre:
			c.badf("sleeve.allowance", "it is left inside for boring, on diameter", "%s would leave no hole in the sleeve", c.len(s.Allowance))
		}
	}
}

func (c *checker) checkSweeps() {
	for i, w := range c.j.Sweeps {
		at := el("sweep", i)
		if c.has(at+".at", at+".dial") {
			c.checkClock(at+".at", w.At, 360)
			if len(w.At) != len(w.Dial) {
				c.badf(at+".dial", "give one reading for each clock position", "%d readings for %d clock positions", len(w.Dial), len(w.At))
			}
		}
		s := c.at(w.Station)
		if s == nil {
			continue
		}
		st := el("station", w.Station)
		if !s.Swept {
			c.badf(at+".station", "write swept = true there, if a dial can be run around it", "%q is not a station that can be swept", s.Name)
		}
		if !w.Face {
			switch {
			case !c.given[at+".depth"]:
				c.bad(at+".depth", "is missing", "write depth = … : where in the bore the dial ran (or face = true)")
			case c.has(at+".depth", st+".from", st+".to") && s.From < s.To && (w.Depth < s.From || w.Depth > s.To):
				c.badf(at+".depth", fmt.Sprintf("%q lies from %s to %s; depths count from the face", s.Name, c.len(s.From), c.len(s.To)), "%s is outside the bore", c.len(w.Depth))
			}
			if c.given[at+".diameter"] {
				c.bad(at+".diameter", "is for a dial on a face", "leave it out, or write face = true")
			}
			continue
		}
		switch {
		case !c.given[at+".diameter"]:
			c.bad(at+".diameter", "is missing", "write diameter = … : the circle that the dial ran on")
		case c.has(at+".diameter", st+".diameter") && w.Diameter <= s.Diameter:
			c.badf(at+".diameter", "the circle on a face is larger than the bore in it", "%s is not larger than %q, %s", c.dia(w.Diameter), s.Name, c.dia(s.Diameter))
		}
	}
}
